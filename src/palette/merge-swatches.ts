import { checkList } from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import { raster } from '../raster/raster.ts';
import { denseFlats, indexStorage } from './flats-argument.ts';
import { mapIndices } from './map-indices.ts';
import { BARE, swatchFinder } from './swatches.ts';
import type { Flats, FlatsLike } from './types.ts';

/**
 * Flats in which many swatches have become one; the others of them leave the palette.
 *
 * The rest of the palette keeps its order. Where the ground is among the merged swatches, `into` is
 * the ground of the result. To keep the merged names in the palette, use `remapFlats`.
 *
 * @param names - The swatches to merge; `into` may be among them. `bare` may not.
 * @param into - The swatch, other than `bare`, that takes their pixels.
 * @returns Flats that own their memory; their indices are Uint8 as soon as 256 swatches are left.
 *   O(pixels + swatches).
 * @throws RangeError for a name that is not in the palette, with the near ones listed, and for `bare`.
 * @example
 * ```ts
 * import { mergeSwatches, raster } from 'underink';
 * const palette = ['bare', 'cuff', 'belt', 'boot'].map((name) => ({ name, color: '#c86400' }));
 * const flats = { indices: raster(new Uint8Array([0, 1, 2, 3]), [4, 1]), palette };
 * const merged = mergeSwatches(flats, ['cuff', 'boot'], 'boot');
 * console.log(merged.palette.map(({ name }) => name).join(' ')); // bare belt boot
 * console.log(merged.indices.data.join(' ')); // 0 2 1 2
 * ```
 */
export function mergeSwatches(flats: FlatsLike, names: readonly string[], into: string): Flats {
  const dense = denseFlats(flats, 'flats');
  const { palette, ground } = dense;
  const given = checkList(names, 'names', 'an array of names of swatches');
  const find = swatchFinder(palette);
  const target = find(into, 'into');
  if (target === 0) throw wrongValue('into', `a swatch other than "${BARE}"`, into);
  const merged = new Set(given.map((name, i) => find(name, `names[${i}]`)));
  if (merged.has(0)) throw wrongValue('a name of names', `a swatch other than "${BARE}"`, BARE);
  merged.delete(target);
  const kept = palette.filter((_, i) => !merged.has(i));
  const places = new Map(kept.map(({ name }, i) => [name, i]));
  const to = Uint16Array.from(palette, ({ name }) => places.get(name) ?? places.get(into)!);
  const { width, height } = dense.indices;
  return {
    indices: raster(mapIndices(dense, to, indexStorage(width * height, kept.length), 'flats'), [
      width,
      height,
    ]),
    palette: kept,
    ...(ground === undefined ? {} : { ground: places.has(ground) ? ground : into }),
  };
}
