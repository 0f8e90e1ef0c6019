import type { ColorRuns } from './color-runs.ts';

/** The blended pixels, row by row: those of colors without a code. O(runs). */
export function blendsOf({ start, color, count }: ColorRuns, codeOf: Uint16Array): Int32Array {
  let size = 0;
  for (let r = 0; r < count; r++) if (codeOf[color[r]!] === 0) size += start[r + 1]! - start[r]!;
  const blends = new Int32Array(size);
  let k = 0;
  for (let r = 0; r < count; r++) {
    if (codeOf[color[r]!] !== 0) continue;
    for (let i = start[r]!; i < start[r + 1]!; i++) blends[k++] = i;
  }
  return blends;
}
