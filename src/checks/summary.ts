import { checkFindings, type Finding, type FindingSeverity } from './finding.ts';

/** How many findings there are, by what one asks first. */
export interface FindingSummary {
  readonly total: number;
  readonly bySeverity: Readonly<Record<FindingSeverity, number>>;
  /** Checks with findings, in the order of their first. */
  readonly byCheck: Readonly<Record<string, number>>;
  /** Sheets with findings, in the order of their first; empty for findings of no sheet. */
  readonly bySheet: Readonly<Record<string, number>>;
}

/**
 * Counts findings, of one sheet or of many. O(findings).
 *
 * @param findings - As `checkFlats` or `checkSheets` gives them.
 * @throws TypeError or RangeError for what is no list of findings.
 * @example
 * ```ts
 * import { checkFlats, raster, summarizeFindings } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 0, 1, 0]), [4, 1]), palette };
 * const { total, bySeverity } = summarizeFindings(checkFlats(flats));
 * console.log(total, bySeverity.error, bySeverity.warning); // 4 2 2
 * ```
 */
export function summarizeFindings(
  findings: readonly (Finding & { readonly sheet?: string })[],
): FindingSummary {
  const bySeverity = { error: 0, warning: 0, information: 0 };
  const byCheck = new Map<string, number>();
  const bySheet = new Map<string, number>();
  for (const { severity, check, sheet } of checkFindings(findings)) {
    bySeverity[severity]++;
    byCheck.set(check, (byCheck.get(check) ?? 0) + 1);
    if (sheet !== undefined) bySheet.set(sheet, (bySheet.get(sheet) ?? 0) + 1);
  }
  return {
    total: findings.length,
    bySeverity,
    byCheck: Object.fromEntries(byCheck),
    bySheet: Object.fromEntries(bySheet),
  };
}
