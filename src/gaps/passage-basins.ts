import { IntList } from './int-list.ts';
import type { Ascent } from './passage-ascent.ts';
import type { Levels } from './passage-levels.ts';

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
  { level, stride, width, height }: Levels,
  { toward, flat, flatFrom }: Ascent,
): Basins {
  for (let n = 0; n < flat.length; n++) toward[flat[n]!] = flatFrom[n]!;
  const peak = new IntList();
  peak.push(0);
  // Numbers are negated while there are cells that point up.
  for (let y = 0; y < height; y++) {
    const from = (y + 1) * stride;
    for (let p = from; p < from + width; p++) {
      if (level[p] === 0 || toward[p]! < 0) continue;
      let top = p;
      let next = toward[top]!;
      while (next >= 0 && next !== top) {
        top = next;
        next = toward[top]!;
      }
      if (next >= 0) {
        next = -peak.length;
        peak.push(level[top]!);
        toward[top] = next;
      }
      for (let q = p; q !== top; ) {
        const over = toward[q]!;
        toward[q] = next;
        q = over;
      }
    }
  }
  for (let p = 0; p < toward.length; p++) toward[p] = -toward[p]!;
  return { basin: toward, count: peak.length - 1, peak: peak.trimmed() };
}
