// Seeded faults: how many of them `checkFlats` finds, by check and size, on the line art of the first
// distinct drawings of openmoji (https://openmoji.org, CC BY-SA 4.0), and what it finds on the
// drawings as laid. `node bench/checks/run.mjs [drawings]`, 200 by default, after `npm run build`.
import { checkFlats, inkCoverage, layFlats, paintFlats, raster } from 'underink';
import { openmojiDrawings } from '../gaps/halves.mjs';
import { seeded } from '../gaps/random.mjs';
import { renderSvg, UNITS } from '../gaps/vector.mjs';

const SIZE = 512;
/** Sizes of the faults, in thresholds. */
const TIMES = [0.5, 1, 2, 4];

/** Faults reach no farther than this from their middle. */
const REACH = 20;
/** Steps to the pixels around, the nearest first. */
const OFFSETS = Array.from({ length: (2 * REACH + 1) ** 2 }, (_, k) => [
  (k % (2 * REACH + 1)) - REACH,
  Math.floor(k / (2 * REACH + 1)) - REACH,
]).sort(([a, b], [c, d]) => a * a + b * b - c * c - d * d);

const count = Number(process.argv[2] ?? 200);
const tally = new Map();
const original = {};
for (const drawing of openmojiDrawings().slice(0, count)) {
  const svg = `<svg viewBox="0 0 ${UNITS} ${UNITS}" xmlns="http://www.w3.org/2000/svg">${drawing.markup}</svg>`;
  const { width, height, data } = renderSvg(svg, { mode: 'width', value: SIZE });
  const pixels = raster(data, [width, height, 4]);
  const coverage = inkCoverage(pixels);
  const laid = layFlats(pixels);
  const sheet = { ...laid, coverage, width, height, random: seeded(`faults ${drawing.group}`) };
  const options = { ink: laid.sealed, coverage, report: laid.report, palette: laid.flats.palette };
  for (const { check } of checkFlats(laid.flats, options)) {
    original[check] = (original[check] ?? 0) + 1;
  }
  for (const [name, { sizes, make, check = name, finds }] of Object.entries(faults())) {
    for (const times of TIMES) {
      const fault = make(sheet, sizes * times);
      if (fault === undefined) continue;
      const found = checkFlats(fault.flats, { ...options, checks: [check] });
      const hit = found.some(({ spans }) => touches(spans, fault.at, width));
      const key = `${name} ${times}`;
      const row = tally.get(key) ?? { name, times, wanted: finds(times), made: 0, found: 0 };
      row.made++;
      if (hit) row.found++;
      tally.set(key, row);
    }
  }
}

console.log('| fault | size / threshold | made | found | share |\n|---|---|---|---|---|');
for (const { name, times, wanted, made, found } of tally.values()) {
  const share = (found / made).toFixed(3);
  console.log(
    `| ${name} | ${times}${wanted ? '' : ' (none wanted)'} | ${made} | ${found} | ${share} |`,
  );
}
console.log(`on ${count} drawings as laid: ${JSON.stringify(original)}`);

/** Each kind of fault: the size at the threshold, how it is made, and at what sizes it is to be found. */
function faults() {
  const always = () => true;
  return {
    // A patch of n pixels in one region.
    bare: { sizes: 2, finds: always, make: (sheet, n) => patch(sheet, n, () => 0) },
    specks: {
      sizes: 8,
      finds: (times) => times <= 1,
      make: (sheet, n) => patch(sheet, n, another),
    },
    // A bar of n pixels across and 24 along, in a random direction.
    slivers: { sizes: 2, finds: (times) => times <= 1, make: (sheet, n) => bar(sheet, n) },
    // A disc of radius n takes another swatch off the ink, at a line or away from it.
    seams: { sizes: 2, finds: always, make: disc },
    // The ground comes up to n pixels of the rim on the other side of a line.
    halo: { sizes: 2, finds: always, make: (sheet, n) => underRim(sheet, n + 1) },
    // A patch of n pixels of a color that the palette lacks, in a picture.
    off: { sizes: 2, finds: always, make: offPalette },
  };
}

function patch(sheet, n, swatchOf) {
  const at = anyPixel(sheet, (i) => room(sheet, i, 8));
  if (at === undefined) return undefined;
  const indices = sheet.flats.indices.data.slice();
  const wanted = [...nearest(sheet, at)].slice(0, Math.max(1, Math.round(n)));
  const swatch = swatchOf(sheet, indices[at]);
  for (const i of wanted) indices[i] = swatch;
  return { flats: withIndices(sheet, indices), at: new Set(wanted) };
}

