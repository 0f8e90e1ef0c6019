import { checkOptions } from '../../raster/checks.ts';
import { checkFindings } from '../finding.ts';
import { sheetsOption } from './sheets-option.ts';
import {
  countWords,
  groupBySheet,
  messageWords,
  type ReportedFinding,
  totalWords,
} from './words.ts';

export interface FindingsToTextOptions {
  /** Names of all sheets that were checked, so that those without a finding are told. @default [] */
  readonly sheets?: readonly string[] | undefined;
}

/**
 * Findings as plain text, a line each: number, severity, check and message with its place, in the order
 * in which they come, sheet by sheet. The numbers are those of `findingsToHtml`. O(findings).
 *
 * @param findings - As `checkFlats` or `checkSheets` gives them, or read back from JSON.
 * @returns Lines, each ended.
 * @throws TypeError or RangeError for what are no findings or options.
 * @example
 * ```ts
 * import { checkFlats, findingsToText, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 0, 1, 1]), [4, 1]), palette };
 * const lines = findingsToText(checkFlats(flats, { checks: ['bare'] })).split('\n');
 * console.log(lines[0]); // 1 finding: 1 error
 * console.log(lines[2]); // 1  error  bare  1 pixel bare at [1, 0]
 * ```
 */
export function findingsToText(
  findings: readonly ReportedFinding[],
  options?: FindingsToTextOptions,
): string {
  const { sheets } = checkOptions(options, 'findingsToText', ['sheets']);
  const groups = groupBySheet(checkFindings(findings), sheetsOption(sheets));
  const lines = [totalWords(groups)];
  for (const { sheet, findings: own } of groups) {
    lines.push('');
    if (sheet !== undefined) lines.push(`${oneLine(sheet)}: ${countWords(own)}`);
    const rows = own.map((finding, k) => [
      String(k + 1),
      finding.severity,
      oneLine(finding.check),
      oneLine(messageWords(finding)),
    ]);
    lines.push(...inColumns(rows));
  }
  return `${lines.join('\n')}\n`;
}

/** Cells, all but the last as wide as the widest in their column, parted by two spaces. */
function inColumns(rows: readonly string[][]): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, c) => {
      widths[c] = Math.max(widths[c] ?? 0, cell.length);
    });
  }
  return rows.map((row) =>
    row.map((cell, c) => (c + 1 < row.length ? cell.padEnd(widths[c]!) : cell)).join('  '),
  );
}

/** A text that ends no line: names and messages of own checks may hold anything. */
function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}
