import { checkOptions, checkRecord } from '../raster/checks.ts';
import { outArgument, outResult } from '../raster/out.ts';
import type { RasterView } from '../raster/types.ts';
import { denseFlats } from './flats-argument.ts';
import { mapIndices } from './map-indices.ts';
import { swatchFinder } from './swatches.ts';
import type { Flats, FlatsLike } from './types.ts';

export interface RemapFlatsOptions {
  /** A raster of the indices' shape and sample type to write into. @default a new one */
  readonly out?: RasterView<Uint8Array | Uint16Array> | undefined;
}

/**
 * Flats whose pixels have changed swatch: many merged into one, two swapped, any reassignment.
 *
 * All entries act at once, so `{ a: 'b', b: 'a' }` swaps. The palette keeps all its swatches in
 * their order, the unused ones too, and the ground keeps its name. `bare` may stand on either side:
 * mapped to `bare`, a swatch is taken off; mapped from it, what is bare is laid.
 *
 * @param table - New swatch by old one, both by name; swatches that are not named stay.
 * @returns Flats that own their memory, or stand on that of `out`. O(pixels + swatches).
 * @throws RangeError for a name that is not in the palette, with the near ones listed; for
 *   an `out` that does not fit. An index past the palette may be found when `out` is written.
 * @example
 * ```ts
 * import { raster, remapFlats } from 'underink';
 * const palette = [
 *   { name: 'bare', color: '#000000' },
 *   { name: 'cuff', color: '#c86400' },
 *   { name: 'sleeve', color: '#00c864' },
 * ];
 * const flats = { indices: raster(new Uint8Array([0, 1, 2]), [3, 1]), palette };
 * console.log(remapFlats(flats, { cuff: 'sleeve' }).indices.data.join(' ')); // 0 2 2
 * ```
 */
export function remapFlats(
  flats: FlatsLike,
  table: Readonly<Record<string, string>>,
  options?: RemapFlatsOptions,
): Flats {
  const { out } = checkOptions(options, 'remapFlats', ['out']);
  const dense = denseFlats(flats, 'flats');
  const { palette, ground } = dense;
  checkRecord(table, 'table', 'an object { name: name }');
  const find = swatchFinder(palette);
  const to = Uint16Array.from(palette, (_, i) => i);
  for (const [from, name] of Object.entries(table)) {
    const index = find(from, 'a name of table');
    to[index] = find(name, `table[${JSON.stringify(from)}]`);
  }
  const { width, height } = dense.indices;
  const kind = palette.length > 256 ? Uint16Array : Uint8Array;
  const storage = outArgument<Uint8Array | Uint16Array>(out, kind, width, height, [
    flats.indices.data,
  ]);
  return {
    indices: outResult(out, mapIndices(dense, to, storage, 'flats'), width, height),
    palette,
    ...(ground === undefined ? {} : { ground }),
  };
}
