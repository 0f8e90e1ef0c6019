import { checkList, checkOptions, checkRecord, checkString } from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import type { FlatsLike } from './types.ts';

/** The flats of one sheet of a production. */
export interface NamedFlats {
  /** Unique among the sheets. */
  readonly name: string;
  readonly flats: FlatsLike;
}

/** A list of sheets with unique names; their flats are not looked at. */
export function checkSheetNames(sheets: readonly NamedFlats[], name: string): void {
  const seen = new Set<string>();
  checkList(sheets, name, 'an array of { name, flats }').forEach((sheet, i) => {
    const own = checkRecord(sheet, `${name}[${i}]`, 'an object { name, flats }').name;
    checkOptions(sheet, `${name}[${i}]`, ['name', 'flats']);
    checkString(own, `${name}[${i}].name`);
    if (seen.has(own)) throw wrongValue(`${name}[${i}].name`, 'unique among the sheets', own);
    seen.add(own);
  });
}
