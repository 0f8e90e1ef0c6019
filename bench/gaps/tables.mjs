// Results as text: a table per set, CSV and JSON.
import { meanScores, SCORES } from './score.mjs';

/** Openings that the summary column averages. */
const SUMMARY = [2, 4, 6, 8, 12, 16];

/** Mean scores per set, method and gap: `{ set, method, label, options, gap, cases, ...scores }`. */
export function summarize(rows) {
  const parts = new Map();
  for (const row of rows) {
    const key = JSON.stringify([row.set, row.label, row.gap]);
    parts.set(key, [...(parts.get(key) ?? []), row]);
  }
  return [...parts.values()].map((part) => {
    const [{ set, method, label, options, gap }] = part;
    return { set, method, label, options, gap, cases: part.length, ...meanScores(part) };
  });
}

/**
 * A table of one set: corrections / F1 at IoU 0.9, false splits in brackets. `intact` heads the column of
 * drawings without gaps that were cut.
 */
export function tableOf(set, summary, gaps, intact = 'control') {
  const mine = summary.filter((row) => row.set === set);
  const labels = [...new Set(mine.map((row) => row.label))];
  const averaged = gaps.filter((gap) => SUMMARY.includes(gap));
  const head = gaps.map((gap) => (gap === 0 ? intact : `${gap} px`));
  const last = averaged.length > 1 ? [`mean ${averaged[0]}–${averaged.at(-1)}`] : [];
  const lines = labels.map((label) => {
    const at = (gap) => mine.find((row) => row.label === label && row.gap === gap);
    const cells = gaps.map((gap) => cellOf(at(gap)));
    const found = averaged.map(at).filter((row) => row !== undefined);
    return [label, ...cells, ...(last.length > 0 ? [cellOf(meanOver(found))] : [])];
  });
  const counts = mine.filter((row) => row.label === labels[0]).map((row) => row.cases);
  const title = [`${set} (${Math.max(...counts)} drawings)`, ...head, ...last];
  return columns([title, ...lines]);
}

function meanOver(rows) {
  return rows.length === 0 ? undefined : meanScores(rows);
}

function cellOf(row) {
  if (row === undefined) return '–';
  const { corrections, splits, f1 } = row;
  return `${corrections.toFixed(2)} [${splits.toFixed(2)}] / ${f1.toFixed(3).replace(/^0/, '')}`;
}

function columns(lines) {
  const widths = lines[0].map((_, k) => Math.max(...lines.map((line) => line[k].length)));
  return lines
    .map((line) =>
      line
        .map((cell, k) => (k === 0 ? cell.padEnd(widths[k]) : cell.padStart(widths[k])))
        .join('  '),
    )
    .join('\n');
}

/** One line per case, method and setting. */
export function csvOf(rows) {
  const names = ['set', 'half', 'group', 'name', 'gap', 'label', ...SCORES];
  const quote = (value) => {
    if (value === undefined) return '';
    if (typeof value === 'number') return String(Number(value.toFixed(5)));
    return /[",\n]/.test(value) ? `"${value.replaceAll('"', '""')}"` : value;
  };
  const lines = rows.map((row) => names.map((name) => quote(row[name])).join(','));
  return `${[names.join(','), ...lines].join('\n')}\n`;
}
