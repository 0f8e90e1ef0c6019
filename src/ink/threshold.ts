import { coverageArgument } from '../raster/arguments.ts';
import { checkNumber, checkOneOf, checkOptions } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import { outArgument, outResult } from '../raster/out.ts';
import type { CoverageLike, Mask, RasterView } from '../raster/types.ts';
import { maskByRule, type ThresholdRule } from './apply-threshold.ts';

export type ThresholdMethod = 'auto' | 'otsu' | 'fixed' | 'sauvola' | 'hysteresis';

export interface ThresholdOptions {
  /**
   * `fixed`: coverage above `level`. `otsu`: the level from the histogram. `sauvola`: darker than
   * its surroundings. `hysteresis`: coverage above `weak` where it is 8-connected to coverage above
   * `level`. `auto`: what {@link chooseThreshold} says. @default 'auto', or 'fixed' when `level` is given
   */
  method?: ThresholdMethod;
  /**
   * Coverage above it is ink, 0 to 254; for `fixed` and `hysteresis`.
   * @default 127, with `hysteresis` halfway from paper to solid ink as {@link chooseThreshold} measures them
   */
  level?: number;
  /**
   * Coverage above it is ink beside ink, 0 to `level`; for `hysteresis`.
   * @default half of `level` where it is given, else halfway from paper to the level
   */
  weak?: number;
  /**
   * Side of the square of surroundings in pixels, odd, 3 to 32,767; for `sauvola`.
   * @default 12 stroke widths, as measured on the page, but 15 to 255
   */
  window?: number;
  /**
   * How much darker than its surroundings ink must be, 0.01 to 1; for `sauvola`.
   * @default 0.05 to 1, so that strokes of the page's width and tone are cut halfway to the paper
   */
  k?: number;
  /**
   * Measures the coverage against the paper around first, as `normalizePaper` does; not for `auto`,
   * which sees to it. @default false
   */
  normalize?: boolean;
  /** A Uint8 raster `[w, h]` to write into. */
  out?: RasterView<Uint8Array>;
}

/** Names of the options that say how to threshold. */
export const RULE_OPTIONS = ['method', 'level', 'weak', 'window', 'k', 'normalize'] as const;

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
  maskByRule(rule, data, width, height, mask);
  return outResult(checked.out, mask, width, height);
}

/** Checks the method and what it takes. */
export function thresholdRule(options: ThresholdOptions): ThresholdRule {
  const { method, level, weak, window, k, normalize } = options;
  if (level !== undefined) checkNumber(level, 'level', { max: 254, unit: 'coverage' });
  if (weak !== undefined) {
    checkNumber(weak, 'weak', { max: level ?? 254, unit: 'coverage' });
  }
  if (window !== undefined) checkWindow(window);
  if (k !== undefined) checkNumber(k, 'k', { min: 0.01, max: 1 });
  const rule = method ?? (level === undefined ? 'auto' : 'fixed');
  checkOneOf(rule, 'method', ['auto', 'otsu', 'fixed', 'sauvola', 'hysteresis']);
  if (normalize !== undefined && typeof normalize !== 'boolean') {
    throw wrongKind('normalize', 'true or false', normalize);
  }
  if (rule === 'auto') refuseWith(rule, 'normalize', normalize);
  if (rule !== 'hysteresis') refuseWith(rule, 'weak', weak);
  if (rule !== 'fixed' && rule !== 'hysteresis') refuseWith(rule, 'level', level);
  if (rule !== 'sauvola') {
    refuseWith(rule, 'window', window);
    refuseWith(rule, 'k', k);
  }
  return {
    method: rule,
    normalize: normalize ?? false,
    ...(level === undefined ? {} : { level }),
    ...(weak === undefined ? {} : { weak }),
    ...(window === undefined ? {} : { window }),
    ...(k === undefined ? {} : { k }),
  };
}

function checkWindow(window: number): void {
  checkNumber(window, 'window', { min: 3, max: 32_767, integer: true, unit: 'pixels' });
  if (window % 2 === 0) throw wrongValue('window', 'an odd number of pixels', window);
}

function refuseWith(method: ThresholdMethod, name: string, value: unknown): void {
  if (value === undefined) return;
  throw new RangeError(`${name} must be left out with method "${method}", got ${value}`);
}
