import type { DenseFlats } from '../palette/flats-argument.ts';
import { checkPalette } from '../palette/swatches.ts';
import type { Swatch } from '../palette/types.ts';
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
  const json = JSON.stringify({ version: 1, palette, ground });
  // Keyword, zero; not compressed: flag and method 0; empty language and translated keyword.
  return makeChunk('iTXt', new TextEncoder().encode(`${TABLE_KEYWORD}\0\0\0\0\0${json}`));
}

/** The table among the texts of a file; nothing where the file has none. */
export function readTable(text: Readonly<Record<string, string>>): SwatchTable | undefined {
  const json = Object.hasOwn(text, TABLE_KEYWORD) ? text[TABLE_KEYWORD] : undefined;
  if (json === undefined) return undefined;
  try {
    const table: unknown = JSON.parse(json);
    const { version, palette, ground } = table as { version: unknown } & SwatchTable;
    if (version !== 1) throw new RangeError(`version must be 1, got ${String(version)}`);
    const swatches = checkPalette(palette, 'palette', 'first');
    if (ground === undefined) return { palette: swatches };
    if (swatches.findIndex(({ name }) => name === ground) < 1) {
      throw new RangeError(`ground must be the name of a swatch, got ${JSON.stringify(ground)}`);
    }
    return { palette: swatches, ground };
  } catch (error) {
    throw new PngError('the table of swatches in the file cannot be read', { cause: error });
  }
}
