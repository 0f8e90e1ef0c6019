import { rasterArgument } from '../raster/arguments.ts';
import { raster as rasterOf } from '../raster/raster.ts';
import type { Bounds, Mask, Point, RasterLike } from '../raster/types.ts';
import { fillSpan } from '../runs/fill-span.ts';
import { flood } from './flood.ts';
import { matcherFor } from './matcher.ts';
import {
  checkFloodOptions,
  checkMatch,
  checkSeed,
  type FloodOptions,
  samplesAt,
} from './options.ts';

/** Pixels that were found. */
export interface FoundPixels {
  /** `[w, h]`, 1 where found. */
  readonly mask: Mask;
  /** Pixels found. */
  readonly area: number;
  /** Their bounds, half-open; null where none was found. */
  readonly bounds: Bounds | null;
}

/**
 * The pixels that are connected to a seed and like it: a flood fill that changes nothing.
 *
 * A pixel is like the seed when it differs from the seed's own value, not from its neighbor's, by at
 * most `tolerance` in every channel. What is not a number (in rasters of floats) is like nothing, so
 * such a seed finds nothing, as does a seed on the barrier or of a value outside `only`.
 *
 * O(pixels of the flood's rows / 32 + runs) for 8-bit rasters of one channel, O(samples near the
 * flood) for others; 5/32 byte per pixel and 24 bytes per run beside the result.
 *
 * @param raster - `[w, h]` or `[w, h, 1 to 4]` of any sample type.
 * @param seed - `[x, y]` in continuous coordinates; the pixel is the floor.
 * @throws TypeError or RangeError for bad arguments, a seed outside the raster among them.
 * @example
 * ```ts
 * import { floodRegion, raster } from 'underink';
 * const art = raster(new Uint8Array([9, 9, 5, 9, 5, 5]), [3, 2]);
 * console.log(floodRegion(art, [0, 0]).area); // 3
 * console.log(floodRegion(art, [0, 0], { tolerance: 4 }).bounds); // [ 0, 0, 3, 2 ]
 * ```
 */
export function floodRegion(raster: RasterLike, seed: Point, options?: FloodOptions): FoundPixels {
  const { connectivity, ...match } = checkFloodOptions(options, 'floodRegion');
  const dense = rasterArgument(raster, 'raster');
  const { width, height } = dense;
  const [x, y] = checkSeed(seed, 'seed', dense);
  const rule = { value: samplesAt(dense, x, y), ...checkMatch(match, dense) };
  const data = new Uint8Array(width * height);
  const sink = {
    run: (row: number, from: number, to: number) =>
      fillSpan(data, 1, row * width + from, row * width + to),
  };
  const found = flood(matcherFor(dense, rule), [width, height], [x, y], connectivity, sink);
  return { mask: rasterOf(data, [width, height]), ...found };
}
