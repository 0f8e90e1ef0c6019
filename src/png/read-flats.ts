import { parseColor } from '../color/hex.ts';
import { indexFlats } from '../palette/index-flats.ts';
import type { Flats } from '../palette/types.ts';
import { checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import { bytesArgument, maxPixelsOption } from './bytes-argument.ts';
import { decodeSamples } from './decode-samples.ts';
import { checkIndices, expandSamples } from './expand.ts';
import { INDEXED } from './header.ts';
import { matchNames, type NamesReport } from './match-names.ts';
import { readResolution, readTexts } from './metadata.ts';
import { nameColors } from './name-colors.ts';
import { type PngFile, parsePng } from './parse-png.ts';
import { parseTable, readTable, type SwatchTable } from './swatch-table.ts';
import type { PngBytes, Resolution } from './types.ts';

export interface ReadFlatsOptions {
  /**
   * Most pixels of a picture; a larger one is refused before anything is inflated. From 1 to
   * 2^31 − 1 pixels.
   * @default 2 ** 27
   */
  readonly maxPixels?: number | undefined;
  /**
   * Names to put back by color: what `namesToJson` gave, the text or the object that it stands for.
   * @default those that the file holds, if any
   */
  readonly names?: string | object | undefined;
}

/** Flats from a file. */
export interface ReadFlats {
  readonly flats: Flats;
  /** Pixels per unit; absent where the file does not say. */
  readonly resolution?: Resolution;
  /** What of the `names` matched, and what did not; absent without them. */
  readonly names?: NamesReport;
}

/**
 * Reads flats from a PNG: those that {@link writeFlats} wrote come back exactly as they were,
 * unused swatches, names, order and ground included.
 *
 * Any other picture in solid colors is read by color, as `indexFlats` does, indexed color too: one
 * swatch for each distinct color that a pixel has, in the order of their first pixels, named by its
 * `#rrggbb`; fully transparent pixels are `bare`, which is always index 0.
 *
 * Where another program saved the picture anew but kept the table of swatches, colors give the
 * pixels their swatches: of two swatches of one color the first takes them, and colors that are not in
 * the table follow at its end, named by their `#rrggbb`. `names` from a side file are put back in the
 * same way, in place of the table in the file, and what did not match is told: swatches that no pixel
 * has, and colors without a name, each with the missing swatch that is nearest to it.
 *
 * @param bytes - The file: a Uint8Array (any view, a Node `Buffer` too), an ArrayBuffer or a
 *   SharedArrayBuffer.
 * @returns Flats that share no memory with `bytes`. O(bytes + pixels).
 * @throws PngError for anything wrong with the file, with the inner error as its `cause`.
 *   RangeError for a picture that is not in solid colors: a partly transparent pixel, a 16 bit
 *   sample that no 8 bit sample stands for, more than 65,535 colors; TypeError or RangeError for `names`
 *   that are none.
 * @example
 * ```ts
 * import { raster, readFlats, writePng } from 'underink';
 * const art = raster(new Uint8Array([200, 0, 0, 0, 0, 200]), [2, 1, 3]);
 * const { flats } = readFlats(writePng(art));
 * console.log(flats.palette.map(({ name }) => name).join(' ')); // bare #c80000 #0000c8
 * ```
 */
export function readFlats(bytes: PngBytes, options?: ReadFlatsOptions): ReadFlats {
  const { maxPixels, names } = checkOptions(options, 'readFlats', ['maxPixels', 'names']);
  const given = names === undefined ? undefined : namesOption(names);
  const file = parsePng(bytesArgument(bytes, 'bytes'), maxPixelsOption(maxPixels));
  const table = readTable(readTexts(file));
  const resolution = readResolution(file);
  const flats = readIndices(file, given ?? table);
  const report = given && matchNames(flats, given.palette);
  return { flats, ...(resolution && { resolution }), ...(report && { names: report }) };
}

function namesOption(names: string | object): SwatchTable {
  if (typeof names !== 'string') return parseTable(names, 'names');
  let table: unknown;
  try {
    table = JSON.parse(names);
  } catch (error) {
    throw new RangeError('names must be the JSON that namesToJson gives, got what is no JSON', {
      cause: error,
    });
  }
  return parseTable(table, 'names');
}

function readIndices(file: PngFile, table: SwatchTable | undefined): Flats {
  const samples = decodeSamples(file);
  if (table !== undefined && isAsWritten(file, table)) {
    checkIndices(file, samples);
    const { width, height } = file.header;
    return { indices: raster(samples, [width, height]), ...table };
  }
  const pixels = expandSamples(file, samples);
  const flats = indexFlats(pixels);
  return table === undefined ? flats : nameColors(flats, pixels, table);
}

/** Whether PLTE and tRNS say what `writeFlats` made of the table, so that indices can be trusted. */
function isAsWritten({ header, palette, transparency }: PngFile, table: SwatchTable): boolean {
  if (header.colorType !== INDEXED || palette?.length !== 3 * table.palette.length) return false;
  return table.palette.every(({ name, color }, i) => {
    const alpha = transparency?.[i] ?? 255;
    const mayBeClear = i === 0 || name === table.ground;
    const fits = (i > 0 && alpha === 255) || (mayBeClear && alpha === 0);
    return fits && parseColor(color, 'color').every((sample, c) => sample === palette[3 * i + c]);
  });
}
