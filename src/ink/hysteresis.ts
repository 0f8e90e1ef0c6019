import { checkNumber } from '../raster/checks.ts';
import { packMask } from '../raster/pack.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
import { findRuns } from '../runs/runs.ts';
import { connectRuns } from '../runs/union.ts';
import type { FixedOptions } from './fixed.ts';
import { inkTones } from './ink-tones.ts';
import { maskAbove } from './mask-above.ts';
import { histogramOf } from './otsu.ts';
import { GIVEN, type Method } from './threshold-method.ts';

interface HysteresisOptions extends FixedOptions {
  /**
   * The low threshold: coverage above it is ink where it is connected to coverage above `level`, 0
   * to `level`; for `hysteresis`.
   * @default half of `level` where it is given, else halfway from paper to the level
   */
  readonly weak?: number | undefined;
}

/**
 * A high and a low threshold (hysteresis thresholding): ink is coverage above `weak` where
 * it is 8-connected to coverage above `level`.
 */
export interface HysteresisChoice {
  readonly method: 'hysteresis';
  readonly level: number;
  readonly weak: number;
  readonly why: string;
}

/**
 * A high and a low threshold. Without any given: halfway from paper to solid ink, and half of that
 * way.
 */
export const hysteresis: Method<HysteresisOptions, HysteresisChoice> = {
  options: ['level', 'weak'],
  check({ level, weak }) {
    if (level !== undefined) checkNumber(level, 'level', { max: 254, unit: 'coverage' });
    if (weak !== undefined) checkNumber(weak, 'weak', { max: level ?? 254, unit: 'coverage' });
  },
  settle({ level, weak }, { data }, tick) {
    const method = 'hysteresis';
    if (level !== undefined)
      return { method, level, weak: weak ?? Math.floor(level / 2), why: GIVEN };
    const { paper, solid } = inkTones(histogramOf(data, tick));
    const high = Math.max(weak ?? 0, Math.min(254, Math.floor((paper + solid) / 2)));
    return { method, level: high, weak: weak ?? Math.floor((paper + high) / 2), why: GIVEN };
  },
  apply({ level, weak }, { data, width, height }, mask, tick) {
    const source = data === mask ? data.slice() : data;
    maskAbove(source, weak, mask, partOf(tick, 0, 0.3));
    return keepStrong(mask, width, height, source, level, partOf(tick, 0.3, 1));
  },
};

/**
 * Takes from a mask of weak ink the 8-connected parts that hold no coverage above `level` (the
 * second step of Canny 1986, "A computational approach to edge detection",
 * DOI 10.1109/TPAMI.1986.4767851, on any coverage). Changes `mask`. Works on the runs of the packed
 * mask: O(pixels), 13 bytes per run.
 *
 * @returns Pixels of ink that stay.
 */
function keepStrong(
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
