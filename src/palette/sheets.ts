import { checkOptions } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { FlatsLike } from './types.ts';

/** The flats of one sheet of a production. */
export interface FlatsSheet {
  /** Unique among the sheets. */
  readonly name: string;
  readonly flats: FlatsLike;
}

/** A list of sheets with unique names; their flats are not looked at. */
export function checkSheetNames(sheets: readonly FlatsSheet[], name: string): void {
  if (!Array.isArray(sheets)) throw wrongKind(name, 'an array of { name, flats }', sheets);
  const seen = new Set<string>();
  sheets.forEach((sheet: FlatsSheet, i) => {
    const own = checkOptions(sheet, `${name}[${i}]`, ['name', 'flats']).name;
    if (typeof own !== 'string') throw wrongKind(`${name}[${i}].name`, 'a text', own);
    if (seen.has(own)) throw wrongValue(`${name}[${i}].name`, 'unique among the sheets', own);
    seen.add(own);
  });
}
