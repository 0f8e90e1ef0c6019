// What became of all pages, as CSV and as a page of HTML with thumbnails.
import { join } from 'node:path';
import { writeWhole } from './files.mjs';

/** @param outcomes - `{ name, record }` or `{ name, error }` each. */
export function writeSummaries(out, outcomes) {
  writeWhole(join(out, 'summary.csv'), summaryCsv(outcomes));
  writeWhole(join(out, 'summary.html'), summaryHtml(outcomes));
}

function summaryCsv(outcomes) {
  const head =
    'page,width,height,regions,named,unnamed,doubtful,conflicts,errors,warnings,ms,failed';
  const lines = outcomes.map(({ name, record, error }) => {
    if (record === undefined) return [quote(name), ...Array(10).fill(''), quote(error)].join(',');
    const { size, regions, named, unnamed, doubtful, conflicts, findings, ms } = record;
    const { error: errors, warning: warnings } = findings.bySeverity;
    const counts = [unnamed.count, doubtful.count, conflicts, errors, warnings];
    return [quote(name), ...size, regions, named, ...counts, ms, ''].join(',');
  });
  return `${[head, ...lines].join('\n')}\n`;
}

function summaryHtml(outcomes) {
  const failed = outcomes.filter(({ record }) => record === undefined);
  const rows = outcomes.map(({ name, record, error }) =>
    record === undefined
      ? `<tr class="failed"><td></td><th scope="row">${escapeHtml(name)}</th><td colspan="5">${escapeHtml(error)}</td></tr>`
      : rowOf(record),
  );
  return `<!doctype html>
<html lang="en"><meta charset="utf-8"><title>Flats of ${outcomes.length} pages</title>
<style>
body { max-width: 70rem; margin: 2rem auto; padding: 0 1rem; font: 1rem/1.5 sans-serif; }
ul { margin: .3rem 0; padding-inline-start: 1.2rem; }
table { width: 100%; border-collapse: collapse; }
th, td { padding: .4rem; border-bottom: 1px solid #ccc; text-align: start; vertical-align: top; }
img { max-width: 160px; max-height: 160px; background: #808080; }
.failed { color: #a8391c; }
summary { cursor: pointer; }
</style>
<h1>Flats of ${outcomes.length} pages</h1>
<p>${failed.length === 0 ? 'All pages are done.' : `${failed.length} of them could not be laid.`}</p>
<table><thead><tr><th></th><th>Page</th><th>Regions</th><th>Without a name</th><th>Gaps in doubt</th>
<th>Two names</th><th>Findings</th></tr></thead><tbody>
${rows.join('\n')}
</tbody></table></html>
`;
}

function rowOf({ name, size, regions, named, unnamed, doubtful, conflicts, findings }) {
  const percent = ({ probability }) => `${Math.round(100 * probability)}\u00a0%`;
  const place = ({ at: [x, y] }) => `${Math.floor(x)}, ${Math.floor(y)}`;
  const file = encodeURIComponent(name);
  const cells = [
    `${regions}, ${named} named`,
    details(unnamed, (one) => `${place(one)}: ${one.area} px`),
    details(doubtful, (one) => `${place(one)}: ${percent(one)}${one.forced ? ', forced' : ''}`),
    String(conflicts),
    details(findings, ({ severity, message }) => `${severity}: ${message}`),
  ];
  return `<tr><td><a href="${file}.flats.png"><img src="${file}.small.png" alt="sheet of ${escapeHtml(name)}"></a></td>
<th scope="row">${escapeHtml(name)}<br><small>${size.join(' × ')} px</small></th>
${cells.map((cell) => `<td>${cell}</td>`).join('')}</tr>`;
}

function details({ count, first }, tell) {
  if (count === 0) return '0';
  const more = count > first.length ? '<li>and more</li>' : '';
  const items = first.map((one) => `<li>${escapeHtml(tell(one))}</li>`).join('');
  return `<details><summary>${count}</summary><ul>${items}${more}</ul></details>`;
}

function quote(text) {
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function escapeHtml(text) {
  const entities = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
  return text.replace(/[&<>"]/g, (letter) => entities[letter]);
}
