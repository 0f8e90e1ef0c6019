// Each stage before and after (docs/guide/03-stages.md), and what the pages after it show.
import {
  applyPlan,
  composeSheet,
  growUnderInk,
  hardenEdges,
  inkCoverage,
  labelRegions,
  normalizePaper,
  paintFlats,
  raster,
  recolor,
} from 'underink';
import { paintMap } from '../../examples/saltmarrow/overlays.mjs';
import { border, boxAround, lines, picture } from './canvas.mjs';
import { halved, scanned } from './damage.mjs';
import { asInk, coverage, laid, pixels, plan, sheet } from './saltmarrow.mjs';

const { flats, ink, sealed, labels, report } = laid;
const bell = boxAround([2838, 650], 1);
const lip = boxAround([2908, 640], 10);

// From pixels to coverage: a scan of yellowed paper under falling light, with blue pencil.
const scan = scanned(pixels);
const options = { dropHue: 'blue' };
const scanCoverage = inkCoverage(normalizePaper(scan), options);
await picture('coverage', [
  { pixels: scan, box: bell, caption: 'a scan, with a line of blue pencil' },
  { pixels: asInk(scanCoverage), box: bell, caption: 'its coverage, pencil dropped' },
]);

const corner = boxAround([2797, 612], 16);
await picture('threshold', [
  { pixels: asInk(coverage), box: corner, caption: 'coverage, 16 times' },
  { pixels: asInk(ink, 1), box: corner, caption: 'ink mask: 1 or 0' },
]);

const _gap = report.bridges.find(({ from }) => Math.hypot(from[0] - 2908, from[1] - 640) < 9);
await picture('sealed', [
  { pixels: asInk(ink, 1), box: lip, caption: 'ink, 10 times' },
  {
    pixels: asInk(sealed, 1),
    box: lip,
    caption: 'sealed: no path leads through',
    marks: [border(difference(sealed, ink))],
  },
]);

/** Regions in colors, with the ink over them. */
function map(ids, line) {
  const painted = paintMap(ids);
  for (let i = 0; i < line.data.length; i++)
    if (line.data[i]) painted.data.fill(0, 3 * i, 3 * i + 3);
  return painted;
}
const open = labelRegions(ink, { of: 0 });
const closed = labelRegions(sealed, { of: 0 });
await picture('regions', [
  { pixels: map(open.labels, ink), box: bell, caption: 'regions of the ink: one runs out' },
  { pixels: map(closed.labels, sealed), box: bell, caption: 'regions of the sealed ink' },
]);

const grown = growUnderInk(closed.labels, sealed, { coverage });
const rim = boxAround([2850, 694], 8);
await picture('grown', [
  { pixels: map(closed.labels, sealed), box: rim, caption: 'regions, 8 times' },
  {
    pixels: paintMap(grown),
    box: rim,
    caption: 'grown: they meet under the ink (outlined)',
    marks: [border(ink, '#22262c', 1.5)],
  },
]);

await picture('flats', [
  { pixels, box: bell, caption: 'the line' },
  { pixels: sheet, box: bell, caption: 'named flats under it, on gray' },
]);

// A careless polygon over the many parts of a token lays what is bare, and nothing else.
const token = [2600, 760];
const ground = { point: [1500.5, 60.5], swatch: 'ground' };
const polygon = [
  [2468, 660],
  [2590, 640],
  [2735, 660],
  [2738, 800],
  [2660, 880],
  [2500, 872],
];
const few = { ...plan, marks: [ground] };
const more = { ...plan, marks: [ground, { polygon: [polygon], swatch: 'brass' }] };
const [before, after] = [few, more].map((one) => applyPlan(labels, one, { ink: sealed }).flats);
await picture('polygon', [
  {
    pixels: composeSheet(before, { line: pixels }),
    box: boxAround(token, 1),
    caption: 'unnamed, and a polygon drawn over it',
    marks: [lines(polygon, undefined, true)],
  },
  { pixels: composeSheet(after, { line: pixels }), box: boxAround(token, 1), caption: 'flats' },
]);

const soft = halved(paintFlats(flats));
const hard = paintFlats(hardenEdges(soft));
const edge = boxAround([1276, 383], 10);
await picture('hardened', [
  { pixels: soft, box: edge, caption: 'flats with blended edges, 10 times' },
  { pixels: hard, box: edge, caption: 'hardened' },
]);

const dusk = recolor(flats, {
  'crab shell': '#4f7f8c',
  'crab spots': '#2f5a68',
  'crab face': '#86b3b0',
});
const crab = boxAround([2620, 340], 0.75);
await picture('recolored', [
  { pixels: sheet, box: crab, caption: 'flats' },
  { pixels: composeSheet(dusk, { line: pixels }), box: crab, caption: 'three swatches recolored' },
]);

function difference(a, b) {
  return raster(
    a.data.map((value, i) => value ^ b.data[i]),
    a.shape,
  );
}
