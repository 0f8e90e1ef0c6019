import { checkString } from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import { raster } from '../raster/raster.ts';
import { flatsArgument } from './flats-argument.ts';
import { BARE, swatchIndex } from './swatches.ts';
import type { Flats, FlatsLike } from './types.ts';

/**
 * The same flats with another name for one swatch; the ground follows.
 *
 * @param from - Name of the swatch; not `bare`.
 * @param to - Its new name: a string that is not empty, that no other swatch has, and not `bare`.
 * @returns Flats that own their memory. O(pixels + swatches).
 * @throws RangeError for a `from` that is not in the palette, with the near ones listed, and for a
 *   `to` that may not be.
 * @example
 * ```ts
 * import { raster, renameSwatch } from 'underink';
 * const palette = [
 *   { name: 'bare', color: '#000000' },
 *   { name: 'scarf', color: '#c86400' },
 * ];
 * const flats = { indices: raster(new Uint8Array([1, 0]), [2, 1]), palette, ground: 'scarf' };
 * const renamed = renameSwatch(flats, 'scarf', 'cape');
 * console.log(renamed.palette[1]?.name, renamed.ground); // cape cape
 * ```
 */
export function renameSwatch(flats: FlatsLike, from: string, to: string): Flats {
  const { indices, palette, ground } = flatsArgument(flats, 'flats');
  const index = swatchIndex(palette, from, 'from');
  if (index === 0) throw wrongValue('from', `a swatch other than "${BARE}"`, from);
  if (checkString(to, 'to') === '') throw wrongValue('to', 'a string that is not empty', to);
  if (to === BARE) throw wrongValue('to', `a name other than the reserved "${BARE}"`, to);
  if (to !== from && palette.some(({ name }) => name === to)) {
    throw wrongValue('to', 'a name that no other swatch has', to);
  }
  const { data, width, height } = indices;
  return {
    indices: raster(data.slice(), [width, height]),
    palette: palette.with(index, { name: to, color: palette[index]!.color }),
    ...(ground === undefined ? {} : { ground: ground === from ? to : ground }),
  };
}
