// Remapping, writing and reading flats of A4 at 600 dpi, beside native OpenCV (Debian's
// `python3-opencv`, one thread), in turns in one run:
// `node bench/palettes/run.mjs [--rounds 7]`, after `npm run build`.
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { decode, encode } from 'fast-png';
import { unzlibSync, zlibSync } from 'fflate';
import {
  findLookalikes,
  layFlats,
  raster,
  readFlats,
  remapFlats,
  suggestColors,
  writeFlats,
} from 'underink';
import { drawPage, HEIGHT, WIDTH } from '../lay-flats/page.mjs';

const { values } = parseArgs({ options: { rounds: { type: 'string', default: '7' } } });
const rounds = Number(values.rounds);
if (!Number.isInteger(rounds) || rounds < 3) {
  throw new RangeError(`--rounds must be a whole number >= 3, got ${values.rounds}`);
}

/** Swatches of the page, `bare` included. */
const SWATCHES = 49;
const indices = pageIndices();
const samples = suggestColors(SWATCHES - 1).map((color) => Number.parseInt(color.slice(1), 16));
const rgb = [0, ...samples].flatMap((v) => [v >> 16, (v >> 8) & 255, v & 255]);
const palette = Array.from({ length: SWATCHES }, (_, i) => ({
  name: i === 0 ? 'bare' : `swatch ${i}`,
  color: `#${[0, ...samples][i].toString(16).padStart(6, '0')}`,
}));
const flats = { indices: raster(indices, [WIDTH, HEIGHT]), palette };
const names = palette.map(({ name }) => name);
const table = Object.fromEntries(names.map((name, i) => [name, names[(i * 7 + 3) % SWATCHES]]));
const out = raster(new Uint8Array(indices.length), [WIDTH, HEIGHT]);
const rows = rowsOf(indices);
const upRows = differences(indices);
const plain = {
  width: WIDTH,
  height: HEIGHT,
  channels: 1,
  depth: 8,
  data: indices,
  palette: palette.map((_, i) => rgb.slice(3 * i, 3 * i + 3)),
};
const files = {};

const sum = (data) => {
  let total = 0;
  for (let i = 0; i < data.length; i++) total += data[i];
  return total;
};
/** What each job times; the first of a pair is compared with the second. */
const own = {
  remap: () => remapFlats(flats, table).indices.data,
  'remap into': () => remapFlats(flats, table, { out }).indices.data,
  write: () => {
    files.own = writeFlats(flats).bytes;
    return files.own;
  },
  read: () => readFlats(files.own).flats.indices.data,
  'fflate, filtered, level 6': () => {
    files.deflated = zlibSync(upRows, { level: 6, mem: 8 });
    return files.deflated;
  },
  'fflate, filtered, level 4': () => zlibSync(upRows, { level: 4, mem: 8 }),
  'fflate, unfiltered, level 6': () => zlibSync(rows, { level: 6, mem: 8 }),
  'fflate, unfiltered, level 4': () => zlibSync(rows, { level: 4, mem: 8 }),
  'fflate inflates': () => unzlibSync(files.deflated, { out: new Uint8Array(upRows.length) }),
  'fast-png encodes, level 6': () => {
    files.fast = encode(plain, { zlib: { level: 6, mem: 8 } });
    return files.fast;
  },
  'fast-png decodes': () => decode(files.fast).data,
};
const native = ['remap', 'remap into', 'write', 'write gray', 'read'];

const folder = mkdtempSync(join(tmpdir(), 'palettes-'));
try {
  const peer = await startNative(folder);
  const times = { own: {}, native: {} };
  const totals = { own: {}, native: {} };
  const note = (side, name, ms, total, round) => {
    if (round > 0) times[side][name] = [...(times[side][name] ?? []), ms];
    totals[side][name] = total;
  };
  // The first turn is not counted: code is compiled and memory claimed.
  for (let round = 0; round <= rounds; round++) {
    for (const [name, job] of Object.entries(own)) {
      const start = performance.now();
      const result = job();
      const ms = performance.now() - start;
      const isFile = /write|fflate|encodes/.test(name);
      note('own', name, ms, isFile ? result.length : sum(result), round);
      if (!native.includes(name)) continue;
      const answer = await peer({ do: name });
      note('native', name, answer.ms, answer.total, round);
    }
    const answer = await peer({ do: 'write gray' });
    note('native', 'write gray', answer.ms, answer.total, round);
  }
  peer.stop();
  report(times, totals);
} finally {
  rmSync(folder, { recursive: true });
}
lookalikes();

