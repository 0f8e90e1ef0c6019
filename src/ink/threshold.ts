import { coverageArgument } from '../raster/arguments.ts';
import { checkOneOf, checkOptions } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import { outArgument, outResult } from '../raster/out.ts';
import type { CoverageLike, Mask, RasterView } from '../raster/types.ts';
import { maskByRule, type ThresholdRule } from './apply-threshold.ts';
import {
  methodOf,
  NAMES,
  OWN_OPTIONS,
  type OwnOptions,
  type ThresholdMethod,
} from './threshold-table.ts';

export interface ThresholdOptions extends OwnOptions {
  /**
   * `fixed`: coverage above `level`. `otsu`: the level from the histogram. `sauvola`: darker than
   * its surroundings. `hysteresis`: coverage above `weak` where it is 8-connected to coverage above
   * `level`. `auto`: what {@link chooseThreshold} says. @default 'auto', or 'fixed' when `level` is given
   */
  readonly method?: ThresholdMethod | undefined;
  /**
   * Measures the coverage against the paper around first (flat-field correction), as
   * `normalizePaper` does; not for `auto`, which sees to it. @default false
   */
  readonly normalize?: boolean | undefined;
  /** A Uint8 raster `[w, h]` to write into. */
  readonly out?: RasterView<Uint8Array> | undefined;
}

/** Names of the options that say how to threshold. */
export const RULE_OPTIONS: readonly Exclude<keyof ThresholdOptions, 'out'>[] = [
  'method',
  ...OWN_OPTIONS,
  'normalize',
];

/**
 * Makes an ink mask of a coverage (binarization): 1 where coverage > level, or with `sauvola` where a
 * pixel is darker than its surroundings (local threshold), or with `hysteresis`, the high threshold
 * being `level` and the low one `weak`, where coverage > weak is 8-connected to coverage > level.
 * O(pixels).
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
export function thresholdRule(options: Omit<ThresholdOptions, 'out'>): ThresholdRule {
  const { normalize, level, method = level === undefined ? 'auto' : 'fixed' } = options;
  checkOneOf(method, 'method', ['auto', ...NAMES]);
  const own = method === 'auto' ? undefined : methodOf(method);
  own?.check(options);
  if (normalize !== undefined && typeof normalize !== 'boolean') {
    throw wrongKind('normalize', 'true or false', normalize);
  }
  if (own === undefined) refuseWith(method, 'normalize', normalize);
  for (const name of OWN_OPTIONS) {
    if (!own?.options.includes(name)) refuseWith(method, name, options[name]);
  }
  return { method, options, normalize: normalize ?? false };
}

function refuseWith(method: ThresholdMethod, name: string, value: unknown): void {
  if (value === undefined) return;
  throw new RangeError(`${name} must be left out with method "${method}", got ${value}`);
}
