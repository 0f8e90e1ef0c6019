// Points of a person who knows a drawing: one in each true region.
import { labelEqual, raster } from 'underink';
import { squaredDistance } from '../gaps/baselines.mjs';

/** Per region 1..count the center of the pixel that is farthest from what is not of it. */
export function widestPoints({ truth, width, height, count }) {
  const outside = Uint8Array.from(truth, (id) => (id === 0 ? 1 : 0));
  const distance = squaredDistance(outside, width, height);
  const best = new Int32Array(count + 1).fill(-1);
  for (let p = 0; p < truth.length; p++) {
    const id = truth[p];
    if (id > 0 && (best[id] < 0 || distance[p] > distance[best[id]])) best[id] = p;
  }
  return toPoints(best, width);
}

/** Per region the center of one of its pixels, each as likely as any other. */
export function randomPoints({ truth, width, count }, random) {
  const seen = new Int32Array(count + 1);
  const chosen = new Int32Array(count + 1);
  for (let p = 0; p < truth.length; p++) {
    const id = truth[p];
    if (id > 0 && random() * ++seen[id] < 1) chosen[id] = p;
  }
  return toPoints(chosen, width);
}

function toPoints(pixels, width) {
  return Array.from(pixels.subarray(1), (p) => [(p % width) + 0.5, Math.floor(p / width) + 0.5]);
}

/**
 * True regions of a brush drawing by the artist's colors: those that lie side by side and have one
 * main color are one area, since a person sees them so. `{ truth, count, width, height }`.
 */
export function colorAreas({ truth, colors, count, width, height }) {
  const sums = Array.from({ length: count + 1 }, () => new Map());
  truth.forEach((id, p) => {
    if (id > 0) sums[id].set(colors[p], (sums[id].get(colors[p]) ?? 0) + 1);
  });
  const colorOf = sums.map((sum) => [...sum].reduce((a, b) => (b[1] > a[1] ? b : a), [-1, 0])[0]);
  const grown = growOver(truth, width, height);
  const byColor = grown.map((id) => (id === 0 ? -1 : colorOf[id]));
  const { labels, count: areas } = labelEqual(raster(byColor, [width, height]), {
    background: -1,
    connectivity: 8,
  });
  const own = labels.data.map((label, p) => (truth[p] === 0 ? 0 : label));
  return { truth: own, count: areas, width, height };
}

/** Region ids carried over the ink, nearest by steps first. */
function growOver(truth, width, height) {
  const ids = truth.slice();
  const queue = [];
  for (let p = 0; p < ids.length; p++) if (ids[p] > 0) queue.push(p);
  for (let k = 0; k < queue.length; k++) {
    const p = queue[k];
    const x = p % width;
    const near = [
      x > 0 ? p - 1 : -1,
      x < width - 1 ? p + 1 : -1,
      p - width,
      p + width < width * height ? p + width : -1,
    ];
    for (const q of near) {
      if (q < 0 || ids[q] > 0) continue;
      ids[q] = ids[p];
      queue.push(q);
    }
  }
  return ids;
}