/** The regions of the page in 48 swatches. */
function pageIndices() {
  const { labels } = layFlats(raster(drawPage(), [WIDTH, HEIGHT]), { unnamed: 'shared' });
  return Uint8Array.from(labels.data, (label) => 1 + (label % (SWATCHES - 1)));
}

function rowsOf(data) {
  const packed = new Uint8Array((WIDTH + 1) * HEIGHT);
  for (let y = 0; y < HEIGHT; y++) {
    packed.set(data.subarray(y * WIDTH, (y + 1) * WIDTH), y * (WIDTH + 1) + 1);
  }
  return packed;
}

function differences(data) {
  const packed = rowsOf(data);
  for (let y = HEIGHT - 1; y > 0; y--) {
    const row = y * (WIDTH + 1);
    packed[row] = 2;
    for (let x = 1; x <= WIDTH; x++) packed[row + x] -= packed[row - WIDTH - 1 + x];
  }
  return packed;
}

async function startNative(to) {
  const paths = [join(to, 'indices'), join(to, 'colors')];
  writeFileSync(paths[0], indices);
  writeFileSync(paths[1], Uint8Array.from(rgb));
  const script = fileURLToPath(new URL('peer.py', import.meta.url));
  const child = spawn('/usr/bin/python3', [script, ...paths, `${WIDTH}`, `${HEIGHT}`], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  const answer = async () => {
    const { value, done } = await lines.next();
    if (done) throw new Error('the peer needs Debian’s python3-opencv');
    return JSON.parse(value);
  };
  const { version } = await answer();
  console.log(`native OpenCV ${version}, node ${process.version}, ${rounds} rounds`);
  const ask = async (job) => {
    child.stdin.write(`${JSON.stringify(job)}\n`);
    return await answer();
  };
  return Object.assign(ask, { stop: () => child.stdin.end() });
}

function report(times, totals) {
  const median = (list) => [...list].sort((a, b) => a - b)[list.length >> 1];
  const line = (side, name) => {
    const list = times[side][name];
    const spread = `${Math.min(...list).toFixed(0)} to ${Math.max(...list).toFixed(0)}`;
    const text = `${side === 'own' ? 'underink' : 'OpenCV'}, ${name}`;
    console.log(
      `  ${text.padEnd(38)} median ${median(list).toFixed(0)} ms (${spread}), ${totals[side][name]}`,
    );
  };
  for (const [name, target] of Object.entries({
    remap: 1.5,
    'remap into': 1.5,
    write: 1.3,
    read: 1.3,
  })) {
    const ratio = median(times.own[name]) / median(times.native[name]);
    console.log(`${name}: ${ratio.toFixed(2)} × native, target ${target}`);
    line('own', name);
    line('native', name);
  }
  const both = (side) => times[side].write.map((ms, i) => ms + times[side].read[i]);
  const ratio = median(both('own')) / median(both('native'));
  console.log(`write and read: ${ratio.toFixed(2)} × native, target 1.3`);
  const size = totals.own.write / totals.native['write gray'];
  console.log(`file: ${size.toFixed(2)} × OpenCV’s gray file, target 1.2`);
  line('native', 'write gray');
  console.log('where the time goes');
  for (const name of Object.keys(own)) if (!native.includes(name)) line('own', name);
}

/** The largest palette there may be, in colors all over sRGB. */
function lookalikes() {
  const large = Array.from({ length: 65_535 }, (_, i) => ({
    name: `s${i}`,
    color: `#${(Math.imul(i, 0x9e3779b1) >>> 8).toString(16).padStart(6, '0')}`,
  }));
  const start = performance.now();
  const { length } = findLookalikes(large);
  console.log(
    `findLookalikes of 65,535 swatches: ${(performance.now() - start).toFixed(0)} ms, ${length} pairs`,
  );
}
