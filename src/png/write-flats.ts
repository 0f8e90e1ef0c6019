import { parseColor } from '../color/hex.ts';
import { type DenseFlats, flatsArgument } from '../palette/flats-argument.ts';
import type { FlatsLike } from '../palette/types.ts';
import { checkOptions } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import type { Owned } from '../raster/types.ts';
import { makeChunk } from './chunks.ts';
import { type Encodable, encodePng, resolutionChunks } from './encode.ts';
import { tableChunk } from './swatch-table.ts';
import type { Resolution } from './types.ts';

export interface WriteFlatsOptions {
  /**
   * Pixels per unit, written as pHYs: `{ x: 11811, y: 11811, unit: 'meter' }` is 300 dots per inch.
   * @default undefined, and no pHYs
   */
  readonly resolution?: Resolution | undefined;
  /**
   * Write the ground with alpha 0 too; without a ground there is nothing to make transparent.
   * @default false
   */
  readonly transparentGround?: boolean | undefined;
}

/** A file of flats. */
export interface WrittenFlats {
  readonly bytes: Owned<Uint8Array>;
  /** `indexed`: the indices stand in the file as they are. `rgb`: their colors do. */
  readonly mode: 'indexed' | 'rgb';
}

/**
 * Writes flats as a PNG that {@link readFlats} gives back exactly.
 *
 * Up to 256 swatches the file is in indexed color: the pixels are `indices` byte by byte, PLTE is
 * the palette, and tRNS makes `bare` transparent (and the ground, with `transparentGround`). Above
 * 256 it is RGB, or RGBA where a pixel is transparent; then no two swatches may look the same.
 *
 * Names, order and ground stand in an iTXt chunk with the keyword `underink palette`, as JSON:
 * `{ "version": 1, "palette": [{ "name", "color" }, …], "ground"?: name }`. Other programs show the
 * colors and pass over the names.
 *
 * @returns The file and how the pixels stand in it. The same flats give the same bytes everywhere.
 *   O(pixels + swatches).
 * @throws TypeError or RangeError for flats that are none, such as an index past the palette (the
 *   pixel is named); RangeError naming two swatches of one color, above 256 swatches.
 * @example
 * ```ts
 * import { raster, readFlats, writeFlats } from 'underink';
 * const palette = [
 *   { name: 'bare', color: '#000000' },
 *   { name: 'scarf', color: '#c86400' },
 * ];
 * const flats = { indices: raster(new Uint8Array([1, 0, 1]), [3, 1]), palette };
 * const { bytes, mode } = writeFlats(flats);
 * console.log(mode, readFlats(bytes).flats.palette[1]?.name); // indexed scarf
 * ```
 */
export function writeFlats(flats: FlatsLike, options?: WriteFlatsOptions): WrittenFlats {
  const { resolution, transparentGround = false } = checkOptions(options, 'writeFlats', [
    'resolution',
    'transparentGround',
  ]);
  if (typeof transparentGround !== 'boolean') {
    throw wrongKind('transparentGround', 'true or false', transparentGround);
  }
  const chunks = resolutionChunks(resolution);
  const dense = flatsArgument(flats, 'flats');
  const alpha = dense.palette.map(({ name }, i) => {
    return i === 0 || (transparentGround && name === dense.ground) ? 0 : 255;
  });
  const mode = dense.palette.length <= 256 ? 'indexed' : 'rgb';
  if (mode === 'indexed') chunks.push(makeChunk('tRNS', transparency(alpha)));
  chunks.push(tableChunk(dense));
  const image = mode === 'indexed' ? indexedImage(dense) : colorImage(dense, alpha);
  return { bytes: encodePng(image, 'flats', chunks), mode };
}

/** Alpha by index, up to the last that is not opaque: what follows counts as 255. */
function transparency(alpha: readonly number[]): Uint8Array {
  return Uint8Array.from(alpha.slice(0, alpha.lastIndexOf(0) + 1));
}

function indexedImage({ indices, palette }: DenseFlats): Encodable {
  return { ...indices, palette: palette.map(({ color }) => [...parseColor(color, 'color')]) };
}

function colorImage({ indices, palette }: DenseFlats, alpha: readonly number[]): Encodable {
  const { data, width, height } = indices;
  const table = new Uint8Array(palette.length * 4);
  const first = new Map<string, string>();
  palette.forEach(({ name, color }, i) => {
    const look = `${color} ${alpha[i]}`;
    const same = first.get(look);
    if (same !== undefined) {
      throw new RangeError(
        `flats.palette of more than 256 swatches is written by color, so no two may share one, got ${JSON.stringify(same)} and ${JSON.stringify(name)} in ${color}; recolor one, or lay fewer swatches (unnamed: 'shared')`,
      );
    }
    first.set(look, name);
    table.set([...parseColor(color, 'color'), alpha[i]!], 4 * i);
  });
  const channels = hasClearPixel(data, alpha) ? 4 : 3;
  const pixels = new Uint8Array(data.length * channels);
  let last = 0;
  let [r, g, b, a] = table as unknown as [number, number, number, number];
  for (let i = 0, to = 0; i < data.length; i++, to += channels) {
    const index = data[i]!;
    if (index !== last) {
      last = index;
      r = table[4 * index]!;
      g = table[4 * index + 1]!;
      b = table[4 * index + 2]!;
      a = table[4 * index + 3]!;
    }
    pixels[to] = r;
    pixels[to + 1] = g;
    pixels[to + 2] = b;
    if (channels === 4) pixels[to + 3] = a;
  }
  return { data: pixels, width, height, channels };
}

function hasClearPixel(data: Uint8Array | Uint16Array, alpha: readonly number[]): boolean {
  const clear = Uint8Array.from(alpha, (value) => (value === 0 ? 1 : 0));
  for (let i = 0; i < data.length; i++) if (clear[data[i]!] === 1) return true;
  return false;
}
