// A batch is killed in its middle and taken up again: `npm test`.
import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import { spawn } from 'node:child_process';
import {
  appendFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { layFlats, readFlats, readPng } from 'underink';
import { Journal } from './journal.mjs';
import { makePages } from './make-pages.mjs';

const COUNT = 10;
const folder = mkdtempSync(join(tmpdir(), 'underink-batch-'));
const out = join(folder, 'flats');
after(() => rmSync(folder, { recursive: true }));

/** Starts a run; `ended` gives its exit code and what it has said. */
function start() {
  const run = fileURLToPath(new URL('run.mjs', import.meta.url));
  const child = spawn(process.execPath, [run, folder, '--workers', '2']);
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (said += text));
  const ended = new Promise((resolve) => child.on('close', (code) => resolve({ code, said })));
  return { child, ended };
}

const journal = () => (existsSync(out) ? new Journal(out).read() : []);
const states = (lines, state) =>
  lines.filter((line) => line.state === state).map(({ page }) => page);
const records = () => readdirSync(out).filter((file) => /^page-\d+\.json$/.test(file));
const written = (file) => statSync(join(out, file)).mtimeMs;

test('a run that is killed is taken up, with nothing lost and nothing done twice', async () => {
  makePages(folder, COUNT);
  const { child, ended } = start();
  while (states(journal(), 'done').length < 3) await sleep(20);
  child.kill('SIGKILL');
  await ended;
  const first = journal();
  const before = new Map(records().map((file) => [file, written(file)]));
  ok(before.size >= 3 && before.size < COUNT, `${before.size} pages were done`);

  // as if the kill had come while a line was written
  appendFileSync(join(out, 'journal.jsonl'), '{"page":"page-0');
  const { code, said } = await start().ended;
  strictEqual(code, 1); // one file is no picture
  ok(said.includes(`page-broken: `), said);
  ok(said.includes(`${COUNT} of ${COUNT + 1} pages are done, ${before.size} of them before`), said);
  for (const [file, time] of before) strictEqual(written(file), time, `${file} was written again`);
  const second = journal().slice(first.length);
  const again = states(second, 'started').map((page) => `${page}.json`);
  deepStrictEqual(
    again.filter((file) => before.has(file)),
    [],
  );
  const done = [...states(journal(), 'done'), ...states(journal(), 'found')].sort();
  deepStrictEqual(
    done,
    records().map((file) => file.slice(0, -5)),
  );
  strictEqual(done.length, COUNT);
  deepStrictEqual(
    readdirSync(out).filter((file) => file.includes('unfinished')),
    [],
  );
});

test('the flats are those of layFlats', () => {
  for (const name of ['page-001', 'page-002']) {
    const { pixels } = readPng(readFileSync(join(folder, `${name}.png`)));
    const file = join(folder, `${name}.plan.json`);
    const plan = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : undefined;
    const { flats } = layFlats(pixels, { plan });
    const read = readFlats(readFileSync(join(out, `${name}.flats.png`))).flats;
    deepStrictEqual(read.palette, flats.palette);
    ok(Buffer.from(read.indices.data).equals(Buffer.from(flats.indices.data)));
  }
});

test('only what has changed is done again', async () => {
  const count = journal().length;
  await start().ended;
  deepStrictEqual(states(journal().slice(count), 'started'), ['page-broken']);
  appendFileSync(join(folder, 'page-002.plan.json'), '\n');
  const length = journal().length;
  await start().ended;
  deepStrictEqual(states(journal().slice(length), 'started').sort(), ['page-002', 'page-broken']);
});

test('the summaries have every page', () => {
  const csv = readFileSync(join(out, 'summary.csv'), 'utf8').trim().split('\n');
  strictEqual(csv.length, COUNT + 2);
  const [header, first] = csv.map((line) => line.split(','));
  const { unnamed, doubtful } = JSON.parse(readFileSync(join(out, 'page-001.json'), 'utf8'));
  strictEqual(first[header.indexOf('unnamed')], String(unnamed.count));
  strictEqual(first[header.indexOf('doubtful')], String(doubtful.count));
  ok(csv.at(-1).startsWith('page-broken,'));
  const html = readFileSync(join(out, 'summary.html'), 'utf8');
  strictEqual(html.split('<img ').length - 1, COUNT);
  ok(html.includes('1 of them could not be laid'));
});
