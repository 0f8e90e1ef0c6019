import { flatsHead } from '../palette/flats-argument.ts';
import type { FlatsLike } from '../palette/types.ts';
import { tableJson } from './swatch-table.ts';

/**
 * The names of flats by color, as a file to hand on beside the picture: where somebody saves the picture
 * in a program that drops what it does not know, `readFlats(bytes, { names })` puts them back.
 *
 * @returns JSON, `{ "version": 1, "palette": [{ "name", "color" }, …], "ground"?: name }`; every name
 *   comes back letter by letter, whatever it holds. O(swatches).
 * @throws TypeError or RangeError for flats that are none.
 * @example
 * ```ts
 * import { namesToJson, paintFlats, raster, readFlats, writePng } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'scarf', color: '#c86400' }];
 * const flats = { indices: raster(new Uint8Array([1, 1]), [2, 1]), palette };
 * const names = namesToJson(flats);
 * const savedAgain = writePng(paintFlats(flats)); // no names in it
 * console.log(readFlats(savedAgain, { names }).flats.palette[1]?.name); // scarf
 * ```
 */
export function namesToJson(flats: FlatsLike): string {
  return tableJson(flatsHead(flats, 'flats'));
}
