// Drawings of one's own with their truth, as cases of the bench: `NAME.png` is the drawing, and
// `NAME.truth.png`, of the same size, has a color for each true region: pixels of one color that are
// 4-connected are one region, so that flats do as they are. Black and transparent pixels are no region,
// nor is what is ink in the drawing.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { inkCoverage, labelEqual, raster, readPng, strokeWidth, thresholdInk } from 'underink';

const TRUTH = '.truth.png';

/** The name of a folder's set. */
export const setOf = (folder) => basename(resolve(folder));

/** The cases of a folder, one of each drawing, as `eachDrawing` of `dataset.mjs` gives them. */
export function* ownDrawings(folder) {
  const files = readdirSync(folder).filter((file) => file.endsWith(TRUTH));
  if (files.length === 0) throw new RangeError(`--folder must have NAME${TRUTH}, got ${folder}`);
  for (const file of files.sort()) {
    const name = file.slice(0, -TRUTH.length);
    const read = (path) => readPng(readFileSync(join(folder, path))).pixels;
    yield [caseOf(setOf(folder), name, read(`${name}.png`), read(file))];
  }
}

function caseOf(set, name, drawing, colored) {
  const [width, height] = drawing.shape;
  if (colored.shape[0] !== width || colored.shape[1] !== height) {
    throw new RangeError(`${name}${TRUTH} must be ${width} × ${height}, got ${colored.shape}`);
  }
  const mask = thresholdInk(inkCoverage(drawing));
  const colors = colorsOf(colored);
  const { labels } = labelEqual(colors, { connectivity: 4 });
  const isNone = (i) => mask.data[i] === 1 || colors.data[i] === 0;
  const truth = Int32Array.from(labels.data, (label, i) => (isNone(i) ? 0 : label));
  const count = renumber(truth);
  const { median: pen } = strokeWidth(mask);
  const ink = mask.data;
  const place = { set, half: 'own', group: '', name, gap: 0 };
  return { ...place, width, height, intact: ink, ink, truth, count, pen, scale: 1, gaps: [] };
}

/** 0xrrggbb of each pixel; 0 where it is transparent. */
function colorsOf({ data, shape: [width, height, channels] }) {
  const alpha = channels === 2 || channels === 4 ? channels - 1 : undefined;
  const colors = new Int32Array(width * height);
  for (let i = 0; i < colors.length; i++) {
    const p = i * channels;
    if (alpha !== undefined && data[p + alpha] === 0) continue;
    const [r, g, b] = channels < 3 ? [data[p], data[p], data[p]] : data.subarray(p, p + 3);
    colors[i] = (r << 16) | (g << 8) | b;
  }
  return raster(colors, [width, height]);
}

/** Numbers what is left 1..n in place, by first pixel. */
function renumber(labels) {
  const ids = new Map([[0, 0]]);
  for (let i = 0; i < labels.length; i++) {
    if (!ids.has(labels[i])) ids.set(labels[i], ids.size);
    labels[i] = ids.get(labels[i]);
  }
  return ids.size - 1;
}

/** What results belong to: the version of the library, and a hash of what was built of it. */
export function libraryOf() {
  const { version } = JSON.parse(
    readFileSync(new URL('../../package.json', import.meta.url), 'utf8'),
  );
  const dist = new URL('../../dist/', import.meta.url);
  const hash = createHash('sha256');
  for (const file of readdirSync(dist).sort()) {
    if (file.endsWith('.js')) hash.update(readFileSync(new URL(file, dist)));
  }
  return { version, sha256: hash.digest('hex') };
}
