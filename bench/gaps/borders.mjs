// The middle lines of strokes that separate two true regions.
import { growUnderInk, raster } from 'underink';

/** Half the width of the window over which a border's pixel steps are smoothed, in steps. */
const SMOOTH = 5;

/**
 * The truth grown over all pixels, and the borders of its regions: chains of pixel corners between
 * two places where more than two regions meet or the picture ends, or closed ones. A chain has
 * `{ a, b, x, y, s, length, closed, meets: [id | -1, id | -1] }`: the two regions, smoothed points
 * with their arc lengths, and for each of its ends the corner where chains meet.
 */
export function findBorders(truth, width, height) {
  const unknown = truth.map((label) => (label === 0 ? 1 : 0));
  const grown = growUnderInk(
    raster(truth, [width, height]),
    raster(Uint8Array.from(unknown), [width, height]),
  ).data;
  return { grown, chains: traceChains(grown, width, height) };
}

/** Steps from a pixel corner: right, down, left, up. */
const DX = [1, 0, -1, 0];
const DY = [0, 1, 0, -1];

function traceChains(grown, width, height) {
  const pitch = width + 1;
  const at = (x, y) => (x < 0 || y < 0 || x >= width || y >= height ? 0 : grown[y * width + x]);
  // The two pixels beside the edge that leaves corner (x, y) in direction k.
  const beside = (x, y, k) => [
    at(x - (k === 2 ? 1 : k === 0 ? 0 : 1), y - (k === 3 ? 1 : k === 1 ? 0 : 1)),
    at(x - (k === 2 ? 1 : 0), y - (k === 3 ? 1 : 0)),
  ];
  const isEdge = (x, y, k) => {
    const [a, b] = beside(x, y, k);
    return a !== b && a !== 0 && b !== 0;
  };
  const degree = (x, y) => [0, 1, 2, 3].filter((k) => isEdge(x, y, k)).length;
  const used = new Uint8Array(pitch * (height + 1));
  const chains = [];
  const follow = (x0, y0, k0) => {
    const pair = beside(x0, y0, k0);
    const points = [[x0, y0]];
    let [x, y, k] = [x0, y0, k0];
    for (;;) {
      used[y * pitch + x] |= 1 << k;
      [x, y] = [x + DX[k], y + DY[k]];
      used[y * pitch + x] |= 1 << (k ^ 2);
      points.push([x, y]);
      if ((x === x0 && y === y0) || degree(x, y) !== 2) break;
      k = [0, 1, 2, 3].find((next) => next !== (k ^ 2) && isEdge(x, y, next));
    }
    chains.push({ points, a: Math.min(...pair), b: Math.max(...pair) });
  };
  const each = (visit) => {
    for (let y = 0; y <= height; y++) {
      for (let x = 0; x <= width; x++) {
        if (
          at(x - 1, y - 1) === at(x, y) &&
          at(x, y - 1) === at(x - 1, y) &&
          at(x, y) === at(x - 1, y)
        )
          continue;
        for (let k = 0; k < 4; k++) {
          if ((used[y * pitch + x] & (1 << k)) === 0 && isEdge(x, y, k)) visit(x, y, k);
        }
      }
    }
  };
  each((x, y, k) => {
    if (degree(x, y) !== 2) follow(x, y, k);
  });
  each(follow);
  return chains.map(({ points, a, b }) => {
    const [first, last] = [points[0], points.at(-1)];
    const isClosed = first[0] === last[0] && first[1] === last[1] && degree(...first) === 2;
    const meets = [first, last].map(([x, y]) =>
      !isClosed && degree(x, y) > 2 ? y * pitch + x : -1,
    );
    return { a, b, closed: isClosed, meets, ...smooth(points, isClosed) };
  });
}

/** Means over a window that shrinks towards the ends, with their arc lengths. */
function smooth(points, isClosed) {
  const list = isClosed ? points.slice(1) : points;
  const n = list.length;
  const [x, y, s] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
  for (let i = 0; i < n; i++) {
    const half = isClosed ? Math.min(SMOOTH, (n - 1) >> 1) : Math.min(SMOOTH, i, n - 1 - i);
    for (let j = i - half; j <= i + half; j++) {
      const [px, py] = list[(j + n) % n];
      x[i] += px / (2 * half + 1);
      y[i] += py / (2 * half + 1);
    }
    if (i > 0) s[i] = s[i - 1] + Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
  }
  const length = s[n - 1] + (isClosed ? Math.hypot(x[0] - x[n - 1], y[0] - y[n - 1]) : 0);
  return { x, y, s, length };
}
