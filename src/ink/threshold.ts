import { coverageArgument } from '../raster/arguments.ts';
import { checkNumber, checkOneOf, checkOptions } from '../raster/checks.ts';
import { outArgument } from '../raster/out.ts';
import { TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { CoverageLike, Mask, View } from '../raster/types.ts';
import { histogramOf, levelOf } from './otsu.ts';

export type ThresholdMethod = 'auto' | 'otsu' | 'fixed';

export interface ThresholdOptions {
  /**
   * `fixed`: coverage above `level`. `otsu`: the level from the histogram. `auto`: what
   * {@link chooseThreshold} says. @default 'auto', or 'fixed' when `level` is given
   */
  method?: ThresholdMethod;
  /** Coverage above it is ink, 0 to 254; for `fixed`. @default 127 */
  level?: number;
  /** A Uint8 raster `[w, h]` to write into. */
  out?: View<Uint8Array>;
}

/** A way to threshold, with the reason why. */
export interface ThresholdChoice {
  method: 'otsu' | 'fixed';
  level: number;
  why: string;
}

/** Half coverage: where the geometric edge of an antialiased stroke lies. */
const HALF = 127;

/**
 * Makes an ink mask of a coverage: 1 where coverage > level. O(pixels).
 *
 * @param coverage - Uint8 `[w, h]`, 0 paper to 255 solid ink.
 * @returns Mask `[w, h]`.
 * @throws TypeError or RangeError for a raster that holds no coverage, or a bad option; a `level`
 * with a method that finds its own is a RangeError.
 * @example
 * ```ts
 * import { raster, thresholdInk } from 'underink';
 * const coverage = raster(new Uint8Array([0, 127, 128, 255]), [4, 1]);
 * console.log([...thresholdInk(coverage, { level: 127 }).data].join(' ')); // 0 0 1 1
 * ```
 */
export function thresholdInk(coverage: CoverageLike, options?: ThresholdOptions): Mask {
  const checked = checkOptions(options, 'thresholdInk', ['method', 'level', 'out']);
  const rule = thresholdRule(checked);
  const { data, width, height } = coverageArgument(coverage, 'coverage');
  const mask = outArgument(checked.out, Uint8Array, width, height, [coverage.data]);
  maskAbove(data, applyRule(rule, data).level, mask);
  return checked.out === undefined ? raster(mask, [width, height]) : (checked.out as Mask);
}

/**
 * Says how a coverage is best thresholded. A clean drawing, half of it even paper and with no
 * more pixels of other tones than of solid ink, is cut at half coverage, the geometric edge of its strokes; anything else at Otsu's
 * level. O(pixels).
 *
 * @param coverage - Uint8 `[w, h]`.
 * @throws TypeError or RangeError for a raster that holds no coverage.
 * @example
 * ```ts
 * import { chooseThreshold, raster } from 'underink';
 * console.log(chooseThreshold(raster(new Uint8Array([0, 0, 0, 255]), [2, 2])).method); // fixed
 * ```
 */
export function chooseThreshold(coverage: CoverageLike): ThresholdChoice {
  return choose(coverageArgument(coverage, 'coverage').data);
}

/** Checks method and level. */
export function thresholdRule({ method, level }: ThresholdOptions): {
  method: ThresholdMethod;
  level: number;
} {
  if (level !== undefined) checkNumber(level, 'level', { max: 254, unit: 'coverage' });
  const rule = method ?? (level === undefined ? 'auto' : 'fixed');
  checkOneOf(rule, 'method', ['auto', 'otsu', 'fixed']);
  if (level !== undefined && rule !== 'fixed') {
    throw new RangeError(`level must be left out with method "${rule}", got ${level}`);
  }
  return { method: rule, level: level ?? HALF };
}

/** The level that a rule comes to on a coverage. */
export function applyRule(
  { method, level }: { method: ThresholdMethod; level: number },
  data: Uint8Array,
): ThresholdChoice {
  if (method === 'auto') return choose(data);
  if (method === 'fixed') return { method, level, why: 'the level was given' };
  return { method, level: levelOf(histogramOf(data)), why: 'the method was given' };
}

/** Writes the mask, which may be the coverage itself; gives the pixels of ink. */
export function maskAbove(data: Uint8Array, level: number, mask: Uint8Array, tick?: Tick): number {
  let ink = 0;
  for (let from = 0; from < data.length; from += TICK_PIXELS) {
    tick?.(from / data.length);
    const to = Math.min(data.length, from + TICK_PIXELS);
    for (let i = from; i < to; i++) {
      const bit = data[i]! > level ? 1 : 0;
      mask[i] = bit;
      ink += bit;
    }
  }
  return ink;
}

function choose(data: Uint8Array): ThresholdChoice {
  const histogram = histogramOf(data);
  const paper = sumOf(histogram, 0, 8);
  const solid = sumOf(histogram, 248, 256);
  const between = data.length - paper - solid;
  if (paper >= 0.5 * data.length && between <= solid) {
    return { method: 'fixed', level: HALF, why: 'clean drawing: cut at half coverage' };
  }
  if (histogram.some((count) => count === data.length)) {
    return { method: 'fixed', level: HALF, why: 'one tone: no level to choose' };
  }
  return { method: 'otsu', level: levelOf(histogram), why: 'gray tones: level by histogram' };
}

function sumOf(histogram: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let v = from; v < to; v++) sum += histogram[v]!;
  return sum;
}
