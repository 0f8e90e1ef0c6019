// Three workers, one killed in the middle: `npm test`. Needs Debian's redis-server.
import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { makePages } from '../batch/make-pages.mjs';

const COUNT = 12;
const isMissing = spawnSync('redis-server', ['--version']).error !== undefined;
const skip =
  isMissing && process.env.UNDERINK_NEEDS_REDIS === undefined && 'redis-server is not installed';

const folder = mkdtempSync(join(tmpdir(), 'underink-queue-'));
const out = join(folder, 'flats');
const children = [];
after(() => {
  for (const child of children) child.kill('SIGKILL');
  rmSync(folder, { recursive: true });
});

function freePort() {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

/** A process that is ended with the test, what it has said, and how it ends. */
function start(command, args, env = {}) {
  const child = spawn(command, args, { env: { ...process.env, ...env } });
  const started = { child, said: '' };
  for (const stream of [child.stdout, child.stderr]) {
    stream.on('data', (text) => (started.said += text));
  }
  started.ended = new Promise((resolve) => child.on('close', resolve));
  children.push(child);
  return started;
}

async function until(isTrue, what) {
  for (let i = 0; i < 2400; i++) {
    if (isTrue()) return;
    await sleep(50);
  }
  throw new Error(`waited too long for ${what}`);
}

const laidBy = ({ said }) => [...said.matchAll(/^laid (\S+)$/gm)].map(([, name]) => name);
const script = (name) => fileURLToPath(new URL(name, import.meta.url));

test('every page is done, and none twice, where a worker is killed', { skip }, async () => {
  makePages(folder, COUNT);
  const port = await freePort();
  const redis = start('redis-server', [
    '--port',
    port,
    '--save',
    '',
    '--dir',
    folder,
    '--bind',
    '127.0.0.1',
  ]);
  await until(() => redis.said.includes('Ready to accept connections'), 'redis');
  const env = { REDIS_URL: `redis://127.0.0.1:${port}` };
  const workers = [1, 2, 3].map(() => start(process.execPath, [script('worker.mjs'), folder], env));
  await until(() => workers.every(({ said }) => said.includes('ready')), 'workers');
  const add = start(process.execPath, [script('add.mjs'), folder], env);

  // The first has laid one page and is at the next.
  const [first] = workers;
  await until(() => laidBy(first).length > 0, 'a page');
  first.child.kill('SIGKILL');
  await first.ended;
  const before = workers.flatMap(laidBy).length;
  ok(before < COUNT, `${before} pages were laid before the kill`);

  strictEqual(await add.ended, 1, add.said); // one file is no picture
  ok(add.said.includes(`${COUNT} of ${COUNT + 1} pages are done`), add.said);
  ok(add.said.includes('page-broken: the file is cut off'), add.said);
  ok(/pages taken over from workers that had ended: 1/.test(add.said), add.said);
  const laid = workers.flatMap(laidBy).sort();
  const records = readdirSync(out).filter((file) => /^page-\d+\.json$/.test(file));
  strictEqual(records.length, COUNT);
  // A worker may be killed between a page's record and its saying so: then another finds the page.
  const found = workers.flatMap(({ said }) =>
    [...said.matchAll(/^found (\S+)$/gm)].map(([, name]) => name),
  );
  deepStrictEqual([...laid, ...found].sort(), records.map((file) => file.slice(0, -5)).sort());

  const again = start(process.execPath, [script('add.mjs'), folder], env);
  strictEqual(await again.ended, 1);
  deepStrictEqual(workers.flatMap(laidBy).sort(), laid);
  for (const { child } of workers.slice(1)) child.kill('SIGTERM');
  await Promise.all(workers.map(({ ended }) => ended));
});
