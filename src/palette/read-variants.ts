import { parseColor } from '../color/hex.ts';
import { checkOneOf, checkOptions } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import { type CsvRow, parseCsv } from './csv.ts';
import { unguardCell } from './spreadsheet-cells.ts';
import { BARE } from './swatches.ts';

export interface ReadVariantsOptions {
  /** What stands between two fields; spreadsheets of some countries write `;`. @default ',' */
  readonly separator?: ',' | ';' | '\t' | undefined;
}

/** Colors of swatches by version: day, dusk, night. */
export interface VariantTable {
  /** The columns, in order; unique. */
  readonly versions: readonly string[];
  /** The rows, in order; names are unique. */
  readonly rows: readonly VariantRow[];
}

export interface VariantRow {
  /** Name of a swatch. */
  readonly swatch: string;
  /** `#rrggbb` by version; null where the swatch keeps its color. */
  readonly colors: readonly (string | null)[];
}

/**
 * Reads a variant table: a row for each swatch, a column for each version.
 *
 * The first row holds a heading for the names, which is not looked at, then the names of the
 * versions. Cells are colors `#rrggbb`; where a cell is empty, the swatch keeps the color it has.
 * Names are taken letter by letter, but for a `'` in front of what a spreadsheet would run
 * (`'=scarf`, as {@link writeVariants} has it); colors without spaces round them. Fields may be quoted, lines
 * end in CRLF or LF, empty lines are passed over (RFC 4180, Y. Shafranovich 2005, Common format and
 * MIME type for comma-separated values).
 *
 * @param csv - The text of the table, not its bytes.
 * @returns The table with its colors in lower case. O(text).
 * @throws RangeError, naming the line, for a row of another length than the first, for a name that
 *   is empty, `bare` or there already, for what is no color, and for quotes that do not match.
 * @example
 * ```ts
 * import { readVariants } from 'underink';
 * const { versions, rows } = readVariants('swatch,day,night\nscarf,#c86400,#402060\nbeak,#101010,\n');
 * console.log(versions.join(' ')); // day night
 * console.log(rows[1]); // { swatch: 'beak', colors: [ '#101010', null ] }
 * ```
 */
export function readVariants(csv: string, options?: ReadVariantsOptions): VariantTable {
  const { separator = ',' } = checkOptions(options, 'readVariants', ['separator']);
  checkOneOf(separator, 'separator', [',', ';', '\t']);
  if (typeof csv !== 'string') throw wrongKind('csv', 'the text of a table', csv);
  const [head, ...body] = parseCsv(csv, separator, 'csv').map(({ line, fields }) => {
    return { line, fields: fields.map(unguardCell) };
  });
  if (head === undefined || head.fields.length < 2) {
    const got = head === undefined ? 'no row' : `one field: ${JSON.stringify(head.fields[0])}`;
    throw new RangeError(
      `csv must start with a heading and the names of versions between ${JSON.stringify(separator)}, got ${got}`,
    );
  }
  const versions = head.fields.slice(1);
  checkUnique(
    versions.map((version) => ({ name: version, line: head.line })),
    'version',
  );
  checkUnique(
    body.map(({ fields, line }) => ({ name: fields[0]!, line })),
    'swatch',
  );
  return { versions, rows: body.map((row) => readRow(row, versions)) };
}

function readRow({ fields, line }: CsvRow, versions: readonly string[]): VariantRow {
  const [swatch, ...cells] = fields as [string, ...string[]];
  if (cells.length !== versions.length) {
    throw new RangeError(
      `csv must have ${versions.length + 1} fields in each row, got ${fields.length} on line ${line}`,
    );
  }
  if (swatch === BARE) {
    throw new RangeError(`csv must not color the reserved "${BARE}", got it on line ${line}`);
  }
  const colors = cells.map((cell, i) => {
    const color = cell.trim();
    if (color === '') return null;
    const place = `the color of ${JSON.stringify(swatch)} in ${JSON.stringify(versions[i])} (csv line ${line})`;
    parseColor(color, place);
    return color.toLowerCase();
  });
  return { swatch, colors };
}

function checkUnique(
  names: readonly { readonly name: string; readonly line: number }[],
  noun: string,
): void {
  const seen = new Set<string>();
  for (const { name, line } of names) {
    if (name === '') throw new RangeError(`csv must name each ${noun}, got none on line ${line}`);
    if (seen.has(name)) {
      throw new RangeError(
        `csv must name each ${noun} once, got ${JSON.stringify(name)} again on line ${line}`,
      );
    }
    seen.add(name);
  }
}
