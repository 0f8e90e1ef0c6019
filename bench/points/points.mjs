// Points of a person who knows a drawing: one in each true region.
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
