// How long `layFlats` takes for a page of A4 at 600 dpi, and how much memory:
// `node bench/lay-flats/run.mjs [--runs 3]`, after `npm run build`. Every run is a fresh process.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { drawPage, HEIGHT, WIDTH } from './page.mjs';

const { values } = parseArgs({ options: { runs: { type: 'string', default: '3' } } });
const count = Number(values.runs);
if (!Number.isInteger(count) || count < 1) {
  throw new RangeError(`--runs must be a whole number >= 1, got ${values.runs}`);
}

const folder = mkdtempSync(join(tmpdir(), 'lay-flats-'));
const file = join(folder, 'page.gray');
const child = fileURLToPath(new URL('child.mjs', import.meta.url));
const run = (mode) =>
  JSON.parse(
    execFileSync(process.execPath, ['--expose-gc', child, file, mode], { encoding: 'utf8' }),
  );
try {
  writeFileSync(file, drawPage());
  const runs = [];
  const peers = [];
  for (let i = 0; i < count; i++) {
    runs.push(run('time'));
    peers.push(runPeer());
  }
  print(runs, run('memory'));
  printPeer(runs, peers);
} finally {
  rmSync(folder, { recursive: true });
}

/** Native OpenCV in a process of its own; undefined without Debian's python3-opencv. */
function runPeer() {
  const script = fileURLToPath(new URL('peer.py', import.meta.url));
  try {
    const args = [script, file, `${WIDTH}`, `${HEIGHT}`, '3'];
    return JSON.parse(execFileSync('/usr/bin/python3', args, { encoding: 'utf8', stdio: 'pipe' }));
  } catch {
    return undefined;
  }
}

function printPeer(runs, peers) {
  if (peers.includes(undefined)) {
    console.log('no ratio to native OpenCV: it needs Debian’s python3-opencv');
    return;
  }
  const sorted = (list) => list.sort((a, b) => a - b);
  const native = sorted(peers.flatMap(({ ms }) => ms));
  const own = sorted(runs.map(({ ms }) => ms));
  const middle = native[native.length >> 1];
  const [least, most] = [own[0] / middle, own.at(-1) / middle].map((ratio) => ratio.toFixed(1));
  console.log(
    `native OpenCV ${peers[0].version}, threshold, precise distance and components: median ` +
      `${middle.toFixed(0)} ms of ${native.length} (${native[0].toFixed(0)} to ` +
      `${native.at(-1).toFixed(0)}); layFlats takes ${(own[own.length >> 1] / middle).toFixed(1)} ` +
      `times as long (${least} to ${most}); target 3`,
  );
}

function print(runs, { peakBytes, checksum }) {
  const [{ regions, bridges }] = runs;
  const megapixels = ((WIDTH * HEIGHT) / 1e6).toFixed(1);
  console.log(`layFlats, A4 at 600 dpi: ${WIDTH} × ${HEIGHT}, ${megapixels} megapixels of gray`);
  console.log(
    `${regions} regions, ${bridges} bridges; node ${process.version}, ${availableParallelism()} cores`,
  );
  const seconds = (ms) => (ms / 1000).toFixed(2);
  const times = runs.map(({ ms }) => ms).sort((a, b) => a - b);
  const median = runs.find(({ ms }) => ms === times[count >> 1]);
  console.log(
    `time: median ${seconds(median.ms)} s of ${count} (${times.map(seconds).join(', ')}); target 8 s`,
  );
  const stages = Object.entries(median.stages).map(([name, ms]) => `${name} ${seconds(ms)}`);
  console.log(`  by stage of the last progress call: ${stages.join(', ')}`);
  const pauses = runs.map((one) => one.pauses[0]).sort((a, b) => b.ms - a.ms);
  console.log(`longest pause between progress calls: ${pauses[0].ms.toFixed(0)} ms; target 50 ms`);
  for (const { ms, between } of median.pauses)
    console.log(`  ${ms.toFixed(0)} ms between ${between}`);
  const perPixel = (peakBytes / (WIDTH * HEIGHT)).toFixed(2);
  console.log(`live array buffers at their peak: ${perPixel} bytes per pixel; target 12`);
  console.log(
    '  input left out, results counted; sampled after garbage collection in a run of its own',
  );
  console.log(
    `peak resident size: ${Math.max(...runs.map(({ rssMiB }) => rssMiB)).toFixed(0)} MiB`,
  );
  const sums = new Set([checksum, ...runs.map((one) => one.checksum)]);
  console.log(`checksum of indices and labels: ${[...sums].join(', ')}`);
  if (sums.size > 1) throw new Error('runs on the same page gave different flats');
}
