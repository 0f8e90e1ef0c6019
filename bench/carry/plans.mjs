// Finished plans of a drawing, and whether their marks still do what they did on a revision.
import { squaredDistance } from '../gaps/baselines.mjs';
import { widestPoints } from '../points/points.mjs';

/** Half the side of the polygons, in pixels. */
const HALF = 9;
/** How near to a mark the swatches are looked at, in pixels of the old picture. */
const NEAR = 12;

/**
 * A plan with a point in every true region, a bridge across every gap and a polygon over the middle of
 * the widest regions, each mark with what it is to do: `{ plan, does }`.
 */
export function planOf(one) {
  const { width, height, truth, count, gaps } = one;
  const palette = Array.from({ length: count }, (_, i) => ({
    name: `${i + 1}`,
    color: colorOf(i),
  }));
  palette.push({ name: 'shade', color: '#123456' });
  const marks = [];
  const does = [];
  const points = widestPoints(one);
  points.forEach((point, i) => {
    marks.push({ point, swatch: `${i + 1}` });
    does.push({ kind: 'point', at: point, region: i + 1 });
  });
  for (const { x, y, direction, opening, regions } of gaps) {
    const half = opening / 2 + 1;
    const [ux, uy] = [half * Math.cos(direction), half * Math.sin(direction)];
    const ends = [
      [x - ux, y - uy],
      [x + ux, y + uy],
    ];
    if (ends.some(([u, v]) => u < 0 || v < 0 || u >= width || v >= height)) continue;
    marks.push({ bridge: ends });
    does.push({ kind: 'bridge', at: [x, y], regions });
  }
  const outside = Uint8Array.from(truth, (id) => (id === 0 ? 1 : 0));
  const distance = squaredDistance(outside, width, height);
  points.forEach(([x, y], i) => {
    if (distance[Math.floor(y) * width + Math.floor(x)] < (3 * HALF + 8) ** 2) return;
    // Beside the point, in the widest disc, on the side where the picture has more room.
    const [cx, cy] = [
      x + (2 * x < width ? 1 : -1) * (HALF + 3),
      y + (2 * y < height ? 1 : -1) * (HALF + 3),
    ];
    const [x0, y0, x1, y1] = [cx - HALF, cy - HALF, cx + HALF, cy + HALF];
    const ring = [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ];
    if (does.filter(({ kind }) => kind === 'polygon').length >= 5) return;
    marks.push({ polygon: [ring], swatch: 'shade', over: true });
    does.push({ kind: 'polygon', at: [cx, cy], region: i + 1 });
  });
  return { plan: { version: 1, size: [width, height], palette, marks }, does };
}

function colorOf(i) {
  return `#${((((i + 1) * 2654435761) >>> 8) & 0xffffff).toString(16).padStart(6, '0')}`;
}

/**
 * Which marks still do what they did: `{ counted, kept, lost }`. A point does where most of its true
 * region has its swatch, a bridge where nine tenths of the true paper about it have theirs, a polygon
 * where nine tenths of the pixels that it held have its swatch. Marks whose region is not on the revision
 * any more, or has become a part of another, and bridges between what has become one are not counted.
 */
export function scorePlan(revision, does, flats) {
  const { a, b, dx, dy } = revision.transform;
  const scale = Math.hypot(a, b);
  const move = ([x, y]) => [a * x - b * y + dx, b * x + a * y + dy];
  const { truth, width, height } = revision;
  const names = flats.palette.map(({ name }) => name);
  const swatch = (p) => names[flats.indices.data[p]];
  const sums = new Map();
  truth.forEach((id, p) => {
    if (id === 0) return;
    const sum = sums.get(id) ?? { all: 0, right: 0 };
    sum.all++;
    if (swatch(p) === `${id}` || swatch(p) === 'shade') sum.right++;
    sums.set(id, sum);
  });
  const gone = new Set(revision.unions.map(([small]) => small));
  const isGap = (pair) => !revision.unions.some((union) => pair.every((id) => union.includes(id)));
  const result = { counted: 0, kept: 0, lost: [] };
  for (const mark of does) {
    const [x, y] = move(mark.at);
    if (x < 0 || y < 0 || x >= width || y >= height) continue;
    if (mark.region !== undefined && (gone.has(mark.region) || !sums.has(mark.region))) continue;
    if (mark.regions !== undefined && !isGap(mark.regions)) continue;
    result.counted++;
    const share = shareOf(mark, x, y);
    if (share >= (mark.kind === 'point' ? 0.5 : 0.9)) result.kept++;
    else result.lost.push({ ...mark, share });
  }
  return result;

  function shareOf(mark, x, y) {
    if (mark.kind === 'point') return sums.get(mark.region).right / sums.get(mark.region).all;
    let [all, right] = [0, 0];
    const reach = (mark.kind === 'bridge' ? NEAR : HALF) * scale;
    for (let v = Math.floor(y - reach); v < y + reach; v++) {
      for (let u = Math.floor(x - reach); u < x + reach; u++) {
        if (u < 0 || v < 0 || u >= width || v >= height) continue;
        const p = v * width + u;
        if (truth[p] === 0) continue;
        const name = swatch(p);
        if (mark.kind === 'polygon') {
          all++;
          if (name === 'shade') right++;
        } else if (!gone.has(truth[p])) {
          all++;
          if (name === `${truth[p]}` || name === 'shade') right++;
        }
      }
    }
    return all === 0 ? 1 : right / all;
  }
}
