// Sets two results of the bench beside each other: `node bench/gaps/compare.mjs OLD.json NEW.json`, the
// `summary.json` of two runs. Ends with exit code 1 where a setting needs more corrections than before.
import { readFileSync } from 'node:fs';

const [older, newer] = process.argv.slice(2).map((file) => JSON.parse(readFileSync(file, 'utf8')));
if (newer === undefined) {
  console.error('usage: node bench/gaps/compare.mjs OLD.json NEW.json');
  process.exit(2);
}
const told = ({ version, sha256 }) => `${version} (${sha256.slice(0, 12)})`;
console.log(`${told(older.library)} → ${told(newer.library)}`);
const keyOf = ({ set, label, gap }) => JSON.stringify([set, label, gap]);
const before = new Map(older.summary.map((row) => [keyOf(row), row]));
let worse = 0;
for (const row of newer.summary) {
  const was = before.get(keyOf(row));
  const place = `${row.set}, ${row.label}${row.gap > 0 ? `, gaps of ${row.gap} px` : ''}`;
  if (was === undefined) {
    console.log(`${place}: new`);
    continue;
  }
  if (was.cases !== row.cases) console.log(`${place}: ${was.cases} → ${row.cases} drawings`);
  const change = row.corrections - was.corrections;
  if (change > 0) worse++;
  if (change === 0 && was.f1 === row.f1) continue;
  const sign = change > 0 ? '+' : '';
  console.log(
    `${place}: corrections ${was.corrections.toFixed(3)} → ${row.corrections.toFixed(3)} ` +
      `(${sign}${change.toFixed(3)}), F1 ${was.f1.toFixed(4)} → ${row.f1.toFixed(4)}`,
  );
}
console.log(
  worse === 0 ? 'no setting needs more corrections' : `${worse} settings need more corrections`,
);
process.exitCode = worse === 0 ? 0 : 1;
