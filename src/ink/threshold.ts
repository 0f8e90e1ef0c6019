import { coverageArgument } from '../raster/arguments.ts';
import { checkNumber, checkOneOf, checkOptions } from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import { outArgument } from '../raster/out.ts';
import { partOf, TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { CoverageLike, Mask, View } from '../raster/types.ts';
import { keepStrong } from './hysteresis.ts';
import { histogramOf, levelOf } from './otsu.ts';
import { maskSauvola } from './sauvola.ts';
import { windowFor } from './sauvola-window.ts';

export type ThresholdMethod = 'auto' | 'otsu' | 'fixed' | 'sauvola' | 'hysteresis';

export interface ThresholdOptions {
  /**
   * `fixed`: coverage above `level`. `otsu`: the level from the histogram. `sauvola`: darker than
   * its surroundings. `hysteresis`: coverage above `weak` where it is 8-connected to coverage above
   * `level`. `auto`: what {@link chooseThreshold} says. @default 'auto', or 'fixed' when `level` is given
   */
  method?: ThresholdMethod;
  /** Coverage above it is ink, 0 to 254; for `fixed` and `hysteresis`. @default 127 */
  level?: number;
  /** Coverage above it is ink beside ink, 0 to `level`; for `hysteresis`. @default half of `level` */
  weak?: number;
  /**
   * Side of the square of surroundings in pixels, odd, 3 to 32,767; for `sauvola`.
   * @default 12 stroke widths, as measured on the page, but 15 to 255
   */
  window?: number;
  /**
   * How much darker than its surroundings ink must be, 0.01 to 1; for `sauvola`. @default 0.5
   */
  k?: number;
  /** A Uint8 raster `[w, h]` to write into. */
  out?: View<Uint8Array>;
}

/** A way to threshold, with the reason why. */
export interface ThresholdChoice {
  method: Exclude<ThresholdMethod, 'auto'>;
  /** For `otsu`, `fixed` and `hysteresis`. */
  level?: number;
  /** For `hysteresis`. */
  weak?: number;
  /** In pixels, for `sauvola`. */
  window?: number;
  /** For `sauvola`. */
  k?: number;
  why: string;
}

/** Half coverage: where the geometric edge of an antialiased stroke lies. */
const HALF = 127;

const K = 0.5;

/** Names of the options that say how to threshold. */
export const RULE_OPTIONS = ['method', 'level', 'weak', 'window', 'k'] as const;

type ThresholdRule = Pick<ThresholdOptions, 'window' | 'k'> & {
  method: ThresholdMethod;
  level: number;
  weak: number;
};

/**
 * Makes an ink mask of a coverage: 1 where coverage > level, or with `sauvola` where a pixel is
 * darker than its surroundings, or with `hysteresis` where coverage > weak touches, over coverage >
 * weak and corners too, one > level. O(pixels).
 *
 * With the tone t = 255 − coverage, its mean m and standard deviation s in the `window` around a
 * pixel, Sauvola's ink is t <= m · (1 + k · (s / 127.5 − 1)) (Sauvola, Pietikäinen 2000, "Adaptive
 * document image binarization", DOI 10.1016/S0031-3203(99)00055-2). The picture is mirrored at its
 * borders without repeating the border pixel. Solid areas wider than the window may come out hollow.
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
  const checked = checkOptions(options, 'thresholdInk', [...RULE_OPTIONS, 'out']);
  const rule = thresholdRule(checked);
  const { data, width, height } = coverageArgument(coverage, 'coverage');
  const mask = outArgument(checked.out, Uint8Array, width, height, [coverage.data]);
  maskBy(applyRule(rule, data, width, height), data, width, height, mask);
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

/** Checks the method and what it takes. */
export function thresholdRule(options: ThresholdOptions): ThresholdRule {
  const { method, level, weak, window, k } = options;
  if (level !== undefined) checkNumber(level, 'level', { max: 254, unit: 'coverage' });
  if (weak !== undefined) {
    checkNumber(weak, 'weak', { max: level ?? HALF, unit: 'coverage' });
  }
  if (window !== undefined) checkWindow(window);
  if (k !== undefined) checkNumber(k, 'k', { min: 0.01, max: 1 });
  const rule = method ?? (level === undefined ? 'auto' : 'fixed');
  checkOneOf(rule, 'method', ['auto', 'otsu', 'fixed', 'sauvola', 'hysteresis']);
  if (rule !== 'hysteresis') refuseWith(rule, 'weak', weak);
  if (rule !== 'fixed' && rule !== 'hysteresis') refuseWith(rule, 'level', level);
  if (rule !== 'sauvola') {
    refuseWith(rule, 'window', window);
    refuseWith(rule, 'k', k);
  }
  return {
    method: rule,
    level: level ?? HALF,
    weak: weak ?? Math.floor((level ?? HALF) / 2),
    ...(window === undefined ? {} : { window }),
    ...(k === undefined ? {} : { k }),
  };
}

/** What a rule comes to on a coverage. */
export function applyRule(
  { method, level, weak, window, k = K }: ThresholdRule,
  data: Uint8Array,
  width: number,
  height: number,
): ThresholdChoice {
  const why = method === 'fixed' ? 'the level was given' : 'the method was given';
  if (method === 'auto') return choose(data);
  if (method === 'fixed') return { method, level, why };
  if (method === 'otsu') return { method, level: levelOf(histogramOf(data)), why };
  if (method === 'hysteresis') return { method, level, weak, why };
  return { method, window: window ?? windowFor(data, width, height), k, why };
}

/** Writes the mask of a choice, which may be the coverage itself; gives the pixels of ink. */
export function maskBy(
  { method, level = HALF, weak = level, window = 3, k = K }: ThresholdChoice,
  data: Uint8Array,
  width: number,
  height: number,
  mask: Uint8Array,
  tick?: Tick,
): number {
  if (method === 'fixed' || method === 'otsu') return maskAbove(data, level, mask, tick);
  const source = mask === data ? data.slice() : data;
  if (method === 'hysteresis') {
    maskAbove(source, weak, mask, partOf(tick, 0, 0.5));
    return keepStrong(mask, width, height, source, level, partOf(tick, 0.5, 1));
  }
  return maskSauvola(source, width, height, { window, k }, mask, tick);
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

function checkWindow(window: number): void {
  checkNumber(window, 'window', { min: 3, max: 32_767, integer: true, unit: 'pixels' });
  if (window % 2 === 0) throw wrongValue('window', 'an odd number of pixels', window);
}

function refuseWith(method: ThresholdMethod, name: string, value: number | undefined): void {
  if (value === undefined) return;
  throw new RangeError(`${name} must be left out with method "${method}", got ${value}`);
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
