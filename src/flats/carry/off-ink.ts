import { TICK_ROWS, type Tick } from '../../raster/progress.ts';

/** Labels with 0 on ink: regions as the paper of them. O(pixels). */
export function offInk(
  labels: Int32Array,
  ink: Uint8Array,
  width: number,
  tick?: Tick,
): Int32Array {
  const paper = new Int32Array(labels.length);
  for (let p = 0; p < labels.length; p++) {
    if (tick !== undefined && p % (TICK_ROWS * width) === 0) tick(p / labels.length);
    if (ink[p] === 0) paper[p] = labels[p]!;
  }
  return paper;
}
