import { flatsArgument } from '../palette/flats-argument.ts';
import type { FlatsLike } from '../palette/types.ts';
import { checkOptions } from '../raster/checks.ts';
import type { Dense, Owned } from '../raster/types.ts';
import { encodePng, resolutionChunks } from './encode.ts';
import { safeFileNames } from './safe-file-names.ts';
import type { Resolution } from './types.ts';

export interface WriteMasksOptions {
  /**
   * Pixels per unit, written as pHYs: `{ x: 11811, y: 11811, unit: 'meter' }` is 300 dots per inch.
   * @default undefined, and no pHYs
   */
  readonly resolution?: Resolution | undefined;
}

/** The mask of a swatch, as a file. */
export interface MaskFile {
  /** Name of the swatch. */
  readonly name: string;
  /** Name for the file, with its ending; unique among those of the flats. */
  readonly file: string;
  /** A gray PNG: 255 on the pixels of the swatch, else 0. */
  readonly bytes: Owned<Uint8Array>;
}

/**
 * Writes a mask for each swatch but `bare`, in the order of the palette: black and white PNGs of the
 * size of the flats, made one by one as they are asked for.
 *
 * File names are those of the swatches where every common file system takes them: what one of them does
 * not (separators, control characters, `con` and other devices, a dot at the end, more than 200 bytes) is
 * replaced, and of names that would be one file where case or accents do not count, later ones get a
 * number: `scarf (2).png`.
 *
 * @returns What `for … of` takes, or `[...writeMasks(flats)]` for a list. O(pixels) for each file.
 * @throws TypeError or RangeError for flats or options that are none.
 * @example
 * ```ts
 * import { raster, writeMasks } from 'underink';
 * const palette = ['bare', 'heron/scarf', 'Heron/Scarf'].map((name) => ({ name, color: '#c86400' }));
 * const flats = { indices: raster(new Uint8Array([1, 0, 2]), [3, 1]), palette };
 * const files = [...writeMasks(flats)].map(({ file }) => file);
 * console.log(files.join(', ')); // heron_scarf.png, Heron_Scarf (2).png
 * ```
 */
export function writeMasks(
  flats: FlatsLike,
  options?: WriteMasksOptions,
): Generator<MaskFile, void, void> {
  const { resolution } = checkOptions(options, 'writeMasks', ['resolution']);
  const chunks = resolutionChunks(resolution);
  const { indices, palette } = flatsArgument(flats, 'flats');
  return maskFiles(
    indices,
    palette.map(({ name }) => name),
    chunks,
  );
}

function* maskFiles(
  { data, width, height }: Dense<Uint8Array | Uint16Array>,
  names: readonly string[],
  chunks: readonly Uint8Array[],
): Generator<MaskFile, void, void> {
  const files = safeFileNames(names.slice(1));
  for (let index = 1; index < names.length; index++) {
    const gray = new Uint8Array(data.length);
    for (let i = 0; i < gray.length; i++) gray[i] = data[i] === index ? 255 : 0;
    const image = { data: gray, width, height, channels: 1 };
    yield {
      name: names[index]!,
      file: `${files[index - 1]}.png`,
      bytes: encodePng(image, 'flats', chunks),
    };
  }
}
