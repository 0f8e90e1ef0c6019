import type { Finding } from '../finding.ts';
import { amount } from '../places.ts';
import { summarizeFindings } from '../summary.ts';

/** A finding that may say on which sheet it is. */
export type ReportedFinding = Finding & { readonly sheet?: string };

/** The findings of one sheet, in their order. */
export interface SheetGroup {
  /** Undefined where findings tell no sheet. */
  readonly sheet: string | undefined;
  readonly findings: readonly ReportedFinding[];
}

/** Findings by sheet: those of `sheets` first, found or not, then others by their first finding. */
export function groupBySheet(
  findings: readonly ReportedFinding[],
  sheets: readonly string[],
): SheetGroup[] {
  const groups = new Map<string | undefined, ReportedFinding[]>(sheets.map((name) => [name, []]));
  for (const finding of findings) {
    const own = groups.get(finding.sheet);
    if (own === undefined) groups.set(finding.sheet, [finding]);
    else own.push(finding);
  }
  return Array.from(groups, ([sheet, own]) => ({ sheet, findings: own }));
}

/** `3 findings: 1 error, 2 warnings`, or `no findings`. */
export function countWords(findings: readonly ReportedFinding[]): string {
  const { total, bySeverity } = summarizeFindings(findings);
  if (total === 0) return 'no findings';
  const { error, warning, information } = bySeverity;
  const parts = [
    error > 0 ? amount(error, 'error') : '',
    warning > 0 ? amount(warning, 'warning') : '',
    information > 0 ? `${information} for information` : '',
  ];
  return `${amount(total, 'finding')}: ${parts.filter((part) => part !== '').join(', ')}`;
}

/** `3 findings on 1 of 2 sheets: …`; of a single sheet without a name as `countWords`. */
export function totalWords(groups: readonly SheetGroup[]): string {
  const all = groups.flatMap(({ findings }) => findings);
  const words = countWords(all);
  if (groups.every(({ sheet }) => sheet === undefined)) return words;
  const touched = groups.filter(({ findings }) => findings.length > 0).length;
  const of = `on ${touched} of ${amount(groups.length, 'sheet')}`;
  return touched === 0
    ? `${words} on ${amount(groups.length, 'sheet')}`
    : words.replace(':', ` ${of}:`);
}

/** The message, with the place where it does not say it. */
export function messageWords({ message, at, area }: Finding): string {
  const place = `[${Math.floor(at[0])}, ${Math.floor(at[1])}]`;
  return area === 0 || message.includes(place) ? message : `${message} at ${place}`;
}
