// writeLayers on A4 at 600 dpi with 60 swatches, beside fast-png writing the same layers, in turns in one run:
// `node bench/layers/run.mjs [--rounds 3]`, after `npm run build`. The swatches lie as on a page of figures,
// each in patches of its own part of it.
import { createHash } from 'node:crypto';
import { performance } from 'node:perf_hooks';
import { parseArgs } from 'node:util';
import { encode } from 'fast-png';
import { flatsFromLayers, layFlats, raster, readLayers, writeLayers } from 'underink';
import { drawPage, HEIGHT, WIDTH } from '../lay-flats/page.mjs';

const { values } = parseArgs({ options: { rounds: { type: 'string', default: '3' } } });
const rounds = Number(values.rounds);
const SWATCHES = 60;

const page = raster(drawPage(), [WIDTH, HEIGHT]);
const flats = sixtySwatches(layFlats(page, { unnamed: 'each' }));
const resolution = { x: 23622, y: 23622, unit: 'meter' };
const layers = readLayers(writeLayers(flats, { line: page, resolution })).layers.map(
  ({ pixels }) => {
    const [width, height, channels] = pixels.shape;
    return { width, height, channels, depth: 8, data: pixels.data };
  },
);
const megapixels = layers.reduce((sum, { width, height }) => sum + width * height, 0) / 1e6;
console.log(`${layers.length} layers of ${megapixels.toFixed(0)} megapixels together`);

const times = { own: [], peer: [] };
let file;
// The first turn is not counted: code is compiled and memory claimed.
for (let round = 0; round <= rounds; round++) {
  const own = timed(() => {
    file = writeLayers(flats, { line: page, resolution });
  });
  const peer = timed(() => layers.map((layer) => encode(layer).length));
  if (round === 0) continue;
  times.own.push(own);
  times.peer.push(peer);
}
const ratios = times.own.map((ms, i) => ms / times.peer[i]).sort((a, b) => a - b);
const median = (list) => [...list].sort((a, b) => a - b)[list.length >> 1];
console.log(
  `writeLayers ${(median(times.own) / 1000).toFixed(1)} s, fast-png ${(median(times.peer) / 1000).toFixed(1)} s: ` +
    `${median(ratios).toFixed(2)} times (${ratios[0].toFixed(2)} to ${ratios.at(-1).toFixed(2)}), ` +
    `${(file.length / 2 ** 20).toFixed(1)} MiB, checksum ${createHash('sha256').update(file).digest('hex').slice(0, 12)}`,
);
const start = performance.now();
const back = flatsFromLayers(readLayers(file));
const same = back.indices.data.every((index, i) => index === flats.indices.data[i]);
console.log(`read back in ${((performance.now() - start) / 1000).toFixed(1)} s, the same: ${same}`);
if (!same) process.exitCode = 1;

function timed(job) {
  const start = performance.now();
  job();
  return performance.now() - start;
}

/** Regions by the row of figures that they stand in: some swatches for each. */
function sixtySwatches({ flats: { indices } }) {
  const { data } = indices;
  const rowOf = new Int32Array(65_536).fill(-1);
  for (let i = 0; i < data.length; i++) {
    if (rowOf[data[i]] < 0) rowOf[data[i]] = Math.floor((12 * i) / data.length);
  }
  const ground = data[0];
  const to = rowOf.map((row, index) =>
    index === ground ? 1 : row < 0 ? 0 : 2 + ((5 * row + (index % 5)) % (SWATCHES - 1)),
  );
  const palette = Array.from({ length: SWATCHES + 1 }, (_, i) => ({
    name: i === 0 ? 'bare' : i === 1 ? 'paper' : `swatch ${i}`,
    color: `#${((i * 0x3d1f57) & 0xffffff).toString(16).padStart(6, '0')}`,
  }));
  const mapped = Uint8Array.from(data, (index) => to[index]);
  return { indices: raster(mapped, [WIDTH, HEIGHT]), palette, ground: 'paper' };
}
