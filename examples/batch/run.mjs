// Lays the flats of a folder of pages: see README.md beside this file.
import { availableParallelism } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { Presets, SingleBar } from 'cli-progress';
import { runBatch } from './batch.mjs';

const { values, positionals } = parseArgs({
  options: {
    out: { type: 'string' },
    workers: { type: 'string', default: String(availableParallelism()) },
  },
  allowPositionals: true,
});
const [folder] = positionals;
if (folder === undefined) {
  console.error('usage: node run.mjs FOLDER [--out FOLDER/flats] [--workers N]');
  process.exit(2);
}
const out = resolve(values.out ?? join(folder, 'flats'));
const workers = Math.max(1, Number(values.workers));
const format = '{bar} {value} of {total} pages, {failed} failed, {eta_formatted} to go  {name}';
const bar = new SingleBar(
  { format, noTTYOutput: true, notTTYSchedule: 2000 },
  Presets.shades_classic,
);
let before = 0;
const outcomes = await runBatch({
  folder,
  out,
  workers,
  onProgress({ name, state, done, failed, count }) {
    if (!bar.isActive) bar.start(count, 0, { name: '', failed: 0 });
    before += state === 'before' ? 1 : 0;
    bar.update(done + failed, { name, failed });
  },
});
bar.stop();

const failures = outcomes.filter(({ error }) => error !== undefined);
for (const { name, error } of failures) console.error(`${name}: ${error}`);
const done = outcomes.length - failures.length;
console.log(
  `${done} of ${outcomes.length} pages are done, ${before} of them before: ${out}/summary.html`,
);
process.exitCode = failures.length === 0 ? 0 : 1;
