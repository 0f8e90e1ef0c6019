import { rasterArgument } from '../raster/arguments.ts';
import { checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import type { Dense, RasterLike } from '../raster/types.ts';
import { checkValue, type PixelValue } from '../raster/value.ts';
import { ByteWriter } from '../runs/byte-writer.ts';
import type { RowSink } from '../runs/row-sink.ts';
import type { FoundPixels } from './flood-region.ts';
import { type Matcher, matcherFor } from './matcher.ts';
import { checkMatch, type MatchOptions } from './options.ts';

/**
 * All pixels of a value, wherever they are: a flood that needs no connection.
 *
 * A pixel is taken when it differs from the value by at most `tolerance` in every channel and the
 * barrier does not hold it.
 *
 * O(samples); the result.
 *
 * @param image - `[w, h]` or `[w, h, 1 to 4]` of any sample type.
 * @param value - A number for every channel, or one for each, that the raster's samples can hold.
 * @throws TypeError or RangeError for bad arguments.
 * @example
 * ```ts
 * import { raster, selectValue } from 'underink';
 * const image = raster(new Uint8Array([3, 0, 3, 5]), [4, 1]);
 * console.log(selectValue(image, 3).mask.data.join(' ')); // 1 0 1 0
 * console.log(selectValue(image, 4, { tolerance: 1 }).area); // 3
 * ```
 */
export function selectValue(
  image: RasterLike,
  value: PixelValue,
  options?: MatchOptions,
): FoundPixels {
  const checked = checkOptions(options, 'selectValue', ['tolerance', 'barrier']);
  const dense = rasterArgument(image, 'image');
  const { width, height } = dense;
  const rule = { value: checkValue(value, 'value', dense), ...checkMatch(checked, dense) };
  const data = new Uint8Array(width * height);
  const writer = new ByteWriter(data, width, 1);
  matchRows(matcherFor(dense, rule), dense, writer);
  return { mask: raster(data, [width, height]), area: writer.changed, bounds: writer.bounds };
}

/** Hands all matching pixels of a raster on, row by row. A row is matched before it is handed on. */
export function matchRows(matcher: Matcher, { width, height }: Dense, sink: RowSink): void {
  const words = new Int32Array((width + 31) >>> 5);
  for (let y = 0; y < height; y++) {
    for (let k = 0; k < words.length; k++) words[k] = matcher.word(y, k);
    sink.row(y, words, 0, 0, words.length);
  }
}
