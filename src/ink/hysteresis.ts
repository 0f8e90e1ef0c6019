import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
import { packMask } from '../runs/pack.ts';
import { findRuns } from '../runs/runs.ts';
import { connectRuns } from '../runs/union.ts';

/**
 * Takes from a mask of weak ink the 8-connected parts that hold no coverage above `level` (the
 * second step of Canny 1986, "A computational approach to edge detection",
 * DOI 10.1109/TPAMI.1986.4767851, on any coverage). Changes `mask`. Works on the runs of the packed
 * mask: O(pixels), 13 bytes per run.
 *
 * @returns Pixels of ink that stay.
 */
export function keepStrong(
  mask: Uint8Array,
  width: number,
  height: number,
  data: Uint8Array,
  level: number,
  tick?: Tick,
): number {
  const runs = findRuns(
    packMask({ data: mask, width, height, channels: 1 }, 'mask', partOf(tick, 0, 0.4)),
    1,
  );
  const { rowStart, start, end } = runs;
  const { ids, count } = connectRuns(runs, 8);
  const strong = new Uint8Array(count + 1);
  const marking = partOf(tick, 0.4, 0.7);
  for (let y = 0; y < height; y++) {
    if (y % TICK_ROWS === 0) marking?.(y / height);
    const rowEnd = rowStart[y + 1]!;
    for (let r = rowStart[y]!; r < rowEnd; r++) {
      const to = y * width + end[r]!;
      let i = y * width + start[r]!;
      if (strong[ids[r]!] === 1) continue;
      while (i < to && data[i]! <= level) i++;
      if (i < to) strong[ids[r]!] = 1;
    }
  }
  let ink = 0;
  const keeping = partOf(tick, 0.7, 1);
  for (let y = 0; y < height; y++) {
    if (y % TICK_ROWS === 0) keeping?.(y / height);
    const rowEnd = rowStart[y + 1]!;
    for (let r = rowStart[y]!; r < rowEnd; r++) {
      if (strong[ids[r]!] === 1) ink += end[r]! - start[r]!;
      else mask.fill(0, y * width + start[r]!, y * width + end[r]!);
    }
  }
  return ink;
}
