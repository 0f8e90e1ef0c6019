// What the pages on whole jobs show: correcting, scans, noise, handing over, revisions, checks, and the
// steps within the algorithms.
import {
  carryFlats,
  checkFlats,
  clearPaper,
  composeSheet,
  drawChanges,
  drawFindings,
  inkCoverage,
  layFlats,
  listRegions,
  normalizePaper,
  outlineRegions,
  passageTree,
  raster,
  removeSpecks,
  strokeEnds,
  thinInk,
  thresholdInk,
} from 'underink';
import { paintMap } from '../../examples/saltmarrow/overlays.mjs';
import { border, boxAround, dot, lines, picture, ring } from './canvas.mjs';
import { noisy, scanned } from './damage.mjs';
import {
  asInk,
  coverage,
  height,
  laid,
  pixels,
  plan,
  settings,
  sheet,
  width,
} from './saltmarrow.mjs';

const { flats, ink, sealed } = laid;
const tall = { width: 320, height: 400 };

// Correcting: as laid without a plan, and with it; then mark by mark.
const first = layFlats(pixels);
const otter = [970, 580, 2050, 1930];
await picture(
  'first-and-last',
  [
    {
      pixels: composeSheet(first.flats, { line: pixels }),
      box: otter,
      caption: 'laid without a plan',
    },
    { pixels: sheet, box: otter, caption: 'with the finished plan' },
  ],
  tall,
);

const tail = boxAround([1100, 1720], 0.8);
const cut = [
  [960, 1700],
  [1085, 1690],
];
const uncut = layFlats(pixels, {
  plan: {
    ...plan,
    marks: plan.marks.filter((mark) => !mark.cut && mark.swatch !== 'dark leather'),
  },
  ...settings,
});
await picture('cut', [
  {
    pixels: composeSheet(uncut.flats, { line: pixels }),
    box: tail,
    caption: 'no line parts the tip of the tail',
    marks: [lines(cut), dot([1013.5, 1655.5])],
  },
  { pixels: sheet, box: tail, caption: 'a cut, and a point over what is laid' },
]);

// A scan, and the sheet that comes of it.
const scan = scanned(pixels);
const scanLaid = layFlats(scan, { plan, ...settings, coverage: { dropHue: 'blue' } });
const line = clearPaper(normalizePaper(scan), { clear: 24 });
const heron = boxAround([700, 340], 0.5);
await picture('scan', [
  { pixels: scan, box: heron, caption: 'scanned: yellow paper, blue pencil' },
  {
    pixels: composeSheet(scanLaid.flats, { line }),
    box: heron,
    caption: 'flats, and the line cleared of paper',
  },
]);

// Noise and dust.
const dusty = noisy(pixels, { grain: 10, specks: 6000 });
const dustyCoverage = inkCoverage(dusty);
const dustyInk = thresholdInk(dustyCoverage);
const beak = boxAround([860, 330], 2);
await picture('noise', [
  { pixels: dusty, box: beak, caption: 'grain and dust, twice' },
  { pixels: asInk(dustyInk, 1), box: beak, caption: 'its ink: dust is left' },
]);
await picture('specks', [
  { pixels: asInk(dustyInk, 1), box: beak, caption: 'ink' },
  {
    pixels: asInk(removeSpecks(dustyInk, { maxArea: 12 }), 1),
    box: beak,
    caption: 'without specks of up to 12 pixels',
  },
]);

// Outlines along pixel edges.
const hand = boxAround([1790, 700], 0.75);
const named = raster(Int32Array.from(flats.indices.data), flats.indices.shape);
const outlines = outlineRegions(named, { simplify: 1 });
const palette = flats.palette.map(({ color }) => color);
const white = raster(new Uint8Array(width * height).fill(255), [width, height]);
await picture('outlines', [
  { pixels: sheet, box: hand, caption: 'flats under the line' },
  {
    pixels: white,
    box: hand,
    caption: 'their outlines, one path a swatch',
    marks: outlines.map(({ label, rings }) => (scale) => {
      const path = rings
        .map((one) => `M${one.map((point) => point.join(' ')).join('L')}Z`)
        .join('');
      return `<path d="${path}" fill="${palette[label]}" fill-opacity="0.35" stroke="${palette[label]}"
        stroke-width="${2 / scale}"/>`;
    }),
  },
]);

// A revision: lower on the page, and with a line across the tail.
const revised = raster(new Uint8Array(width * height).fill(255), [width, height]);
revised.data.set(pixels.data.subarray(0, width * (height - 12)), 12 * width);
for (let y = 1681; y < 1824; y++) for (let x = 1148; x < 1153; x++) revised.set(x, y, 0);
const toInk = thresholdInk(inkCoverage(revised));
const carried = carryFlats(flats, ink, toInk);
await picture('revision', [
  {
    pixels: drawChanges(carried, ink, toInk),
    box: tail,
    caption: 'old line, new line, and where to look',
  },
  {
    pixels: composeSheet(carried.flats, { line: revised }),
    box: tail,
    caption: 'the flats, carried over',
  },
]);

// Findings over the sheet.
const faulty = flats.indices.data.slice();
const pocket = listRegions(laid)
  .find(({ swatch, area }) => swatch === 'heron coat' && area > 40000)
  .inside.map(Math.floor);
for (let y = -9; y < 9; y++)
  faulty.fill(
    0,
    (pocket[1] + y) * width + pocket[0] - 12,
    (pocket[1] + y) * width + pocket[0] + 12,
  );
for (let y = 40; y < 43; y++)
  faulty.fill(
    4,
    (pocket[1] + y) * width + pocket[0] + 30,
    (pocket[1] + y) * width + pocket[0] + 33,
  );
const bad = { ...flats, indices: raster(faulty, [width, height]) };
const found = checkFlats(bad, { ink: sealed, coverage });
const over = composeSheet(bad, { line: pixels });
const coat = boxAround(pocket, 1);
await picture('findings', [
  { pixels: over, box: coat, caption: 'a hole, and a stray touch' },
  {
    pixels: drawFindings(found, [width, height], { over }),
    box: coat,
    caption: 'what checkFlats finds',
  },
]);

// Within the algorithms: the skeleton and its ends; passages; the widest disc of a region.
const bell = boxAround([2838, 650], 1);
const thin = thinInk(ink);
const ends = strokeEnds(ink).filter(
  ({ x, y }) => x > bell[0] && x < bell[2] && y > bell[1] && y < bell[3],
);
const tree = passageTree(ink);
await picture('inside', [
  {
    pixels: veil(asInk(ink, 1), thin),
    box: bell,
    caption: 'thinned ink, and the free ends of strokes',
    marks: ends.map(({ x, y }) => ring([x, y], 8)),
  },
  {
    pixels: paintMap(tree.partition(24)),
    box: bell,
    caption: 'paper, parted at its passages',
    marks: [border(ink, '#22262c', 1)],
  },
]);

/** Ink in gray with a line in black. */
function veil({ data, shape }, over) {
  const out = data.map((value, i) => (over.data[i] ? 0 : value === 0 ? 190 : 255));
  return raster(out, shape);
}
