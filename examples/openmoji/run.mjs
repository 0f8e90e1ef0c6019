// Lays flats under drawings by many hands and checks what comes out on the written files:
// `node examples/openmoji/run.mjs [--count 200] [--size 512]`, after `npm run build`.
import { performance } from 'node:perf_hooks';
import { parseArgs } from 'node:util';
import { brushDrawings, readBrushDrawing, sharesAsDrawn } from './brush.mjs';
import { openmojiDrawings, renderLines } from './drawings.mjs';
import { layAndCheck } from './lay.mjs';

const { values } = parseArgs({
  options: { count: { type: 'string', default: '200' }, size: { type: 'string', default: '512' } },
});
const [count, size] = [Number(values.count), Number(values.size)];
if (![count, size].every((value) => Number.isInteger(value) && value >= 1)) {
  throw new RangeError(`--count and --size must be whole numbers >= 1, got ${count} and ${size}`);
}

const started = performance.now();
const columns = (name, cells) =>
  `${name.slice(0, 34).padEnd(34)} ${cells.map((c) => c.padStart(9)).join(' ')}`;
const percent = (share) => `${(100 * share).toFixed(2)} %`;
const cellsOf = ({ regions, bare, blended, bridges, seams }) => [
  String(regions),
  String(bare),
  String(blended),
  String(bridges),
  seams.open.toFixed(1),
];
const HEADER = ['regions', 'bare', 'blended', 'bridges', 'open px'];
let failed = 0;

/** Prints a drawing's line and adds it up. */
function tally(name, laid, totals, more = []) {
  console.log(columns(name, [...cellsOf(laid), ...more]));
  for (const failure of laid.failures) console.log(`  FAILED ${name}: ${failure}`);
  failed += laid.failures.length > 0 ? 1 : 0;
  for (const key of ['regions', 'bare', 'blended', 'bridges', 'bridged']) totals[key] += laid[key];
  totals.seams.all += laid.seams.all;
  totals.seams.open += laid.seams.open;
  totals.drawings++;
}

function newTotals() {
  const counts = { drawings: 0, regions: 0, bare: 0, blended: 0, bridges: 0, bridged: 0 };
  return { ...counts, seams: { all: 0, open: 0 } };
}

function printTotals({ drawings, bridged, seams, ...totals }) {
  console.log(columns(`total of ${drawings}`, cellsOf({ ...totals, seams })));
  const under = percent(1 - seams.open / seams.all);
  console.log(
    `seams: ${seams.all.toFixed(0)} px, ${under} under ink, ${seams.open.toFixed(0)} px open ` +
      `over ${bridged.toFixed(0)} px of bridges`,
  );
}

console.log('Line art: OpenMoji, the open-source emoji and icon project (https://openmoji.org),');
console.log(`license CC BY-SA 4.0. Group "line" of the color drawings at ${size} × ${size} px.`);
console.log(columns('drawing', HEADER));
const totals = newTotals();
for (const drawing of openmojiDrawings(count)) {
  tally(drawing.name, layAndCheck(renderLines(drawing, size)), totals);
}
printTotals(totals);

console.log(
  '\nBrush drawings: Open Clip Art Library 0.18, public domain; each region is marked once with',
);
console.log(
  "its artist's most frequent color in it. `region`: share of the paper that carries that color;",
);
console.log(
  "`pixel`: that carries the artist's color of the very pixel, shading and smooth edges included.",
);
const paths = brushDrawings();
if (paths === undefined) {
  console.log('left out: needs the Debian package openclipart-svg');
} else {
  console.log(columns('drawing', [...HEADER, 'region', 'pixel']));
  const brush = newTotals();
  const sum = { region: 0, pixel: 0 };
  for (const path of paths) {
    const drawing = readBrushDrawing(path);
    const laid = layAndCheck(drawing.line, { plan: drawing.plan });
    const shares = sharesAsDrawn(laid.flats, drawing);
    sum.region += shares.region;
    sum.pixel += shares.pixel;
    tally(path, laid, brush, [percent(shares.region), percent(shares.pixel)]);
  }
  printTotals(brush);
  const { region, pixel } = sum;
  console.log(
    `the artist's color, mean of drawings: region ${percent(region / paths.length)}, ` +
      `pixel ${percent(pixel / paths.length)}`,
  );
}

const seconds = ((performance.now() - started) / 1000).toFixed(1);
console.log(`\n${failed === 0 ? 'nothing failed' : `${failed} drawings FAILED`}, ${seconds} s`);
process.exitCode = failed === 0 ? 0 : 1;
