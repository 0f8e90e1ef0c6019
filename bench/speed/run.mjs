// All that takes time, beside native OpenCV, scikit-image, OpenCV.js and image-js, in turns in one run:
//
//   npm run bench -- [--pages a4-600] [--rounds 7] [--only label,flood] [--scanned] [--against REF] [--cold]
//     [--write]
//
// Pages are a4-300, a4-600, 100mpx, and worst cases with their side: 'checkerboard 2000', spiral, comb,
// noise, halftone, hatch. Peers that are not installed are left out (Debian's python3-opencv and
// python3-skimage). `--against` times another state of the code in the same turns, and names what
// got slower by more than its spread. `--cold` times the first call of each in a process of its own
// beside those that follow, and no peer. Prints a table in Markdown for each page; `--write` puts it into
// docs/performance.md, too, from which docs/pictures/speed.mjs draws the chart.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { buildOf, withBundle } from './builds.mjs';
import { operationsOn } from './operations.mjs';
import { drawPage, scanned } from './pages.mjs';
import { openImageJs, openNative, openWasm } from './peers.mjs';
import { titleOf, writeSection } from './report.mjs';
import { coldTableOf, median, spread, tableOf } from './tables.mjs';

const { values } = parseArgs({
  options: {
    pages: { type: 'string', default: 'a4-600' },
    rounds: { type: 'string', default: '7' },
    only: { type: 'string', default: '' },
    scanned: { type: 'boolean', default: false },
    against: { type: 'string' },
    cold: { type: 'boolean', default: false },
    write: { type: 'boolean', default: false },
  },
});
const rounds = Number(values.rounds);
if (!Number.isInteger(rounds) || rounds < 1) {
  throw new RangeError(`--rounds must be a whole number >= 1, got ${values.rounds}`);
}
const chosen = values.only.split(',').filter((part) => part !== '');
const isChosen = ({ name }) => chosen.length === 0 || chosen.some((part) => name.includes(part));

/** Pixels of a page that OpenCV.js has memory for. */
const MOST_WASM = 6e7;

const cpu = cpus()[0]?.model.trim() ?? 'unknown processor';
const load = `load ${loadavg()[0].toFixed(1)} at the start`;
const machine = `${availableParallelism()} cores of an ${cpu}, ${load}, Node ${process.versions.node}`;
const date = new Date().toLocaleDateString('en-GB', { dateStyle: 'long' });
const hugePages = (process.env.GLIBC_TUNABLES ?? '').includes('hugetlb=1');
console.log(machine);
const folder = mkdtempSync(join(tmpdir(), 'speed-'));
try {
  if (values.cold) await withBundle(undefined, timeFirstCalls);
  else await timeInTurns();
} finally {
  rmSync(folder, { recursive: true });
}

async function timeInTurns() {
  const builds = [await buildOf(), values.against && (await buildOf(values.against))];
  const native = await openNative(rounds);
  const peers = { native, wasm: await openWasm(), js: await openImageJs() };
  try {
    for (const name of values.pages.split(',')) await timePage(name, builds, peers);
  } finally {
    native?.stop();
  }
}

/** Each operation in a process of its own. */
function timeFirstCalls(bundle) {
  const child = fileURLToPath(new URL('cold.mjs', import.meta.url));
  for (const name of values.pages.split(',')) {
    const { page, file } = pageFile(name);
    const rows = operationsOn(page, {}).flatMap((operation, k) => {
      if (!isChosen(operation)) return [];
      const args = [child, bundle, file, page.width, page.height, k, rounds].map(String);
      const times = execFileSync(process.execPath, args, { encoding: 'utf8' });
      return [{ name: operation.name, ...JSON.parse(times) }];
    });
    show(name, page, coldTableOf(rows), `${machine}, ${date}.`);
  }
}

/** A page, and the same as a file of bytes. */
function pageFile(name) {
  const page = values.scanned ? scanned(drawPage(name)) : drawPage(name);
  const file = join(folder, 'page.gray');
  writeFileSync(file, page.data);
  return { page, file };
}

async function timePage(name, [build, other], all) {
  const { page, file } = pageFile(name);
  const { width, height } = page;
  const peers = width * height > MOST_WASM ? { ...all, wasm: {} } : all;
  const on = { file, width, height };
  await peers.native?.({ do: 'forget', on });
  const operations = operationsOn(page, build).filter(isChosen);
  const before = other && operationsOn(page, other).filter(isChosen);
  const rows = [];
  for (const [k, operation] of operations.entries()) {
    rows.push(await timeOperation(operation, before?.[k], page, on, peers));
  }
  const versions = peers.native ? `, OpenCV ${peers.native.version}` : '';
  show(name, page, tableOf(rows), `${rounds} turns, ${machine}${versions}, ${date}.`);
  for (const { name, sum } of rows) console.log(`checksum of ${name}: ${sum}`);
  if (before !== undefined) compare(rows);
}

/** Prints the table of a page, and writes it where that is asked for. */
function show(name, { width, height }, table, circumstances) {
  const { scanned, cold: firstCalls } = values;
  const title = titleOf(name, { scanned, hugePages, firstCalls });
  const body = `${width} × ${height} pixels, ${circumstances}\n\n${table}`;
  console.log(`\n## ${title}\n\n${body}`);
  if (values.write) writeSection(title, body);
}

/** Turns of the library, its peers, and a copy of the bytes; the first turn is not counted. */
async function timeOperation(operation, before, page, on, { native, wasm, js }) {
  const { name, target, native: job, by, request, copy } = operation;
  const row = { name, target, own: [], before: [], peer: [], wasm: [], js: [], copy: [], sum: '' };
  row.peerName = copy !== undefined ? 'a copy' : (by ?? 'OpenCV');
  for (let round = 0; round <= rounds; round++) {
    const own = timed(operation.own);
    if (round === rounds) row.sum = sumOf(own.result);
    const was = before && timed(before.own).ms;
    const copied = timed(copy ?? (() => page.data.slice())).ms;
    const answer = job && native && (await native({ do: job, by, on, ...request?.() }));
    const inWasm = by === undefined ? wasm[job]?.(page) : undefined;
    const inJs = by === undefined ? js?.[job]?.(page) : undefined;
    if (round === 0) continue;
    row.own.push(own.ms);
    row.copy.push(copied);
    if (was !== undefined) row.before.push(was);
    if (answer !== undefined) row.peer.push(answer.ms);
    if (copy !== undefined) row.peer.push(copied);
    if (inWasm !== undefined) row.wasm.push(inWasm);
    if (inJs !== undefined) row.js.push(inJs);
  }
  return row;
}

function timed(run) {
  const start = performance.now();
  const result = run();
  return { result, ms: result?.ms ?? performance.now() - start };
}

function sumOf(arrays) {
  const hash = createHash('sha256');
  for (const { buffer, byteOffset, byteLength } of arrays) {
    hash.update(new Uint8Array(buffer, byteOffset, byteLength));
  }
  return hash.digest('hex').slice(0, 16);
}

function compare(rows) {
  for (const { name, own, before } of rows) {
    const ratio = (median(own) / median(before)).toFixed(2);
    const slower = Math.min(...own) > Math.max(...before);
    console.log(
      `${name}: ${ratio} times ${values.against} (${spread(own)} ms, before ${spread(before)})${slower ? ' SLOWER' : ''}`,
    );
  }
}
