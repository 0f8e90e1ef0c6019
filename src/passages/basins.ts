import { IntList } from '../raster/int-list.ts';
import { TICK_STEPS, type Tick } from '../raster/progress.ts';
import type { Ascent } from './ascent.ts';
import type { Levels } from './levels.ts';

/** Which top every cell of paper is reached from. */
export interface Basins {
  /** 1..count by first pixel, row by row; 0 on ink and in the margin. Stored as the levels. */
  readonly basin: Int32Array;
  readonly count: number;
  /** Level of the top, by basin. */
  readonly peak: Int32Array;
}

/**
 * Follows every cell up to its top. The ascent is used up: the basins stand in its memory. Each
 * path ends at the first cell that is numbered, and numbers its own: O(pixels).
 */
export function numberBasins(
  { level }: Levels,
  { toward, flat, flatFrom }: Ascent,
  tick?: Tick,
): Basins {
  for (let n = 0; n < flat.length; n++) {
    if (tick !== undefined && n % TICK_STEPS === 0) tick(0);
    toward[flat[n]!] = ~flatFrom[n]!;
  }
  const peak = new IntList();
  peak.push(0);
  // What is negative points up, what is positive is numbered.
  for (let p = 0; p < toward.length; p++) {
    if (tick !== undefined && p % TICK_STEPS === 0) tick(p / toward.length);
    if (toward[p]! >= 0) continue;
    let top = p;
    let next = ~toward[p]!;
    let number = toward[next]!;
    while (number < 0 && next !== top) {
      top = next;
      next = ~number;
      number = toward[next]!;
    }
    if (number < 0) {
      number = peak.length;
      peak.push(level[top]!);
      toward[top] = number;
    }
    for (let q = p; toward[q]! < 0; ) {
      const over = ~toward[q]!;
      toward[q] = number;
      q = over;
    }
  }
  return { basin: toward, count: peak.length - 1, peak: peak.trimmed() };
}
