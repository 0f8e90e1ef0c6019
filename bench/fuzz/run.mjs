// Reads damaged PNGs: each must give a picture or a PngError, soon, in bounded memory.
// `node bench/fuzz/run.mjs [--count 100000] [--from 0]`, after `npm run build`.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { parseArgs } from 'node:util';
import { PngError, raster, readFlats, readPng, writeFlats, writePng } from 'underink';
import { KINDS, mutate } from './mutate.mjs';

const { values } = parseArgs({
  options: { count: { type: 'string', default: '100000' }, from: { type: 'string', default: '0' } },
});
const count = Number(values.count);
const from = Number(values.from);

/** Pixels that a read may ask for, and what the process may grow by: files, bombs and garbage too. */
const MAX_PIXELS = 2 ** 22;
const MOST_GROWTH = 2 ** 29;
/** Far above what any file took: more is a hang. */
const MOST_MS = 5000;

const files = [...ownFiles(), ...suiteFiles()];
console.log(`${count} mutations of ${files.length} files, ${KINDS.length} kinds`);
const before = process.memoryUsage().rss;
let peak = before;
const tally = { pictures: 0, errors: 0, 'not in solid colors': 0 };
let slowest = { ms: 0 };
for (let number = from; number < from + count; number++) {
  const { kind, bytes } = mutate(files, number);
  const start = performance.now();
  try {
    // Every fourth with the default limit: so short a file cannot hold a picture that large.
    const options = number % 4 === 0 ? {} : { maxPixels: MAX_PIXELS };
    (number % 2 === 0 ? readPng : readFlats)(bytes, options);
    tally.pictures++;
  } catch (error) {
    // A sound picture that is no flats.
    const solid = error instanceof RangeError && /^(pixels|the picture) must/.test(error.message);
    if (!(error instanceof PngError) && !solid) {
      console.error(`mutation ${number} (${kind}) gave another exception`);
      throw error;
    }
    tally[solid ? 'not in solid colors' : 'errors']++;
  }
  const ms = performance.now() - start;
  if (ms > slowest.ms) slowest = { ms, number, kind };
  if (number % 64 === 0) peak = Math.max(peak, process.memoryUsage().rss);
}
console.log(tally);
console.log(`slowest: ${slowest.ms.toFixed(0)} ms, mutation ${slowest.number} (${slowest.kind})`);
console.log(`memory grew by ${((peak - before) / 2 ** 20).toFixed(0)} MiB at most`);
if (peak - before > MOST_GROWTH) throw new Error('more memory than may be');
if (slowest.ms > MOST_MS) throw new Error('a file took too long');

/** Pictures of every kind that this library writes. */
function ownFiles() {
  const noise = (length) => Uint8Array.from({ length }, (_, i) => (i * i * 37) >> 3);
  const pixels = [1, 2, 3, 4].map((c) => raster(noise(35 * c), [7, 5, c]));
  const wide = raster(
    Uint16Array.from(noise(105), (v) => v * 257),
    [7, 5, 3],
  );
  const flats = (swatches) => ({
    indices: raster(
      (swatches > 256 ? Uint16Array : Uint8Array).from(noise(35), (v) => v % swatches),
      [7, 5],
    ),
    palette: Array.from({ length: swatches }, (_, i) => ({
      name: i === 0 ? 'bare' : `swatch ${i}`,
      color: `#${i.toString(16).padStart(6, '0')}`,
    })),
  });
  const resolution = { x: 11811, y: 11811, unit: 'meter' };
  return [
    ...[...pixels, wide].map((picture) => writePng(picture, { resolution })),
    ...[5, 256, 300].map((swatches) => writeFlats(flats(swatches), { resolution }).bytes),
  ];
}

/** PngSuite by Willem van Schaik, from Debian's `libsixel-examples`, where that is installed. */
function suiteFiles() {
  const suite = '/usr/share/doc/libsixel-examples/examples/images/pngsuite';
  if (!existsSync(suite)) return [];
  return readdirSync(suite, { recursive: true })
    .filter((name) => name.endsWith('.png') && !name.startsWith('corrupted'))
    .sort()
    .map((name) => Uint8Array.from(readFileSync(join(suite, name))));
}
