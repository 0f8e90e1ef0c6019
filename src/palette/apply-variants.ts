import { parseColor } from '../color/hex.ts';
import { checkList, checkOneOf, checkOptions, checkRecord, checkString } from '../raster/checks.ts';
import { didYouMean, wrongKind, wrongValue } from '../raster/errors.ts';
import { flatsHead } from './flats-argument.ts';
import type { VariantRow, VariantTable } from './read-variants.ts';
import { recolor } from './recolor.ts';
import { checkSheetNames, type NamedFlats } from './sheets.ts';
import { BARE, MOST_NEAR } from './swatches.ts';
import type { Flats } from './types.ts';

export interface ApplyVariantsOptions {
  /** The versions to make. @default all of the table */
  readonly versions?: readonly string[] | undefined;
  /**
   * What a swatch of a sheet without a row in the table is: an error, or a swatch that keeps its
   * color in all versions.
   * @default 'error'
   */
  readonly missing?: 'error' | 'keep' | undefined;
  /**
   * What a row is whose swatch is on none of the sheets: an error, or passed over, as for a few
   * sheets of a production under the table of all.
   * @default 'error'
   */
  readonly extra?: 'error' | 'ignore' | undefined;
}

/** One sheet in one version. */
export interface SheetVariant {
  /** Name of the sheet. */
  readonly name: string;
  readonly version: string;
  /** The flats of the sheet in the colors of the version, over the same `indices`. */
  readonly flats: Flats;
}

/**
 * A set of sheets in every version of a variant table: day, dusk, night.
 *
 * Colors alone change: the result **shares `indices`** with the sheets, as `recolor` does. All names
 * are compared before anything is made. A row that no sheet has a swatch for is an error, so that a
 * name mistyped in the table is not passed over, unless `extra` says otherwise; a sheet need not have
 * the swatches of the others.
 *
 * @returns Sheet by sheet, the versions of each in the order asked for. O(sheets · versions ·
 *   swatches).
 * @throws RangeError that lists all names of the table that no sheet has, and all names of sheets
 *   that are not in the table, with the near ones; for an unknown version.
 * @example
 * ```ts
 * import { applyVariants, raster, readVariants } from 'underink';
 * const palette = [
 *   { name: 'bare', color: '#000000' },
 *   { name: 'scarf', color: '#c86400' },
 * ];
 * const flats = { indices: raster(new Uint8Array([1, 0]), [2, 1]), palette };
 * const table = readVariants('swatch,day,night\nscarf,#c86400,#402060\n');
 * const made = applyVariants([{ name: 'front', flats }], table);
 * console.log(made.map((one) => `${one.version} ${one.flats.palette[1]?.color}`).join()); // day #c86400,night #402060
 * ```
 */
export function applyVariants(
  sheets: readonly NamedFlats[],
  table: VariantTable,
  options?: ApplyVariantsOptions,
): SheetVariant[] {
  const names = ['versions', 'missing', 'extra'] as const;
  const {
    versions,
    missing = 'error',
    extra = 'error',
  } = checkOptions(options, 'applyVariants', names);
  checkOneOf(missing, 'missing', ['error', 'keep']);
  checkOneOf(extra, 'extra', ['error', 'ignore']);
  checkSheetNames(sheets, 'sheets');
  checkTable(table);
  const columns = chosenColumns(table, versions);
  const palettes = sheets.map(({ flats }, i) => flatsHead(flats, `sheets[${i}].flats`).palette);
  const known = new Set(palettes.flatMap((palette) => palette.slice(1).map(({ name }) => name)));
  compareNames(known, table.rows, { missing, extra });
  return sheets.flatMap(({ name, flats }, i) => {
    const own = new Set(palettes[i]!.map((swatch) => swatch.name));
    const rows = table.rows.filter(({ swatch }) => own.has(swatch));
    return columns.map((column) => ({
      name,
      version: table.versions[column]!,
      flats: recolor(flats, colorsOf(rows, column)),
    }));
  });
}

/** New color by swatch; the names become properties of their own, whatever they are. */
function colorsOf(rows: readonly VariantRow[], column: number): Record<string, string> {
  const cells = rows.map(({ swatch, colors }) => [swatch, colors[column]!] as const);
  return Object.fromEntries(cells.filter(([, color]) => color !== null));
}

function chosenColumns(
  { versions: all }: VariantTable,
  versions: readonly string[] | undefined,
): number[] {
  if (versions === undefined) return [...all.keys()];
  return checkList(versions, 'versions', 'an array of names').map((version, i) => {
    const column = all.indexOf(version);
    if (column >= 0) return column;
    const hint = didYouMean(`${version}`, all, MOST_NEAR);
    throw wrongValue(`versions[${i}]`, 'a version of the table', version, hint);
  });
}

/** The names of the sheets and of the table must be the same, or those of the sheets more. */
function compareNames(
  known: ReadonlySet<string>,
  rows: readonly VariantRow[],
  { missing, extra }: Required<Pick<ApplyVariantsOptions, 'missing' | 'extra'>>,
): void {
  const listed = new Set(rows.map(({ swatch }) => swatch));
  const unknown = extra === 'ignore' ? [] : [...listed].filter((name) => !known.has(name));
  const left = missing === 'keep' ? [] : [...known].filter((name) => !listed.has(name));
  if (unknown.length === 0 && left.length === 0) return;
  const parts = [
    ...(unknown.length > 0 ? [`no sheet has ${listNames(unknown, known)}`] : []),
    ...(left.length > 0 ? [`the table has no row for ${listNames(left, listed)}`] : []),
  ];
  throw new RangeError(`table must name the swatches of the sheets, but ${parts.join(', and ')}`);
}

/** Most names that an error spells out. */
const MOST_LISTED = 10;

/** The names, each with those that are near it. */
function listNames(names: readonly string[], candidates: ReadonlySet<string>): string {
  const spelled = names
    .slice(0, MOST_LISTED)
    .map((name) => `${JSON.stringify(name)}${didYouMean(name, candidates, MOST_NEAR)}`)
    .map((text) => text.replace('; did you mean ', ' (did you mean ').replace(/\?$/, '?)'));
  const more = names.length - spelled.length;
  return more > 0 ? `${spelled.join(', ')} and ${more} more` : spelled.join(', ');
}

/** A table, which may also have been made by hand. */
export function checkTable(table: VariantTable): VariantTable {
  const isTable =
    typeof table === 'object' &&
    table !== null &&
    [table.versions, table.rows].every(Array.isArray);
  if (!isTable) throw wrongKind('table', 'a variant table { versions, rows }', table);
  const versions = new Set<string>();
  [...table.versions].forEach((version, i) => {
    const at = `table.versions[${i}]`;
    if (checkString(version, at) === '' || versions.has(version)) {
      throw wrongValue(at, 'a name not listed yet', version);
    }
    versions.add(version);
  });
  const seen = new Set<string>();
  [...table.rows].forEach((row, i) => {
    const at = `table.rows[${i}]`;
    const { swatch, colors } = checkRecord(row, at, 'a row { swatch, colors }');
    checkString(swatch, `${at}.swatch`);
    if (swatch === '' || swatch === BARE || seen.has(swatch)) {
      throw wrongValue(`${at}.swatch`, 'a name not listed yet and not "bare"', swatch);
    }
    seen.add(swatch);
    if (!Array.isArray(colors) || colors.length !== table.versions.length) {
      throw wrongValue(`${at}.colors`, `a list of ${table.versions.length} colors`, colors);
    }
    [...colors].forEach((color, k) => {
      if (color !== null) parseColor(color, `${at}.colors[${k}]`);
    });
  });
  return table;
}
