import { rasterArgument } from '../raster/arguments.ts';
import { checkOptions } from '../raster/checks.ts';
import { raster as rasterOf } from '../raster/raster.ts';
import type { Dense, RasterLike } from '../raster/types.ts';
import { checkValue, type PixelValue } from '../raster/value.ts';
import type { SpanSink } from '../runs/span-sink.ts';
import { spanWriter } from '../runs/span-writer.ts';
import type { FoundPixels } from './flood-region.ts';
import { type Matcher, matcherFor } from './matcher.ts';
import { checkMatch, MATCH_NAMES, type MatchOptions } from './options.ts';

/**
 * All pixels of a value, wherever they are: a flood that needs no connection.
 *
 * A pixel is taken when it differs from the value by at most `tolerance` in every channel, its own
 * value is in `only`, and the barrier does not hold it.
 *
 * O(samples); the result.
 *
 * @param raster - `[w, h]` or `[w, h, 1 to 4]` of any sample type.
 * @param value - A number for every channel, or one for each, that the raster's samples can hold.
 * @throws TypeError or RangeError for bad arguments.
 * @example
 * ```ts
 * import { raster, selectValue } from 'underink';
 * const indices = raster(new Uint8Array([3, 0, 3, 5]), [4, 1]);
 * console.log(selectValue(indices, 3).mask.data.join(' ')); // 1 0 1 0
 * console.log(selectValue(indices, 4, { tolerance: 1 }).area); // 3
 * ```
 */
export function selectValue(
  raster: RasterLike,
  value: PixelValue,
  options?: MatchOptions,
): FoundPixels {
  const checked = checkOptions(options, 'selectValue', MATCH_NAMES);
  const dense = rasterArgument(raster, 'raster');
  const { width, height } = dense;
  const rule = { value: checkValue(value, 'value', dense), ...checkMatch(checked, dense) };
  const data = new Uint8Array(width * height);
  const writer = spanWriter({ data, width, height, channels: 1 }, [1]);
  matchRows(matcherFor(dense, rule), dense, writer);
  return { mask: rasterOf(data, [width, height]), area: writer.changed, bounds: writer.bounds };
}

/** Hands all matching pixels of a raster on, row by row. A row is matched before it is handed on. */
export function matchRows(matcher: Matcher, { width, height }: Dense, sink: SpanSink): void {
  const words = (width + 31) >>> 5;
  const spans = new Int32Array(width + 2);
  for (let y = 0; y < height; y++) {
    let length = 0;
    let last = 0;
    for (let k = 0; k < words; k++) {
      const word = matcher.word(y, k);
      // A bit where a span begins or ends: where it differs from the one before.
      let ends = word ^ ((word << 1) | last);
      last = word >>> 31;
      while (ends !== 0) {
        const lowest = ends & -ends;
        ends ^= lowest;
        spans[length++] = 32 * k + 31 - Math.clz32(lowest);
      }
    }
    if ((length & 1) === 1) spans[length++] = width;
    if (length > 0) sink.row(y, spans, length);
  }
}
