// Pages to try a batch on: cuts of the demo's model sheet with the marks that fall into each, and a file
// that is no picture. `node make-pages.mjs FOLDER [COUNT]`
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { raster, readPng, writePng } from 'underink';

const SIDE = 900;
const here = (path) => new URL(`../saltmarrow/${path}`, import.meta.url);

/** Writes `count` pages, every second one with a plan, and `page-broken.png`. */
export function makePages(folder, count) {
  mkdirSync(folder, { recursive: true });
  const bytes = readFileSync(here('model-sheet.png'));
  const { data, shape } = readPng(bytes).pixels;
  const [width, height, channels = 1] = shape;
  const plan = JSON.parse(readFileSync(here('plan.json'), 'utf8'));
  for (let i = 0; i < count; i++) {
    // Steps that have no divisor in common with the room go all over the sheet.
    const [left, top] = [(i * 277) % (width - SIDE), (i * 173) % (height - SIDE)];
    const page = raster(new Uint8Array(SIDE * SIDE * channels), [SIDE, SIDE, channels]);
    for (let y = 0; y < SIDE; y++) {
      const row = ((top + y) * width + left) * channels;
      page.data.set(data.subarray(row, row + SIDE * channels), y * SIDE * channels);
    }
    const name = `page-${String(i + 1).padStart(3, '0')}`;
    writeFileSync(join(folder, `${name}.png`), writePng(page));
    if (i % 2 === 0) continue;
    const marks = plan.marks.flatMap(({ point, swatch }) => {
      const [x, y] = [point[0] - left, point[1] - top];
      return x >= 0 && y >= 0 && x < SIDE && y < SIDE ? [{ point: [x, y], swatch }] : [];
    });
    const own = { ...plan, size: [SIDE, SIDE], marks };
    writeFileSync(join(folder, `${name}.plan.json`), JSON.stringify(own));
  }
  writeFileSync(join(folder, 'page-broken.png'), bytes.subarray(0, 4000));
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const [, , folder, count = '24'] = process.argv;
  makePages(folder, Number(count));
}
