// Takes pages from the queue, one at a time, until it is stopped: see README.md beside this file.
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { Worker as Thread } from 'node:worker_threads';
import { Worker } from 'bullmq';
import { VERSION } from '../batch/files.mjs';
import { readRecord } from '../batch/journal.mjs';
import { Caller } from '../worker/caller.mjs';
import { connection, QUEUE } from './connection.mjs';

/**
 * Milliseconds after which the page of a worker that says nothing goes to another. A worker says that it
 * lives at half of that, from a thread that computes nothing.
 */
const SILENCE = 5000;

const { values, positionals } = parseArgs({
  options: { out: { type: 'string' } },
  allowPositionals: true,
});
const [folder] = positionals;
if (folder === undefined) {
  console.error('usage: node worker.mjs FOLDER [--out FOLDER/flats]');
  process.exit(2);
}
const out = resolve(values.out ?? join(folder, 'flats'));
mkdirSync(out, { recursive: true });

const thread = new Thread(new URL('lay-thread.mjs', import.meta.url));
const caller = new Caller(thread);

const worker = new Worker(QUEUE, layJob, {
  connection,
  lockDuration: SILENCE,
  stalledInterval: SILENCE / 2,
  // A page may outlive the end of two workers; one that ends a third is to blame itself.
  maxStalledCount: 2,
});

async function layJob({ data: { name, hasPlan, key, version } }) {
  if (version !== VERSION)
    throw new Error(`the page is for underink ${version}, this is ${VERSION}`);
  const found = readRecord(out, name, key);
  if (found !== undefined) {
    console.log(`found ${name}`);
    return found;
  }
  const drawing = join(folder, `${name}.png`);
  const plan = hasPlan ? { plan: join(folder, `${name}.plan.json`) } : {};
  const record = await caller.call('layPage', { page: { name, drawing, ...plan, key, out } });
  console.log(`laid ${name}`);
  return record;
}

worker.on('failed', (job, { message }) => console.error(`failed ${job?.data.name}: ${message}`));
worker.on('error', ({ message }) => console.error(message));
for (const signal of ['SIGINT', 'SIGTERM']) {
  process.once(signal, async () => {
    // The page that is being laid is finished first.
    await worker.close();
    await thread.terminate();
  });
}
await worker.waitUntilReady();
console.log('ready');
