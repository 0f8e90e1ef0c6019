import { checkList, checkString } from '../../raster/checks.ts';

/** The `sheets` option of reports. */
export function sheetsOption(sheets: readonly string[] | undefined): string[] {
  if (sheets === undefined) return [];
  return checkList(sheets, 'sheets', 'an array of names').map((name, i) =>
    checkString(name, `sheets[${i}]`),
  );
}
