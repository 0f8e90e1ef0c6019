import type { DenseFlats } from '../palette/flats-argument.ts';
import { checkPalette } from '../palette/swatches.ts';
import type { Swatch } from '../palette/types.ts';
import { checkRecord } from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import { makeChunk } from './chunks.ts';
import { PngError } from './png-error.ts';

/** Keyword of the iTXt that holds the swatches of flats. */
const TABLE_KEYWORD = 'underink palette';

/** The palette of flats as a PNG carries it. */
export interface SwatchTable {
  readonly palette: readonly Swatch[];
  readonly ground?: string;
}

/**
 * The swatches as an uncompressed iTXt chunk, no language. Its text is JSON:
 *
 * ```json
 * {"version":1,"palette":[{"name":"bare","color":"#000000"}, …],"ground":"paper"}
 * ```
 *
 * JSON escapes what UTF-8 cannot hold (lone surrogates) and what iTXt must not (a zero).
 */
export function tableChunk({ palette, ground }: DenseFlats): Uint8Array {
  const json = tableJson({ palette, ...(ground !== undefined && { ground }) });
  // Keyword, zero; not compressed: flag and method 0; empty language and translated keyword.
  return makeChunk('iTXt', new TextEncoder().encode(`${TABLE_KEYWORD}\0\0\0\0\0${json}`));
}

/** The table among the texts of a file; nothing where the file has none. */
export function readTable(text: Readonly<Record<string, string>>): SwatchTable | undefined {
  const json = Object.hasOwn(text, TABLE_KEYWORD) ? text[TABLE_KEYWORD] : undefined;
  if (json === undefined) return undefined;
  try {
    return parseTable(JSON.parse(json), 'the table');
  } catch (error) {
    throw new PngError('the table of swatches in the file cannot be read', { cause: error });
  }
}

export function tableJson({ palette, ground }: SwatchTable): string {
  return JSON.stringify({ version: 1, palette, ground });
}

/** A table that was JSON; `name` is what errors call it. */
export function parseTable(table: unknown, name: string): SwatchTable {
  const allowed = 'an object { version: 1, palette, ground? }';
  const { version, palette, ground } = checkRecord(
    table as SwatchTable & { version: unknown },
    name,
    allowed,
  );
  if (version !== 1) throw wrongValue(`${name}.version`, '1', version);
  const swatches = checkPalette(palette, `${name}.palette`, 'first');
  if (ground === undefined) return { palette: swatches };
  if (swatches.findIndex((swatch) => swatch.name === ground) < 1) {
    throw wrongValue(`${name}.ground`, 'the name of a swatch', ground);
  }
  return { palette: swatches, ground };
}
