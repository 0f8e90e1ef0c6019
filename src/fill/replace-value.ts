import { checkOptions } from '../raster/checks.ts';
import { targetArgument } from '../raster/target.ts';
import type { PixelChanges, RasterLike } from '../raster/types.ts';
import { checkValue, type PixelValue } from '../raster/value.ts';
import { spanWriter } from '../runs/span-writer.ts';
import { matcherFor } from './matcher.ts';
import { checkMatch, MATCH_NAMES, type MatchOptions } from './options.ts';
import { matchRows } from './select-value.ts';

/**
 * Changes `target`: gives all pixels of a value, wherever they are, another one.
 *
 * Which pixels those are is said at `selectValue`. O(samples); a copy of a target that is not dense.
 *
 * @param target - `[w, h]` or `[w, h, 1 to 4]` of any sample type.
 * @param value - What is looked for: a number for every channel, or one for each.
 * @param replacement - What it becomes, likewise.
 * @throws TypeError or RangeError for bad arguments, before anything is changed; RangeError for a
 * barrier that shares memory with the target.
 * @example
 * ```ts
 * import { raster, replaceValue } from 'underink';
 * const indices = raster(new Uint8Array([3, 0, 3, 5]), [4, 1]);
 * console.log(replaceValue(indices, 3, 7)); // { changed: 2, bounds: [ 0, 0, 3, 1 ] }
 * ```
 */
export function replaceValue(
  target: RasterLike,
  value: PixelValue,
  replacement: PixelValue,
  options?: MatchOptions,
): PixelChanges {
  const checked = checkOptions(options, 'replaceValue', MATCH_NAMES);
  const { dense, commit } = targetArgument(target, 'target');
  const wanted = checkValue(value, 'value', dense);
  const samples = checkValue(replacement, 'replacement', dense);
  const rule = { value: wanted, ...checkMatch(checked, dense, target) };
  const writer = spanWriter(dense, samples);
  matchRows(matcherFor(dense, rule), dense, writer);
  const { changed, bounds } = writer;
  commit(bounds);
  return { changed, bounds };
}
