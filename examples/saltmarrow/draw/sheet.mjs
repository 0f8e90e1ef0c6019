/**
 * Composes the model sheet and writes `model-sheet.png`, `plan.json` and `gaps.json`.
 * Run: node examples/saltmarrow/draw/sheet.mjs
 */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Resvg } from '@resvg/resvg-js';
import { encode } from 'fast-png';
import { drawCrab } from './crab.mjs';
import { Drawing } from './drawing.mjs';
import { drawExtras } from './extras.mjs';
import { drawHeron } from './heron.mjs';
import { drawOtter } from './otter.mjs';
import { palette } from './palette.mjs';
import { fillTraps, readMarks } from './plan.mjs';

const WIDTH = 3000;
const HEIGHT = 2000;
/** Paper regions smaller than this are filled with ink. */
const TRAP = 150;
/** Swatches that the plan leaves to `corrections.json`: many small regions that one polygon takes. */
const LEFT = ['wet planks'];

/**
 * Rasterizes SVG source and keeps one channel.
 * @param {string} svg source
 * @param {number} channel 0 red to 2 blue
 * @returns {Uint8Array} one byte per pixel
 */
function raster(svg, channel) {
  const { pixels } = new Resvg(svg, { font: { loadSystemFonts: false } }).render();
  return Uint8Array.from({ length: WIDTH * HEIGHT }, (_, i) => pixels[i * 4 + channel]);
}

const drawing = new Drawing();
drawHeron(drawing);
drawOtter(drawing);
drawCrab(drawing);
drawExtras(drawing);

const open = raster(drawing.lineArt(WIDTH, HEIGHT, 'open'), 0);
const shut = raster(drawing.lineArt(WIDTH, HEIGHT, 'shut'), 0);
const map = raster(drawing.swatchMap(WIDTH, HEIGHT), 2);
const traps = fillTraps(open, WIDTH, TRAP);
fillTraps(shut, WIDTH, TRAP);
const { marks: read, doubts } = readMarks(shut, map, drawing.swatches, WIDTH, HEIGHT);
const marks = read.filter(({ swatch }) => !LEFT.includes(swatch));

// Places that gap closing parts off where detail strokes end close to a contour: a colorist who has
// seen them in the findings names them as well.
marks.push(
  { point: [662.5, 398.5], swatch: 'heron face' },
  { point: [742.5, 734.5], swatch: 'heron scarf' },
  { point: [1294.5, 1577.5], swatch: 'otter overalls' },
  { point: [1372.5, 1243.5], swatch: 'rope' },
  { point: [816.5, 1505.5], swatch: 'heron legs' },
  { point: [624.5, 1613.5], swatch: 'heron legs' },
  { point: [621.5, 284.5], swatch: 'heron plumage' },
  { point: [1360.5, 1266.5], swatch: 'otter fur' },
  { point: [660.5, 1622.5], swatch: 'heron legs' },
  { point: [668.5, 1660.5], swatch: 'heron legs' },
);

const names = ['ground', ...drawing.swatches.filter((name) => !['ground', ...LEFT].includes(name))];
const plan = {
  version: 1,
  size: [WIDTH, HEIGHT],
  palette: names.map((name) => ({ name, color: palette[name] })),
  marks,
};
const rounded = drawing.gaps.map(({ x, y, opening }) => ({
  x: Math.round(x * 10) / 10,
  y: Math.round(y * 10) / 10,
  opening,
}));

/**
 * JSON with one list entry per line.
 * @param {object[]} list entries
 * @returns {string} JSON
 */
const rows = (list) => `[\n${list.map((v) => `    ${JSON.stringify(v)}`).join(',\n')}\n  ]`;

const file = (name) => fileURLToPath(new URL(`../${name}`, import.meta.url));
writeFileSync(
  file('model-sheet.png'),
  encode({ width: WIDTH, height: HEIGHT, data: open, depth: 8, channels: 1 }),
);
writeFileSync(
  file('plan.json'),
  `{\n  "version": 1,\n  "size": [${plan.size.join(', ')}],\n` +
    `  "palette": ${rows(plan.palette)},\n  "marks": ${rows(plan.marks)}\n}\n`,
);
writeFileSync(
  file('gaps.json'),
  `[\n${rounded.map((g) => `  ${JSON.stringify(g)}`).join(',\n')}\n]\n`,
);

console.log(`${marks.length} marks, ${names.length} swatches, ${rounded.length} gaps`);
console.log(
  `${traps.length} traps inked, the largest of ${Math.max(0, ...traps.map((t) => t.area))} px`,
);
for (const doubt of doubts) console.log('two swatches in one region', JSON.stringify(doubt));
for (const name of names) if (!palette[name]) console.log('no color for', name);
