import { TICK_PIXELS, type Tick } from '../../raster/progress.ts';

/**
 * Sets labels to 0 on ink, in place: regions as the paper of them. Gives one past the highest id that is
 * left. O(pixels).
 */
export function clearInk(labels: Int32Array, ink: Uint8Array, tick?: Tick): number {
  let highest = 0;
  for (let p = 0; p < labels.length; p++) {
    if (tick !== undefined && p % TICK_PIXELS === 0) tick(p / labels.length);
    if (ink[p] !== 0) labels[p] = 0;
    else if (labels[p]! > highest) highest = labels[p]!;
  }
  return highest + 1;
}

/** The highest of some labels. O(pixels). */
export function highestId(labels: Int32Array, tick?: Tick): number {
  let highest = 0;
  for (let p = 0; p < labels.length; p++) {
    if (tick !== undefined && p % TICK_PIXELS === 0) tick(p / labels.length);
    if (labels[p]! > highest) highest = labels[p]!;
  }
  return highest;
}
