import { maskArgument } from '../raster/arguments.ts';
import { checkMaskValues } from '../raster/mask-values.ts';
import { raster } from '../raster/raster.ts';
import type { MaskLike, Pixels } from '../raster/types.ts';

/**
 * A mask as a picture, for files and for the screen: black where it is 0, white where it is 1.
 *
 * @param mask - `[w, h]` of 0 or 1.
 * @returns Gray Uint8 `[w, h, 1]` of 0 and 255. O(pixels).
 * @throws TypeError or RangeError for what is no mask.
 * @example
 * ```ts
 * import { maskToPixels, raster, readPng, writePng } from 'underink';
 * const scarf = raster(new Uint8Array([1, 0, 1]), [3, 1]);
 * console.log(readPng(writePng(maskToPixels(scarf))).pixels.data.join(' ')); // 255 0 255
 * ```
 */
export function maskToPixels(mask: MaskLike): Pixels<Uint8Array> {
  const dense = maskArgument(mask, 'mask');
  checkMaskValues(dense, 'mask');
  const { data, width, height } = dense;
  const gray = new Uint8Array(width * height);
  for (let i = 0; i < gray.length; i++) gray[i] = -data[i]!;
  return raster(gray, [width, height, 1]);
}
