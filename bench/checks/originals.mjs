// The flats of a drawing in its own colors, and pictures of what is found on them.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import sharp from 'sharp';
import { composeSheet, findingMask, raster } from 'underink';
import { renderSvg } from '../gaps/vector.mjs';

const folder = join(
  dirname(createRequire(import.meta.url).resolve('openmoji/package.json')),
  'color',
  'svg',
);
const SIDE = 150;
const ACROSS = 10;
const DOWN = 8;

/** The drawing in color, of the size of its line art. */
export function colorsOf({ name }, size) {
  const svg = readFileSync(join(folder, `${name}.svg`), 'utf8');
  const { width, height, data } = renderSvg(svg, { mode: 'width', value: size });
  return raster(data, [width, height, 4]);
}

/** Pages of crops, each with its finding marked, and their list. */
export async function writeCrops(found, path) {
  mkdirSync(path, { recursive: true });
  const lines = found.map(
    ({ drawing, finding }, k) => `${k} ${drawing} ${finding.check}: ${finding.message}`,
  );
  writeFileSync(join(path, 'list.txt'), `${lines.join('\n')}\n`);
  for (let first = 0, page = 0; first < found.length; first += ACROSS * DOWN, page++) {
    const tiles = [];
    for (const [k, one] of found.slice(first, first + ACROSS * DOWN).entries()) {
      const [x, y] = [(k % ACROSS) * SIDE, Math.floor(k / ACROSS) * SIDE];
      tiles.push({ input: await tile(one), left: x, top: y });
    }
    const size = { width: SIDE * ACROSS, height: SIDE * DOWN, channels: 3, background: '#ffffff' };
    await sharp({ create: size })
      .composite(tiles)
      .png()
      .toFile(join(path, `${page}.png`));
  }
}

async function tile({ finding, flats, line }) {
  const [width, height] = flats.indices.shape;
  const [x0, y0, x1, y1] = finding.bounds;
  const half = Math.ceil(Math.max(16, x1 - x0 + 8, y1 - y0 + 8) / 2);
  const [cx, cy] = [(x0 + x1) >> 1, (y0 + y1) >> 1];
  const within = [
    Math.max(0, cx - half),
    Math.max(0, cy - half),
    Math.min(width, cx + half),
    Math.min(height, cy + half),
  ];
  const art = composeSheet(flats, { line, within });
  const mask = findingMask(finding, [width, height]);
  for (let i = 0; i < art.data.length / 4; i++) {
    const w = within[2] - within[0];
    const at = (within[1] + Math.floor(i / w)) * width + within[0] + (i % w);
    if (mask.data[at] === 1) art.data.set([255, 0, 160, 255], 4 * i);
  }
  const [w, h] = art.shape;
  return sharp(art.data, { raw: { width: w, height: h, channels: 4 } })
    .resize(SIDE - 4, SIDE - 4, { kernel: 'nearest', fit: 'contain', background: '#ffffff' })
    .removeAlpha()
    .png()
    .toBuffer();
}
