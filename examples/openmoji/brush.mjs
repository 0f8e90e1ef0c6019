// Brush drawings of the Open Clip Art Library (public domain), as Debian's package openclipart-svg
// installs them: many hands, thick and thin lines, and the artists' own flats to compare with.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { labelRegions, raster } from 'underink';
import { renderSvg } from './drawings.mjs';

const FOLDER = '/usr/share/openclipart/svg';
const LIST = new URL('../../bench/gaps/brush-drawings.txt', import.meta.url);
/** Pixels on the longer side; luma below which a pixel is ink; pixels of the least true region. */
const SIDE = 700;
const INK = 80;
const LEAST = 60;

/** Paths of the drawings; undefined where the package is not installed. */
export function brushDrawings() {
  if (!existsSync(FOLDER)) return undefined;
  return readFileSync(LIST, 'utf8').trim().split('\n');
}

/**
 * Line art of a drawing and what its artist laid under it: `line` is gray, ink black on white;
 * `colors` are the artist's, a pixel each as 0xrrggbb; `truth` holds the most frequent of them in
 * each true region at the region's pixels, elsewhere -1; `plan` marks each true region at its
 * deepest point with that color.
 */
export function readBrushDrawing(path) {
  const art = renderSvg(readFileSync(join(FOLDER, path), 'utf8'), fitLongSide(path));
  const [width, height] = art.shape;
  const colors = new Int32Array(width * height);
  const gray = new Uint8Array(width * height);
  for (let i = 0, p = 0; i < gray.length; i++, p += 4) {
    const [r, g, b] = art.data.subarray(p, p + 3);
    colors[i] = (r << 16) | (g << 8) | b;
    gray[i] = 0.299 * r + 0.587 * g + 0.114 * b < INK ? 0 : 255;
  }
  const ink = raster(
    gray.map((value) => (value === 0 ? 1 : 0)),
    [width, height],
  );
  const { labels, count } = labelRegions(ink, { of: 0 });
  const regions = pixelsByLabel(labels.data, count).filter((pixels) => pixels.length >= LEAST);
  const depth = depths(ink.data, width, height);
  const truth = new Int32Array(gray.length).fill(-1);
  const marks = regions.map((pixels) => {
    const color = mostFrequent(pixels, colors);
    for (const i of pixels) truth[i] = color;
    const deepest = pixels.reduce((best, i) => (depth[i] > depth[best] ? i : best));
    const point = [(deepest % width) + 0.5, Math.floor(deepest / width) + 0.5];
    return { point, swatch: hex(color) };
  });
  const names = [...new Set(marks.map(({ swatch }) => swatch))];
  const palette = names.map((name) => ({ name, color: name }));
  const plan = { version: 1, size: [width, height], palette, marks };
  return { line: raster(gray, [width, height]), colors, truth, plan };
}

/**
 * Shares of the paper in true regions that carry the artist's color: `region`, the most frequent one
 * of the region; `pixel`, that of the pixel itself, which shading and smooth edges blend.
 */
export function sharesAsDrawn({ indices, palette }, { colors, truth }) {
  const laid = palette.map(({ color }) => Number.parseInt(color.slice(1), 16));
  let paper = 0;
  let region = 0;
  let pixel = 0;
  for (let i = 0; i < truth.length; i++) {
    if (truth[i] < 0) continue;
    const color = laid[indices.data[i]];
    paper++;
    if (color === truth[i]) region++;
    if (color === colors[i]) pixel++;
  }
  return { region: region / paper, pixel: pixel / paper };
}

function fitLongSide(path) {
  const { shape } = renderSvg(readFileSync(join(FOLDER, path), 'utf8'), { mode: 'original' });
  return { mode: shape[0] >= shape[1] ? 'width' : 'height', value: SIDE };
}

function pixelsByLabel(labels, count) {
  const lists = Array.from({ length: count }, () => []);
  labels.forEach((label, i) => {
    if (label > 0) lists[label - 1].push(i);
  });
  return lists;
}

function mostFrequent(pixels, colors) {
  const counts = new Map();
  for (const i of pixels) counts.set(colors[i], (counts.get(colors[i]) ?? 0) + 1);
  return [...counts].reduce((best, entry) => (entry[1] > best[1] ? entry : best))[0];
}

/** Steps of 4-neighbors from each pixel of paper to the nearest ink or the picture's border. */
function depths(ink, width, height) {
  const depth = new Int32Array(ink.length);
  let front = [];
  for (let i = 0; i < ink.length; i++) if (ink[i] === 1) depth[i] = -1;
  const isOut = (x, y) =>
    x < 0 || y < 0 || x >= width || y >= height || depth[y * width + x] === -1;
  for (let i = 0; i < ink.length; i++) {
    const [x, y] = [i % width, Math.floor(i / width)];
    if (depth[i] === -1) continue;
    if (isOut(x - 1, y) || isOut(x + 1, y) || isOut(x, y - 1) || isOut(x, y + 1)) front.push(i);
  }
  for (let steps = 1; front.length > 0; steps++) {
    for (const i of front) depth[i] = steps;
    const next = new Set();
    for (const i of front) {
      const x = i % width;
      if (x > 0 && depth[i - 1] === 0) next.add(i - 1);
      if (x < width - 1 && depth[i + 1] === 0) next.add(i + 1);
      if (i >= width && depth[i - width] === 0) next.add(i - width);
      if (i + width < ink.length && depth[i + width] === 0) next.add(i + width);
    }
    front = [...next];
  }
  return depth;
}

function hex(color) {
  return `#${color.toString(16).padStart(6, '0')}`;
}
