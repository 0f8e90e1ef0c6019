/**
 * The job on a small drawing made here, as a script that finds the library in `underink`: lays flats,
 * writes and reads them, checks them; then calls with strided views. Throws where a result is wrong,
 * prints one line. With the argument `refused` it makes sure that code from strings is refused.
 */
export const JOB = `
const { checkFlats, growUnderInk, inkCoverage, labelRegions, layFlats, raster } = underink;
const { readFlats, readPng, sealGaps, writeFlats, writePng } = underink;

function expect(condition, message) {
  if (!condition) throw new Error(message);
}

if (process.argv[2] === 'refused') {
  let refused = false;
  try {
    new Function('return 1');
  } catch (error) {
    refused = error instanceof EvalError;
  }
  expect(refused, 'code from strings is not refused here');
}

// A box of ink with an upright in it, left of the middle.
const [w, h] = [60, 40];
const gray = new Uint8Array(w * h).fill(255);
for (let y = 8; y < 32; y++) {
  for (let x = 8; x < 52; x++) {
    const inside = x >= 11 && x < 49 && y >= 11 && y < 29 && (x < 24 || x >= 27);
    if (!inside) gray[y * w + x] = 0;
  }
}

const laid = layFlats(raster(gray, [w, h]));
const names = laid.flats.palette.map((swatch) => swatch.name);
expect(names.length === 4, 'two regions, the ground and bare, got ' + names);
for (const [x, y, other] of [[0, 0, 15], [15, 20, 40], [40, 20, 0]]) {
  const { indices } = laid.flats;
  expect(indices.get(x, y) > 0, 'bare at ' + [x, y]);
  expect(indices.get(x, y) !== indices.get(other, 20), 'one swatch at ' + [x, other]);
}

const { bytes, mode } = writeFlats(laid.flats);
const { flats } = readFlats(bytes);
expect(mode === 'indexed', 'indexed color, got ' + mode);
expect(flats.indices.data.join() === laid.flats.indices.data.join(), 'the indices, as written');
expect(JSON.stringify(flats.palette) === JSON.stringify(laid.flats.palette), 'the palette, as written');

const findings = checkFlats(flats, { ink: laid.ink });
expect(findings.length === 0, 'no finding, got ' + JSON.stringify(findings));
flats.indices.set(15, 20, 0);
expect(checkFlats(flats, { checks: ['bare'] }).length === 1, 'a bare pixel is found');

// Mirrored, column-major and padded views: plain objects, as structured clone leaves them.
const mirrored = (data, c) => ({ data, shape: [w, h, c], stride: [-c, w * c, 1], offset: (w - 1) * c });
const rgb = Uint8Array.from({ length: 3 * w * h }, (_, i) => gray[Math.floor(i / 3)]);
const mirror = layFlats(mirrored(rgb, 3));
expect(mirror.flats.palette.length === 4, 'the mirrored drawing has the same regions');
for (let y = 0; y < h; y++) {
  for (let x = 0; x < w; x++) {
    expect(mirror.ink.get(x, y) === laid.ink.get(w - 1 - x, y), 'mirrored ink at ' + [x, y]);
  }
}
const coverage = inkCoverage(mirrored(gray, 1));
expect(coverage.get(w - 9, 8) === 255 && coverage.get(0, 0) === 0, 'mirrored coverage');
const turned = { data: laid.ink.data, shape: [h, w], stride: [w, 1], offset: 0 };
const { labels, count } = labelRegions(turned, { of: 0 });
expect(count === 3 && labels.shape.join() === [h, w].join(), 'regions of the turned ink');
expect(growUnderInk(labels, turned).data.every((id) => id > 0), 'grown over every pixel');
expect(sealGaps(turned).sealed.get(8, 8) === 1, 'sealed turned ink');
const padded = new Uint16Array(2 * w * h).fill(7);
for (let i = 0; i < w * h; i++) padded[2 * i] = 257 * gray[i];
const every = { data: padded, shape: [w, h], stride: [2, 2 * w], offset: 0 };
expect(readPng(writePng(every)).pixels.data.every((v, i) => v === 257 * gray[i]), 'a padded view as PNG');

console.log(names.join(', ') + '; ' + bytes.length + ' bytes');
`;

/** What a strict TypeScript project writes; wrong uses must be errors. */
export const CONSUMER = `
import {
  checkFlats,
  type Finding,
  type Flats,
  type Labels,
  labelRegions,
  layFlats,
  type Mask,
  type Plan,
  raster,
  readFlats,
  thresholdInk,
  writeFlats,
} from 'underink';
import { sealGaps } from 'underink/gaps';

const plan: Plan = {
  version: 1,
  size: [4, 4],
  palette: [{ name: 'shell', color: '#203040' }],
  marks: [{ point: [1, 1], swatch: 'shell' }],
};
const { flats, ink } = layFlats({ data: new Uint8ClampedArray(64), width: 4, height: 4 }, { plan });
const again: Flats = readFlats(writeFlats(flats).bytes).flats;
export const findings: Finding[] = [...checkFlats(again, { ink })];
export const sealed: Mask = sealGaps(ink, { maxGap: 'auto' }).sealed;
export const labels: Labels = labelRegions(sealed, { of: 0, connectivity: 4 }).labels;
export const at: number = raster(new Int32Array(4), [2, 2]).get(1, 1);
// @ts-expect-error: no such option
labelRegions(sealed, { off: 0 });
// @ts-expect-error: not a connectivity
labelRegions(sealed, { connectivity: 6 });
// @ts-expect-error: labels are no coverage
thresholdInk(labels);
`;
