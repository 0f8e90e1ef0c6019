import { targetArgument } from '../raster/target.ts';
import type { Dense, PixelChanges, Point, RasterLike } from '../raster/types.ts';
import { checkValue, type PixelValue } from '../raster/value.ts';
import { fillSpan } from '../runs/fill-span.ts';
import { spanWriter } from '../runs/span-writer.ts';
import { type Flooded, flood, type RunSink } from './flood.ts';
import { matcherFor } from './matcher.ts';
import {
  checkFloodOptions,
  checkMatch,
  checkSeed,
  type FloodOptions,
  samplesAt,
} from './options.ts';

/**
 * Changes `target`: gives the pixels that are connected to a seed, and like it, a value.
 *
 * Which pixels those are is said at `floodRegion`. Time and memory are as there, and a copy of a
 * target that is not dense.
 *
 * @param target - `[w, h]` or `[w, h, 1 to 4]` of any sample type.
 * @param seed - `[x, y]` in continuous coordinates; the pixel is the floor.
 * @param value - A number for every channel, or one for each, that the target's samples can hold.
 * @throws TypeError or RangeError for bad arguments, before anything is changed; RangeError for a
 * barrier that shares memory with the target.
 * @example
 * ```ts
 * import { floodFill, raster } from 'underink';
 * const indices = raster(new Uint8Array([0, 0, 1, 0]), [4, 1]);
 * console.log(floodFill(indices, [0.5, 0.5], 7)); // { changed: 2, bounds: [ 0, 0, 2, 1 ] }
 * console.log(indices.data.join(' ')); // 7 7 1 0
 * ```
 */
export function floodFill(
  target: RasterLike,
  seed: Point,
  value: PixelValue,
  options?: FloodOptions,
): PixelChanges {
  const { connectivity, ...match } = checkFloodOptions(options, 'floodFill');
  const { dense, commit } = targetArgument(target, 'target');
  const { width, height } = dense;
  const [x, y] = checkSeed(seed, 'seed', dense);
  const samples = checkValue(value, 'value', dense);
  const own = samplesAt(dense, x, y);
  const rule = { value: own, ...checkMatch(match, dense, target) };
  const search = (sink: RunSink): Flooded =>
    flood(matcherFor(dense, rule), [width, height], [x, y], connectivity, sink);
  const changed =
    dense.channels === 1 && rule.tolerance[0] === 0
      ? fillAlike(dense, samples[0]!, own[0]!, search)
      : fillAny(dense, samples, search);
  commit(changed.bounds);
  return changed;
}

/** A flood whose pixels all have one value. */
function fillAlike(
  { data, width }: Dense,
  value: number,
  old: number,
  search: (sink: RunSink) => Flooded,
): PixelChanges {
  if (value === old) return { changed: 0, bounds: null };
  const { area, bounds } = search({
    run: (y, from, to) => fillSpan(data, value, y * width + from, y * width + to),
  });
  return { changed: area, bounds };
}

function fillAny(
  target: Dense,
  value: readonly number[],
  search: (sink: RunSink) => Flooded,
): PixelChanges {
  const writer = spanWriter(target, value);
  const span = new Int32Array(2);
  search({
    run: (y, from, to) => {
      span[0] = from;
      span[1] = to;
      writer.row(y, span, 2);
    },
  });
  const { changed, bounds } = writer;
  return { changed, bounds };
}
