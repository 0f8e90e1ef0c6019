// Remapping, writing and reading flats of A4 at 600 dpi, beside native OpenCV (Debian's
// `python3-opencv`, one thread), in turns in one run:
// `node bench/palettes/run.mjs [--rounds 7]`, after `npm run build`.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
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
import { startNative } from '../native.mjs';

const { values } = parseArgs({ options: { rounds: { type: 'string', default: '7' } } });
const rounds = Number(values.rounds);
if (!Number.isInteger(rounds) || rounds < 3) {
  throw new RangeError(`--rounds must be a whole number >= 3, got ${values.rounds}`);
}

/** Swatches of the page, `bare` included. */
const SWATCHES = 49;
/** More than indexed color holds. */
const MANY = 701;
const labels = pageLabels();
const indices = Uint8Array.from(labels, (label) => 1 + (label % (SWATCHES - 1)));
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
const many = {
  indices: raster(
    Uint16Array.from(labels, (label) => 1 + (label % (MANY - 1))),
    [WIDTH, HEIGHT],
  ),
  palette: Array.from({ length: MANY }, (_, i) => ({
    name: i === 0 ? 'bare' : `swatch ${i}`,
    color: `#${manyColor(i).toString(16).padStart(6, '0')}`,
  })),
};
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
  'write rgb': () => {
    files.rgb = writeFlats(many).bytes;
    return files.rgb;
  },
  'read rgb': () => readFlats(files.rgb).flats.indices.data,
  'fflate deflates, level 1': () => zlibSync(rows, { level: 1, mem: 8 }),
  'fflate deflates, level 4': () => {
    files.deflated = zlibSync(rows, { level: 4, mem: 8 });
    return files.deflated;
  },
  'fast-png encodes, level 1': () => encode(plain, { zlib: { level: 1, mem: 8 } }),
  'fast-png encodes, level 4': () => {
    files.fast = encode(plain, { zlib: { level: 4, mem: 8 } });
    return files.fast;
  },
  'fflate inflates': () => unzlibSync(files.deflated, { out: new Uint8Array(rows.length) }),
  'fast-png decodes': () => decode(files.fast).data,
};
const native = ['remap', 'remap into', 'write', 'write gray', 'read', 'write rgb', 'read rgb'];

const folder = mkdtempSync(join(tmpdir(), 'palettes-'));
try {
  const peer = await openNative(folder);
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
      const isFile = /write|deflates|encodes/.test(name);
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

function pageLabels() {
  return layFlats(raster(drawPage(), [WIDTH, HEIGHT]), { unnamed: 'shared' }).labels.data;
}

function rowsOf(data) {
  const packed = new Uint8Array((WIDTH + 1) * HEIGHT);
  for (let y = 0; y < HEIGHT; y++) {
    packed.set(data.subarray(y * WIDTH, (y + 1) * WIDTH), y * (WIDTH + 1) + 1);
  }
  return packed;
}

/** A color for every index, all of them different. */
function manyColor(i) {
  return (i * 23_003) & 0xffffff;
}

function manyPixels() {
  const pixels = new Uint8Array(3 * labels.length);
  for (let i = 0; i < labels.length; i++) {
    const color = manyColor(1 + (labels[i] % (MANY - 1)));
    pixels.set([color & 255, (color >> 8) & 255, color >> 16], 3 * i);
  }
  return pixels;
}

function openNative(to) {
  const paths = [join(to, 'indices'), join(to, 'colors'), join(to, 'many')];
  writeFileSync(paths[0], indices);
  writeFileSync(paths[1], Uint8Array.from(rgb));
  writeFileSync(paths[2], manyPixels());
  const script = fileURLToPath(new URL('peer.py', import.meta.url));
  return startNative(script, [...paths.slice(0, 2), `${WIDTH}`, `${HEIGHT}`, paths[2]], rounds);
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
  const targets = { remap: 1.5, 'remap into': 1.5 };
  for (const name of native.filter((job) => job !== 'write gray')) {
    const ratio = median(times.own[name]) / median(times.native[name]);
    const target = targets[name] === undefined ? '' : `, target ${targets[name]}`;
    console.log(`${name}: ${ratio.toFixed(2)} × native${target}`);
    line('own', name);
    line('native', name);
  }
  for (const [kind, target] of [
    ['', ', target 1.3'],
    [' rgb', ''],
  ]) {
    const both = (side) =>
      times[side][`write${kind}`].map((ms, i) => ms + times[side][`read${kind}`][i]);
    const ratio = median(both('own')) / median(both('native'));
    console.log(`write and read${kind}: ${ratio.toFixed(2)} × native${target}`);
  }
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
