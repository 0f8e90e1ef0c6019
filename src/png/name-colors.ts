import { parseColor } from '../color/hex.ts';
import { indexStorage } from '../palette/flats-argument.ts';
import { freeName } from '../palette/free-name.ts';
import { MAX_SWATCHES } from '../palette/swatches.ts';
import type { Flats, Swatch } from '../palette/types.ts';
import { raster } from '../raster/raster.ts';
import type { Pixels } from '../raster/types.ts';
import type { SwatchTable } from './swatch-table.ts';

/**
 * The swatches of a table in place of those that `indexFlats` made of `pixels`, by color (the indices
 * of `flats` are written over where they are wide enough for the table): the first
 * of a color takes its pixels. Colors that are not in the table are added at its end.
 *
 * A transparent pixel is `bare`, but for those that still hold the color of the ground: so a
 * transparent ground is written. O(pixels + swatches).
 */
export function nameColors(
  flats: Flats,
  pixels: Pixels<Uint8Array | Uint16Array>,
  { palette: named, ground }: SwatchTable,
): Flats {
  const palette = [...named];
  const places = placesIn(palette, flats.palette);
  const { data, shape } = flats.indices;
  const wide = data instanceof Uint16Array && palette.length > 256;
  const indices = wide ? data : indexStorage(data.length, palette.length);
  for (let i = 0; i < data.length; i++) indices[i] = places[data[i]!]!;
  const result = raster(indices, [shape[0]!, shape[1]!]);
  if (ground === undefined) return { indices: result, palette };
  const place = named.findIndex(({ name }) => name === ground);
  if (named[place]!.color !== named[0]!.color) {
    layClearGround(indices, pixels, place, named[place]!.color);
  }
  return { indices: result, palette, ground };
}

/** Place in `palette` of each swatch of `found`; what is not there by color is added. */
function placesIn(palette: Swatch[], found: readonly Swatch[]): Uint16Array {
  const places = new Uint16Array(found.length);
  const byColor = new Map<string, number>();
  const names = new Set(palette.map(({ name }) => name));
  palette.forEach(({ color }, i) => {
    if (i > 0 && !byColor.has(color)) byColor.set(color, i);
  });
  for (let i = 1; i < found.length; i++) {
    const { color } = found[i]!;
    places[i] = byColor.get(color) ?? palette.length;
    if (byColor.has(color)) continue;
    if (palette.length === MAX_SWATCHES) {
      throw new RangeError(
        `the picture must hold at most ${MAX_SWATCHES} swatches, those of its table included, got more`,
      );
    }
    palette.push({ name: freeName(color, names), color });
  }
  return places;
}

function layClearGround(
  indices: Uint8Array | Uint16Array,
  { data, shape }: Pixels<Uint8Array | Uint16Array>,
  place: number,
  color: string,
): void {
  const channels = shape[2]!;
  if (channels !== 4 || data instanceof Uint16Array) return;
  const [r, g, b] = parseColor(color, 'color');
  for (let i = 0, p = 0; i < indices.length; i++, p += 4) {
    if (data[p + 3] === 0 && data[p] === r && data[p + 1] === g && data[p + 2] === b) {
      indices[i] = place;
    }
  }
}
