import { parseColor } from '../color/hex.ts';
import { checkRecord } from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import { raster, viewOf } from '../raster/raster.ts';
import type { RasterLike } from '../raster/types.ts';
import { flatsHead } from './flats-argument.ts';
import { BARE, swatchFinder } from './swatches.ts';
import type { Flats, FlatsLike, IndexRaster } from './types.ts';

/**
 * The same flats in other colors: a costume change, a night version.
 *
 * The result **shares `indices`** with `flats`: no pixel is read or copied, and a change to the
 * pixels of one shows in the other. Names, their order and the ground stay.
 *
 * @param colors - New color `#rrggbb` by name of swatch; swatches that are not named keep theirs.
 * @returns Flats over the same `indices`. O(swatches).
 * @throws RangeError for a name that is not in the palette (with the near ones listed), for `bare`,
 *   which has no color to change, and for what is no color.
 * @example
 * ```ts
 * import { raster, recolor } from 'underink';
 * const palette = [
 *   { name: 'bare', color: '#000000' },
 *   { name: 'scarf', color: '#c86400' },
 * ];
 * const day = { indices: raster(new Uint8Array([1, 0]), [2, 1]), palette };
 * const night = recolor(day, { scarf: '#402060' });
 * console.log(night.palette[1]?.color, night.indices === day.indices); // #402060 true
 * ```
 */
export function recolor(flats: FlatsLike, colors: Readonly<Record<string, string>>): Flats {
  const { palette, ground } = flatsHead(flats, 'flats');
  checkRecord(colors, 'colors', 'an object { name: color }');
  const find = swatchFinder(palette);
  const changed = [...palette];
  for (const [name, color] of Object.entries(colors)) {
    if (name === BARE) throw wrongValue('a key of colors', 'a swatch other than "bare"', name);
    const index = find(name, 'a key of colors');
    parseColor(color, `colors[${JSON.stringify(name)}]`);
    changed[index] = { name, color: color.toLowerCase() };
  }
  const indices = sharedView(flats.indices);
  return { indices, palette: changed, ...(ground === undefined ? {} : { ground }) };
}

/** The raster itself where it is an ndarray; else a view of its memory. */
function sharedView(given: RasterLike<Uint8Array | Uint16Array>): IndexRaster {
  const indices = given as RasterLike<IndexRaster['data']>;
  if ('get' in indices) return indices as IndexRaster;
  if (!('shape' in indices)) return raster(indices.data, [indices.width, indices.height]);
  return viewOf(indices.data, [...indices.shape], [...indices.stride], indices.offset);
}
