import { raster } from '../raster/raster.ts';
import type { Mask } from '../raster/types.ts';
import { flatsArgument } from './flats-argument.ts';
import { swatchIndex } from './swatches.ts';
import type { FlatsLike } from './types.ts';

/**
 * The pixels of one swatch, exact to the pixel.
 *
 * @param name - Name of a swatch; `bare` selects what nothing covers.
 * @returns `[w, h]` mask, 1 on the swatch. O(pixels).
 * @throws RangeError for a name that is not in the palette, with the near ones listed.
 * @example
 * ```ts
 * import { raster, selectSwatch } from 'underink';
 * const palette = [
 *   { name: 'bare', color: '#000000' },
 *   { name: 'scarf', color: '#c86400' },
 * ];
 * const flats = { indices: raster(new Uint8Array([1, 0, 1]), [3, 1]), palette };
 * console.log(selectSwatch(flats, 'scarf').data.join(' ')); // 1 0 1
 * ```
 */
export function selectSwatch(flats: FlatsLike, name: string): Mask {
  const { indices, palette } = flatsArgument(flats, 'flats');
  const { data, width, height } = indices;
  const index = swatchIndex(palette, name, 'name');
  const mask = new Uint8Array(data.length);
  for (let i = 0; i < data.length; i++) mask[i] = data[i] === index ? 1 : 0;
  return raster(mask, [width, height]);
}
