// Puts the open pages of a folder into the queue, and follows them to the end: see README.md.
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { Queue, QueueEvents } from 'bullmq';
import { Presets, SingleBar } from 'cli-progress';
import { keyOf, listPages, VERSION } from '../batch/files.mjs';
import { readRecord } from '../batch/journal.mjs';
import { writeSummaries } from '../batch/summary.mjs';
import { connection, QUEUE } from './connection.mjs';

const { values, positionals } = parseArgs({
  options: { out: { type: 'string' } },
  allowPositionals: true,
});
const [folder] = positionals;
if (folder === undefined) {
  console.error('usage: node add.mjs FOLDER [--out FOLDER/flats]');
  process.exit(2);
}
const out = resolve(values.out ?? join(folder, 'flats'));
mkdirSync(out, { recursive: true });
const pages = listPages(folder).map((page) => ({ ...page, key: keyOf(page) }));

const queue = new Queue(QUEUE, { connection });
const events = new QueueEvents(QUEUE, { connection });
await events.waitUntilReady();

const format = '{bar} {value} of {total} pages, {failed} failed, {eta_formatted} to go  {name}';
const bar = new SingleBar(
  { format, noTTYOutput: true, notTTYSchedule: 2000 },
  Presets.shades_classic,
);
bar.start(pages.length, 0, { name: '', failed: 0 });
let failed = 0;
let stalled = 0;
events.on('stalled', () => stalled++);

const outcomes = await Promise.all(pages.map(follow));
bar.stop();
await Promise.all([queue.close(), events.close()]);

writeSummaries(out, outcomes);
for (const { name, error } of outcomes) if (error !== undefined) console.error(`${name}: ${error}`);
if (stalled > 0) console.log(`pages taken over from workers that had ended: ${stalled}`);
console.log(`${pages.length - failed} of ${pages.length} pages are done: ${out}/summary.html`);
process.exitCode = failed === 0 ? 0 : 1;

/** Sees to it that a page is done, here, before, or by any worker; gives its outcome. */
async function follow({ name, plan, key }) {
  const before = readRecord(out, name, key);
  const outcome = before === undefined ? await ask(name, plan, key) : { record: before };
  if (outcome.error !== undefined) failed++;
  bar.increment({ name, failed });
  return { name, ...outcome };
}

async function ask(name, plan, key) {
  // The same page under the same key is in the queue once, whoever adds it how often.
  const job = await queue.add(
    'page',
    { name, hasPlan: plan !== undefined, key, version: VERSION },
    { jobId: `${name} ${key}`, removeOnComplete: true, removeOnFail: true },
  );
  try {
    return { record: await job.waitUntilFinished(events) };
  } catch ({ message }) {
    // One that has ended before it could be waited for is in the queue no more.
    const record = readRecord(out, name, key);
    return record === undefined ? { error: message } : { record };
  }
}
