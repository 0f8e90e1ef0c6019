// Makes the pictures of docs/checks.md: for each check a place of the model sheet where something was
// laid wrong on purpose, magnified to pixels, and beside it what the check finds, outlined.
// Run after `npm run build`: node examples/saltmarrow/check-pictures.mjs
import { mkdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import {
  checkFlats,
  composeSheet,
  findingMask,
  inkCoverage,
  layFlats,
  listRegions,
  paintFlats,
  raster,
  readPng,
} from 'underink';

const path = (name) => fileURLToPath(new URL(name, import.meta.url));
const json = (name) => JSON.parse(readFileSync(path(name), 'utf8'));

/** Width of what is shown, in pixels of the sheet and of the picture. */
const SHOWN = 40;
const SIDE = 320;
const RED = [214, 0, 50];

const { pixels } = readPng(readFileSync(path('model-sheet.png')));
const [width, height] = pixels.shape;
const coverage = inkCoverage(pixels);
const drawn = json('plan.json');
const { marks, palette } = json('corrections.json');
const plan = {
  ...drawn,
  palette: [...drawn.palette, ...palette],
  marks: [...drawn.marks, ...marks],
};
const laid = layFlats(pixels, { plan, ground: 'ground', unnamed: 'claim' });
const { flats, sealed } = laid;
const { data } = flats.indices;
const indexOf = (name) => flats.palette.findIndex((swatch) => swatch.name === name);
const coats = listRegions(laid)
  .filter(({ swatch }) => swatch === 'heron coat')
  .sort((a, b) => b.area - a.area);
const coat = coats[0];
const sleeve = coats.find(({ bounds: [x0, y0, x1, y1] }) => Math.max(x1 - x0, y1 - y0) < 300);
const [coatX, coatY] = coat.inside.map(Math.floor);
const ground = indexOf('ground');
const scarf = flats.palette.findIndex(({ name }) => /sweater/.test(name));

mkdirSync(path('../../docs/checks'), { recursive: true });
await picture('bare', patch(0, 5, 3));
await picture('blended', { art: softEdge() });
await picture('off', { art: wrongColor(), options: { palette: flats.palette.slice(1) } });
await picture('specks', patch(scarf, 3, 2));
await picture('slivers', patch(scarf, 26, 2));
await picture('seams', { ...patch(scarf, 12, 10), options: { ink: sealed } });
await picture('forced', {
  ...layFlats(pixels, { plan: drawn, ground: 'ground', caution: 0.9 }),
  usesReport: true,
});
await picture('conflicts', {
  ...layFlats(pixels, { plan: drawn, ground: 'ground', maxGap: 0 }),
  usesReport: true,
  shown: 80,
});
await picture('notes', { ...layFlats(pixels, { plan: withShortCut() }), usesReport: true });
await picture('border', {
  ...layFlats(pixels, { plan: withoutGround(), unnamed: 'claim' }),
  usesReport: true,
  shown: 320,
});
await picture('unnamed', {
  ...layFlats(pixels, { plan: withoutSleeve(), ground: 'ground' }),
  usesReport: true,
  shown: 320,
});
await picture('halo', { art: overRim(), options: { coverage } });
await picture('alike', { art: recolored('heron coat', nextTo('heron coat')), shown: 120 });
await picture('leaks', { art: flats, options: { ink: sealed } });
await picture('divided', { art: flats, options: { ink: sealed }, shown: 160 });

/** The first finding of a check that is shown whole, or the first one, plain and outlined. */
async function picture(
  check,
  { art, flats: own, report, usesReport, options = {}, shown = SHOWN },
) {
  const sheet = art ?? own;
  const given = usesReport ? { report } : options;
  const found = checkFlats(sheet, { ...given, checks: [check] });
  const fits = ({ bounds: [x0, y0, x1, y1] }) => x1 - x0 < shown && y1 - y0 < shown;
  const finding = found.find(fits) ?? found[0];
  if (finding === undefined) throw new Error(`${check} finds nothing`);
  const [x0, y0, x1, y1] = finding.bounds;
  const isWhole = fits(finding);
  const [x, y] = isWhole ? [(x0 + x1) >> 1, (y0 + y1) >> 1] : finding.at.map(Math.floor);
  const left = Math.max(0, Math.min(width - shown, x - (shown >> 1)));
  const top = Math.max(0, Math.min(height - shown, y - (shown >> 1)));
  const within = [left, top, left + shown, top + shown];
  const base =
    'indices' in sheet ? composeSheet(sheet, { line: pixels, within }) : cut(sheet, within);
  const times = Math.max(1, Math.floor(SIDE / shown));
  const mask = findingMask(finding, [width, height]);
  const sides = [magnified(base, times), outlined(magnified(base, times), mask, within, times)];
  const side = times * shown;
  const tiles = sides.map((input, k) => ({
    input,
    raw: { width: side, height: side, channels: 3 },
    left: k * (side + 8),
    top: 0,
  }));
  const size = { width: 2 * side + 8, height: side, channels: 3, background: '#ffffff' };
  await sharp({ create: size })
    .composite(tiles)
    .png({ palette: true, colors: 64, dither: 0, effort: 10 })
    .toFile(path(`../../docs/checks/${check}.png`));
  console.log(`${check}: ${finding.message}`);
}

/** Each pixel as a square, RGB. */
function magnified({ data: art, shape }, times) {
  const side = times * shape[0];
  const out = new Uint8Array(3 * side * side);
  for (let i = 0; i < side * side; i++) {
    const at = Math.floor(Math.floor(i / side) / times) * shape[0] + Math.floor((i % side) / times);
    out.set(art.subarray(4 * at, 4 * at + 3), 3 * i);
  }
  return out;
}

/** A line of 3 pixels along the border of a mask. */
function outlined(out, mask, [left, top, right], times) {
  const side = times * (right - left);
  const isIn = (u, v) => {
    const [x, y] = [left + Math.floor(u / times), top + Math.floor(v / times)];
    return u >= 0 && v >= 0 && x < width && y < height && mask.data[y * width + x] === 1;
  };
  for (let v = 0; v < side; v++) {
    for (let u = 0; u < side; u++) {
      if (isIn(u, v)) continue;
      let beside = false;
      for (let dy = -3; dy <= 3; dy++) {
        for (let dx = -3; dx <= 3; dx++) beside ||= isIn(u + dx, v + dy);
      }
      if (beside) out.set(RED, 3 * (v * side + u));
    }
  }
  return out;
}

function cut({ data: art }, [left, top, right, bottom]) {
  const part = new Uint8Array(4 * (right - left) * (bottom - top));
  for (let y = top, k = 0; y < bottom; y++) {
    for (let x = left; x < right; x++, k += 4) {
      const at = 4 * (y * width + x);
      part.set(art.subarray(at, at + 4), k);
    }
  }
  return raster(part, [right - left, bottom - top, 4]);
}

function withIndices(indices) {
  return { ...flats, indices: raster(indices, [width, height]) };
}

/** A block of a swatch in the middle of the coat. */
function patch(index, w, h) {
  const indices = data.slice();
  for (let y = 0; y < h; y++) {
    const from = (coatY + y) * width + coatX - (w >> 1);
    indices.fill(index, from, from + w);
  }
  return { art: withIndices(indices) };
}

/** A picture whose flats were laid with a soft brush beside the middle of the coat. */
function softEdge() {
  const { art } = patch(scarf, 12, 10);
  const painted = paintFlats(art);
  const [own, other] = [scarf, data[coatY * width + coatX]].map((index) => rgbOf(index));
  for (let y = 0; y < 10; y++) {
    for (const x of [-6, 5]) {
      const mixed = own.map((v, c) => Math.round(v + (0.3 + 0.04 * y) * (other[c] - v)));
      painted.data.set(mixed, 4 * ((coatY + y) * width + coatX + x));
    }
  }
  return painted;
}

function wrongColor() {
  const painted = paintFlats(flats);
  for (let y = 0; y < 4; y++) {
    for (let x = 0; x < 6; x++) {
      painted.data.set([122, 160, 84, 255], 4 * ((coatY + y) * width + coatX + x));
    }
  }
  return painted;
}

/** The ground comes over the rim of the coat's line. */
function overRim() {
  const coatIndex = indexOf('heron coat');
  const isRim = (i) =>
    data[i] === coatIndex &&
    coverage.data[i] > 60 &&
    coverage.data[i] < 200 &&
    [-1, 1, -width, width].some((d) => coverage.data[i + d] === 0 && data[i + d] === coatIndex);
  const at = data.findIndex((_, i) => isRim(i));
  const indices = data.slice();
  for (let y = -4; y <= 4; y++) {
    for (let x = -4; x <= 4; x++) {
      const i = at + y * width + x;
      if (coverage.data[i] > 0 && data[i] === coatIndex) indices[i] = ground;
    }
  }
  return withIndices(indices);
}

function recolored(name, like) {
  const color = flats.palette[indexOf(like)].color;
  const last = (Number.parseInt(color.slice(5), 16) ^ 1).toString(16).padStart(2, '0');
  const changed = { name, color: color.slice(0, 5) + last };
  return { ...flats, palette: flats.palette.with(indexOf(name), changed) };
}

/** The swatch that shares the longest border with another one, the ground left out. */
function nextTo(name) {
  const index = indexOf(name);
  const edges = new Float64Array(flats.palette.length);
  for (let i = 0; i + width < data.length; i++) {
    if (data[i] === index) edges[data[i + width]]++;
    else if (data[i + width] === index) edges[data[i]]++;
  }
  edges[index] = edges[ground] = edges[0] = 0;
  return flats.palette[edges.indexOf(Math.max(...edges))].name;
}

/** A cut from the line of a sleeve that stops on its paper. */
function withShortCut() {
  const [x, y] = sleeve.inside;
  let first = Math.floor(x);
  while (sealed.get(first, Math.floor(y)) === 0) first--;
  const cut = [
    [first - 2, y],
    [x, y],
  ];
  return { ...plan, marks: [...plan.marks, { cut }] };
}

/** What lies around the figures has a figure's color. */
function withoutGround() {
  const marks = plan.marks.filter(({ swatch }) => swatch !== 'ground');
  return { ...plan, marks: [{ point: [20.5, 20.5], swatch: 'heron coat' }, ...marks] };
}

/** A sleeve has no mark, so that nothing names it. */
function withoutSleeve() {
  const isSleeve = ({ point }) => point && laid.labels.get(...point.map(Math.floor)) === sleeve.id;
  return { ...plan, marks: plan.marks.filter((mark) => !isSleeve(mark)) };
}

function rgbOf(index) {
  const { color } = flats.palette[index];
  return [1, 3, 5].map((k) => Number.parseInt(color.slice(k, k + 2), 16));
}
