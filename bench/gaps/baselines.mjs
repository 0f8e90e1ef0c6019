// Ways to close gaps that are not of this library, to compare with.
import { labelRegions, raster } from 'underink';

/**
 * Ink grown by `radius` pixels, the paper that is left labelled, and the labels grown back over all
 * paper. Paper that no label reaches is labelled by its own regions.
 */
export function dilate(ink, width, height, radius) {
  const distance = squaredDistance(ink, width, height);
  const thick = distance.map((d) => (d <= radius * radius ? 1 : 0));
  const { labels, count } = labelRegions(raster(Uint8Array.from(thick), [width, height]), {
    of: 0,
  });
  return growBack(labels.data, count, ink, width, height);
}

/**
 * Ball opening with falling radius, after Zhang, Chen, Zhang, Hu, Martin 2009, "Vectorizing Cartoon
 * Animations": what a ball of the largest radius can sweep without touching ink are the first
 * regions; smaller and smaller balls sweep what is left. Components that are smaller than the
 * square about the largest ball are left to their neighbors, into which all labels grow at last.
 */
export function openByBalls(ink, width, height, largest) {
  const labels = new Int32Array(ink.length);
  const size = [width, height];
  let count = 0;
  for (let radius = largest; radius >= 1; radius = Math.floor(radius / 2)) {
    const closed = labels.map((label, i) => (label > 0 || ink[i] === 1 ? 1 : 0));
    const room = squaredDistance(Uint8Array.from(closed), width, height);
    const centers = Uint8Array.from(room, (d) => (d > radius * radius ? 1 : 0));
    const swept = labelRegions(raster(centers, size), { of: 1 });
    const seeds = swept.labels.data.slice();
    spread(seeds, (i) => closed[i] === 0, width, height, radius, room, centers);
    const areas = new Int32Array(swept.count + 1);
    for (const id of seeds) areas[id]++;
    const least = radius === largest ? 1 : 4 * largest * largest;
    const ids = areas.map((area, id) => (id > 0 && area >= least ? ++count : 0));
    for (let i = 0; i < labels.length; i++) if (seeds[i] > 0) labels[i] ||= ids[seeds[i]];
  }
  return growBack(labels, count, ink, width, height);
}

/** Grows ids by steps of 4-neighbors, so far as the balls about the centers reach. */
function spread(ids, isFree, width, height, radius, room, centers) {
  const reach = squaredDistance(centers, width, height);
  let front = [];
  for (let i = 0; i < ids.length; i++) if (ids[i] > 0) front.push(i);
  for (let step = 0; step < 2 * radius && front.length > 0; step++) {
    front = stepOn(
      ids,
      front,
      (i) => isFree(i) && room[i] > 0 && reach[i] <= radius * radius,
      width,
      height,
    );
  }
}

/** Grows labels over all paper, nearest by steps first; what none reaches becomes regions of its own. */
function growBack(labels, count, ink, width, height) {
  let front = [];
  for (let i = 0; i < labels.length; i++) if (labels[i] > 0) front.push(i);
  while (front.length > 0) front = stepOn(labels, front, (i) => ink[i] === 0, width, height);
  const bare = Uint8Array.from(labels, (label, i) => (label === 0 && ink[i] === 0 ? 1 : 0));
  const rest = labelRegions(raster(bare, [width, height]), { of: 1 }).labels.data;
  for (let i = 0; i < labels.length; i++) if (rest[i] > 0) labels[i] = count + rest[i];
  return labels;
}

/** One step from a front of pixels; gives the pixels reached. */
function stepOn(ids, front, isFree, width, height) {
  const next = [];
  for (const i of front) {
    const x = i % width;
    const sides = [
      x > 0 ? i - 1 : -1,
      x < width - 1 ? i + 1 : -1,
      i - width,
      i < width * (height - 1) ? i + width : -1,
    ];
    for (const j of sides) {
      if (j < 0 || ids[j] > 0 || !isFree(j)) continue;
      ids[j] = ids[i];
      next.push(j);
    }
  }
  return next;
}

/**
 * Squared Euclidean distance of each pixel to the nearest one of the mask (Felzenszwalb, Huttenlocher
 * 2012, "Distance Transforms of Sampled Functions").
 */
export function squaredDistance(mask, width, height) {
  const far = (width + height) ** 2;
  const d = Float64Array.from(mask, (value) => (value === 1 ? 0 : far));
  const longest = Math.max(width, height);
  const line = new Float64Array(longest);
  const apex = new Int32Array(longest);
  const from = new Float64Array(longest + 1);
  const pass = (start, step, n) => {
    for (let i = 0; i < n; i++) line[i] = d[start + i * step];
    let k = 0;
    apex[0] = 0;
    from[0] = -Infinity;
    from[1] = Infinity;
    for (let q = 1; q < n; q++) {
      let s = 0;
      for (;;) {
        const p = apex[k];
        s = (line[q] + q * q - line[p] - p * p) / (2 * (q - p));
        if (s > from[k]) break;
        k--;
      }
      apex[++k] = q;
      from[k] = s;
      from[k + 1] = Infinity;
    }
    for (let q = 0, j = 0; q < n; q++) {
      while (from[j + 1] < q) j++;
      d[start + q * step] = (q - apex[j]) ** 2 + line[apex[j]];
    }
  };
  for (let x = 0; x < width; x++) pass(x, width, height);
  for (let y = 0; y < height; y++) pass(y * width, 1, width);
  return d;
}
