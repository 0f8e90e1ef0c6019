// All that takes time, beside native OpenCV, scikit-image and OpenCV.js, in turns in one run:
//
//   npm run bench -- [--pages a4-600] [--rounds 7] [--only label,flood] [--scanned] [--against REF]
//
// Pages are a4-300, a4-600, 100mpx, and worst cases with their side: 'checkerboard 2000', spiral, comb,
// noise, halftone, hatch. Peers that are not installed are left out (Debian's python3-opencv and
// python3-skimage). `--against` times another state of the code in the same turns, and names what
// got slower by more than its spread. Prints a table in Markdown for each page.
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { buildOf } from './builds.mjs';
import { operationsOn } from './operations.mjs';
import { drawPage, scanned } from './pages.mjs';
import { openNative, openWasm } from './peers.mjs';
import { median, spread, tableOf } from './tables.mjs';

const { values } = parseArgs({
  options: {
    pages: { type: 'string', default: 'a4-600' },
    rounds: { type: 'string', default: '7' },
    only: { type: 'string', default: '' },
    scanned: { type: 'boolean', default: false },
    against: { type: 'string' },
  },
});
const rounds = Number(values.rounds);
if (!Number.isInteger(rounds) || rounds < 1) {
  throw new RangeError(`--rounds must be a whole number >= 1, got ${values.rounds}`);
}
const chosen = values.only.split(',').filter((part) => part !== '');
const isChosen = ({ name }) => chosen.length === 0 || chosen.some((part) => name.includes(part));

const cpu = cpus()[0]?.model.trim() ?? 'unknown processor';
console.log(
  `${cpu}, ${availableParallelism()} cores, load ${loadavg()[0].toFixed(1)} at the start`,
);
const [build, other] = [await buildOf(), values.against && (await buildOf(values.against))];
const [native, wasm] = [await openNative(rounds), await openWasm()];
const folder = mkdtempSync(join(tmpdir(), 'speed-'));
try {
  for (const name of values.pages.split(',')) await timePage(name);
} finally {
  native?.stop();
  rmSync(folder, { recursive: true });
}

async function timePage(name) {
  const page = values.scanned ? scanned(drawPage(name)) : drawPage(name);
  const { data, width, height } = page;
  const file = join(folder, 'page.gray');
  writeFileSync(file, data);
  const on = { file: `${file}`, width, height };
  await native?.({ do: 'forget', on });
  const operations = operationsOn(page, build).filter(isChosen);
  const before = other && operationsOn(page, other).filter(isChosen);
  const rows = [];
  for (const [k, operation] of operations.entries()) {
    rows.push(await timeOperation(operation, before?.[k], page, on));
  }
  const grain = values.scanned ? ', scanned' : '';
  console.log(`\n## ${name}${grain}: ${width} × ${height}\n`);
  console.log(tableOf(rows));
  for (const { name, sum } of rows) console.log(`checksum of ${name}: ${sum}`);
  if (before !== undefined) compare(rows);
}

/** Turns of the library, its peers, and a copy of the bytes; the first turn is not counted. */
async function timeOperation(operation, before, page, on) {
  const { name, target, native: job, by, request, copy: bytes } = operation;
  const row = { name, target, own: [], before: [], peer: [], wasm: [], copy: [], sum: '' };
  row.peerName = bytes !== undefined ? 'a copy' : (by ?? 'OpenCV');
  for (let round = 0; round <= rounds; round++) {
    const own = timed(operation.own);
    if (round === rounds) row.sum = sumOf(own.result);
    const was = before && timed(before.own).ms;
    const copied = timed(() => (bytes?.() ?? page.data).slice()).ms;
    const answer = job && native && (await native({ do: job, by, on, ...request?.() }));
    const inWasm = by === undefined && job !== undefined ? wasm[job]?.(page) : undefined;
    if (round === 0) continue;
    row.own.push(own.ms);
    row.copy.push(copied);
    if (was !== undefined) row.before.push(was);
    if (answer !== undefined) row.peer.push(answer.ms);
    if (bytes !== undefined) row.peer.push(copied);
    if (inWasm !== undefined) row.wasm.push(inWasm);
  }
  return row;
}

function timed(run) {
  const start = performance.now();
  const result = run();
  return { result, ms: result.ms ?? performance.now() - start };
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
