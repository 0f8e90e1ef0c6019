// A folder to try a sweep on: four parts of the demo's model sheet, each with its true regions, which are
// those that a person's plan gives. `node examples/sweep/make-folder.mjs FOLDER`
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { layFlats, raster, readPng, writePng } from 'underink';

const PARTS = { heron: [0, 0], otter: [950, 300], crab: [1900, 900], signs: [1900, 0] };
const [WIDTH, HEIGHT] = [1100, 1100];

const [, , folder] = process.argv;
if (folder === undefined) {
  console.error('usage: node examples/sweep/make-folder.mjs FOLDER');
  process.exit(2);
}
mkdirSync(folder, { recursive: true });
const here = (path) => readFileSync(new URL(`../saltmarrow/${path}`, import.meta.url));
const { pixels } = readPng(here('model-sheet.png'));
const { marks, palette } = JSON.parse(here('corrections.json'));
const plan = JSON.parse(here('plan.json'));
plan.marks.push(...marks);
plan.palette.push(...palette);
const { labels } = layFlats(pixels, { plan, unnamed: 'claim' });

const channels = pixels.shape[2] ?? 1;
for (const [name, [left, top]] of Object.entries(PARTS)) {
  const cut = (n, sampleAt) => {
    const data = new Uint8Array(WIDTH * HEIGHT * n);
    for (let i = 0; i < data.length; i++) {
      const [x, y] = [Math.floor(i / n) % WIDTH, Math.floor(i / n / WIDTH)];
      data[i] = sampleAt((top + y) * pixels.shape[0] + left + x, i % n);
    }
    return writePng(raster(data, [WIDTH, HEIGHT, n]));
  };
  const line = cut(channels, (p, c) => pixels.data[p * channels + c]);
  // A color for each region: its number in green and blue.
  const truth = cut(3, (p, c) => [200, labels.data[p] >> 8, labels.data[p] & 255][c]);
  writeFileSync(join(folder, `${name}.png`), line);
  writeFileSync(join(folder, `${name}.truth.png`), truth);
}