function bar(sheet, n) {
  const at = anyPixel(sheet, (i) => room(sheet, i, 16));
  if (at === undefined) return undefined;
  const angle = Math.PI * sheet.random();
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const indices = sheet.flats.indices.data.slice();
  const swatch = another(sheet, indices[at]);
  const changed = new Set();
  for (const i of nearest(sheet, at)) {
    const dx = (i % sheet.width) - (at % sheet.width);
    const dy = Math.floor(i / sheet.width) - Math.floor(at / sheet.width);
    const across = Math.abs(dx * s - dy * c);
    // A bar under 1.5 px wide falls into pixels that touch by corners: specks.
    if (across > Math.max(1.5, n) / 2 || Math.abs(dx * c + dy * s) > 12) continue;
    indices[i] = swatch;
    changed.add(i);
  }
  return { flats: withIndices(sheet, indices), at: changed };
}

function disc(sheet, radius) {
  const { ink, flats, width } = sheet;
  const { data } = flats.indices;
  const at = anyPixel(sheet, (i) => [0, -1, 1, -width, width].every((d) => ink.data[i + d] === 0));
  if (at === undefined) return undefined;
  const indices = data.slice();
  const changed = new Set();
  const swatch = another(sheet, data[at]);
  for (const i of nearest(sheet, at)) {
    const dx = (i % width) - (at % width);
    const dy = Math.floor(i / width) - Math.floor(at / width);
    if (dx * dx + dy * dy > radius * radius || data[i] === swatch) continue;
    indices[i] = swatch;
    changed.add(i);
  }
  if (changed.size === 0) return undefined;
  return { flats: withIndices(sheet, indices), at: changed };
}

function underRim(sheet, radius) {
  const { coverage, flats, width } = sheet;
  const { data } = flats.indices;
  const ground = flats.palette.findIndex(({ name }) => name === flats.ground);
  const isRim = (i) =>
    data[i] !== ground &&
    data[i] !== 0 &&
    coverage.data[i] > 16 &&
    coverage.data[i] < 255 &&
    [-1, 1, -width, width].some((d) => coverage.data[i + d] <= 8 && data[i + d] === data[i]);
  const at = anyPixel(sheet, isRim);
  if (at === undefined) return undefined;
  const indices = data.slice();
  const changed = new Set();
  for (const i of nearest(sheet, at)) {
    const dx = (i % width) - (at % width);
    const dy = Math.floor(i / width) - Math.floor(at / width);
    const inked = coverage.data[i] > 0 && data[i] === data[at];
    if (!inked || dx * dx + dy * dy > radius * radius) continue;
    indices[i] = ground;
    changed.add(i);
  }
  return { flats: withIndices(sheet, indices), at: changed };
}

function offPalette(sheet, n) {
  const at = anyPixel(sheet, () => true);
  const painted = paintFlats(sheet.flats);
  const wanted = [...nearest(sheet, at)].slice(0, Math.max(1, Math.round(n)));
  const used = new Set(sheet.flats.palette.map(({ color }) => color));
  let gray = 1;
  const hex = () => `#${gray.toString(16).padStart(2, '0').repeat(3)}`;
  while (used.has(hex())) gray++;
  for (const i of wanted) painted.data.set([gray, gray, gray, 255], 4 * i);
  return { flats: painted, at: new Set(wanted) };
}

function withIndices({ flats, width, height }, data) {
  return { ...flats, indices: raster(data, [width, height]) };
}

/** Another swatch than `index`, at random. */
function another({ flats, random }, index) {
  const others = flats.palette.map((_, k) => k).filter((k) => k > 0 && k !== index);
  return others[Math.floor(random() * others.length)] ?? index;
}

/** A pixel away from the border of which `isWanted` says yes, at random. */
function anyPixel({ random, width, height }, isWanted) {
  for (let attempt = 0; attempt < 20_000; attempt++) {
    const x = 24 + Math.floor(random() * (width - 48));
    const y = 24 + Math.floor(random() * (height - 48));
    if (isWanted(y * width + x)) return y * width + x;
  }
  return undefined;
}

/** Whether all within a square round a pixel is of one swatch. */
function room({ flats, width }, i, reach) {
  const { data } = flats.indices;
  for (let dy = -reach; dy <= reach; dy++) {
    for (let dx = -reach; dx <= reach; dx++) {
      if (data[i + dy * width + dx] !== data[i]) return false;
    }
  }
  return flats.palette.length > 2;
}

/** The pixels round one within 20, the nearest first. */
function* nearest({ width }, at) {
  for (const [dx, dy] of OFFSETS) yield at + dy * width + dx;
}

function touches(spans, pixels, width) {
  for (let k = 0; k < (spans?.length ?? 0); k += 3) {
    for (let x = spans[k + 1]; x < spans[k + 2]; x++) {
      if (pixels.has(spans[k] * width + x)) return true;
    }
  }
  return false;
}
