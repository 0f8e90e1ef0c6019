import { checkList, checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import { flatsArgument, indexStorage } from './flats-argument.ts';
import { mapIndices } from './map-indices.ts';
import { swatchFinder } from './swatches.ts';
import type { Flats, FlatsLike } from './types.ts';

export interface CompactPaletteOptions {
  /** Names of swatches that stay without a pixel. @default none */
  readonly keep?: readonly string[] | undefined;
}

/**
 * Flats without the swatches that no pixel has.
 *
 * `bare` stays, and so does the ground, whose name the flats carry. The order stays.
 *
 * @returns Flats that own their memory; their indices are Uint8 as soon as 256 swatches are left.
 *   O(pixels + swatches).
 * @throws RangeError for a name in `keep` that is not in the palette, with the near ones listed.
 * @example
 * ```ts
 * import { compactPalette, raster } from 'underink';
 * const palette = ['bare', 'cuff', 'belt', 'boot'].map((name) => ({ name, color: '#c86400' }));
 * const flats = { indices: raster(new Uint8Array([3, 0, 1]), [3, 1]), palette };
 * const compact = compactPalette(flats);
 * console.log(compact.palette.map(({ name }) => name).join(' ')); // bare cuff boot
 * console.log(compact.indices.data.join(' ')); // 2 0 1
 * ```
 */
export function compactPalette(flats: FlatsLike, options?: CompactPaletteOptions): Flats {
  const { keep = [] } = checkOptions(options, 'compactPalette', ['keep']);
  const dense = flatsArgument(flats, 'flats');
  const { indices, palette, ground } = dense;
  const find = swatchFinder(palette);
  const stays = new Uint8Array(palette.length);
  stays[0] = 1;
  if (ground !== undefined) stays[find(ground, 'flats.ground')] = 1;
  checkList(keep, 'keep', 'an array of names of swatches').forEach((name, i) => {
    stays[find(name, `keep[${i}]`)] = 1;
  });
  const { data, width, height } = indices;
  for (let i = 0; i < data.length; i++) stays[data[i]!] = 1;
  const to = new Uint16Array(palette.length);
  let left = 0;
  for (let i = 0; i < to.length; i++) if (stays[i] === 1) to[i] = left++;
  return {
    indices: raster(mapIndices(dense, to, indexStorage(data.length, left), 'flats'), [
      width,
      height,
    ]),
    palette: palette.filter((_, i) => stays[i] === 1),
    ...(ground === undefined ? {} : { ground }),
  };
}
