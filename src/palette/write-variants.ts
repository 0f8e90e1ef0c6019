import { checkOneOf, checkOptions, checkString } from '../raster/checks.ts';
import { checkTable } from './apply-variants.ts';
import type { VariantTable } from './read-variants.ts';
import { guardCell } from './spreadsheet-cells.ts';
import { BARE, checkPalette } from './swatches.ts';
import type { Swatch } from './types.ts';

export interface WriteVariantsOptions {
  /** What stands between two fields; spreadsheets of some countries read `;`. @default ',' */
  readonly separator?: ',' | ';' | '\t' | undefined;
  /** Name of the one version that a palette is written as. @default 'color' */
  readonly version?: string | undefined;
}

/**
 * Writes a variant table as CSV, or a palette as a table of one version; {@link readVariants} reads it.
 *
 * The first row holds `swatch` and the names of the versions, then comes a row for each swatch; `bare` has
 * none. Fields with separators, quotes, line ends or spaces at their ends are quoted, lines end in CRLF
 * (RFC 4180). A name that a spreadsheet would run as a formula, one that starts with `=`, `+`, `-`, `@`, a
 * tab or a line end, gets a `'` in front, which `readVariants` takes away again.
 *
 * @param table - A table as `readVariants` gives it, or the palette of flats.
 * @returns The text; a file of it is UTF-8. O(cells).
 * @throws TypeError or RangeError for a table or palette that is none.
 * @example
 * ```ts
 * import { readVariants, writeVariants } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: '=1+1', color: '#c86400' }];
 * const csv = writeVariants(palette);
 * console.log(JSON.stringify(csv)); // "swatch,color\r\n'=1+1,#c86400\r\n"
 * console.log(readVariants(csv).rows[0]?.swatch); // =1+1
 * ```
 */
export function writeVariants(
  table: VariantTable | readonly Swatch[],
  options?: WriteVariantsOptions,
): string {
  const { separator = ',', version = 'color' } = checkOptions(options, 'writeVariants', [
    'separator',
    'version',
  ]);
  checkOneOf(separator, 'separator', [',', ';', '\t']);
  checkString(version, 'version');
  const { versions, rows } = Array.isArray(table)
    ? tableOf(table, version)
    : checkTable(table as VariantTable);
  const lines = [
    ['swatch', ...versions.map(guardCell)],
    ...rows.map(({ swatch, colors }) => [guardCell(swatch), ...colors.map((color) => color ?? '')]),
  ];
  return lines
    .map((cells) => `${cells.map((cell) => quoted(cell, separator)).join(separator)}\r\n`)
    .join('');
}

function tableOf(palette: readonly Swatch[], version: string): VariantTable {
  const swatches = checkPalette(palette, 'table', 'either').filter(({ name }) => name !== BARE);
  return checkTable({
    versions: [version],
    rows: swatches.map(({ name, color }) => ({ swatch: name, colors: [color] })),
  });
}

function quoted(cell: string, separator: string): string {
  const plain = !/["\r\n]|^\s|\s$/.test(cell) && !cell.includes(separator);
  return plain ? cell : `"${cell.replaceAll('"', '""')}"`;
}
