// Faults to seed into flats, each at a random place in a size: what is laid wrong, and which check
// is to tell of it. Sizes are in thresholds of the check, or in a few pixels where it has none.
import { colorDifference, draftPlan, layFlats, paintFlats, raster, splitRegion } from 'underink';
import { seamOpened } from './opening.mjs';
import { anyPixel, between, chord, nearest, room } from './places.mjs';

const always = () => true;
const upTo = (times) => times <= 1;
const from = (times) => times >= 1;
/** What `divided` is asked for as `minLength`. */
const LEAST_LINE = 8;

/**
 * By name: `size` that the check's threshold has, or what stands for it; `wanted(times)`, whether a
 * fault of so many thresholds is to be found; `make(sheet, size)`, which gives what `checkFlats` gets
 * and what a finding must have, one of the pixels `at` or all `swatches`; undefined where the drawing
 * has no place for it.
 */
export const FAULTS = {
  // A patch of n pixels in one region.
  bare: { size: 2, unit: 'px', wanted: always, make: (sheet, n) => patch(sheet, n, () => 0) },
  // n pixels along a border have mixed colors, in a picture of which no palette is known.
  blended: { size: 2, unit: 'px', wanted: always, make: mixedBorder },
  // n pixels of a picture have partial alpha.
  'blended by alpha': { check: 'blended', size: 2, unit: 'px', wanted: always, make: halfClear },
  // A patch of n pixels of a color that the palette lacks, in a picture.
  off: { size: 2, unit: 'px', wanted: always, make: offPalette },
  specks: { size: 8, unit: 'px', wanted: upTo, make: (sheet, n) => patch(sheet, n, another) },
  // A bar of n pixels across and 24 along, in a random direction.
  slivers: { size: 2, unit: 'px wide', wanted: upTo, make: bar },
  // A disc of radius n takes another swatch off the ink, at a line or away from it.
  seams: { size: 2, unit: 'px radius', wanted: always, make: disc },
  // A straight seam of n pixels from line to line, which the report says was forced.
  forced: { size: 8, unit: 'px long', wanted: always, make: forcedSeam },
  // A second mark, of another swatch, in a region: at any place of it that this does not part off.
  conflicts: { size: 1, unit: 'mark', times: [1], wanted: always, make: secondMark },
  // All regions but one have a mark in the plan.
  unnamed: { size: 1, unit: 'region', times: [1], wanted: always, make: leaveOut },
  // The ground comes up to n pixels of the rim on the other side of a line.
  halo: { size: 2, unit: 'px', wanted: always, make: (sheet, n) => underRim(sheet, n + 1) },
  // Two neighbors, and two swatches anywhere, whose colors are n apart.
  alike: { size: 2, unit: 'CIEDE2000', wanted: upTo, make: alike },
  lookalikes: { size: 2, unit: 'CIEDE2000', wanted: upTo, make: lookalike },
  // A straight line of n pixels, drawn across a region from stroke to stroke, leaves one swatch on
  // both sides.
  divided: { size: LEAST_LINE, unit: 'px long', wanted: from, make: lineAcross },
  // The ink between two regions is open over n pixels, and one swatch has run through.
  leaks: { size: 3, unit: 'px wide', wanted: upTo, make: opening },
  // A swatch of the palette of which all pixels were laid with another.
  unused: { size: 1, unit: 'swatch', times: [1], wanted: always, make: wipeOut },
};

/** A sheet with the same names, on which one swatch is n steps of a channel off. */
export function otherColor({ flats, random }, n) {
  const k = 1 + Math.floor(random() * (flats.palette.length - 1));
  const { name, color } = flats.palette[k];
  const digits = 1 + 2 * Math.floor(random() * 3);
  const channel = Number.parseInt(color.slice(digits, digits + 2), 16);
  const moved = channel + (channel + n <= 255 ? n : -n);
  const changed = color.slice(0, digits) + hexByte(moved) + color.slice(digits + 2);
  const palette = flats.palette.with(k, { name, color: changed });
  return { flats: { ...flats, palette }, name };
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
    const [dx, dy] = between(sheet.width, at, i);
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
  const swatch = another(sheet, data[at]);
  const changed = new Set();
  for (const i of nearest(sheet, at)) {
    const [dx, dy] = between(sheet.width, at, i);
    if (dx * dx + dy * dy > radius * radius || data[i] === swatch) continue;
    indices[i] = swatch;
    changed.add(i);
  }
  return changed.size === 0 ? undefined : { flats: withIndices(sheet, indices), at: changed };
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
    const [dx, dy] = between(sheet.width, at, i);
    const inked = coverage.data[i] > 0 && data[i] === data[at];
    if (!inked || dx * dx + dy * dy > radius * radius) continue;
    indices[i] = ground;
    changed.add(i);
  }
  return { flats: withIndices(sheet, indices), at: changed };
}

function offPalette(sheet, n) {
  const at = anyPixel(sheet, always);
  const painted = paintFlats(sheet.flats);
  const wanted = [...nearest(sheet, at)].slice(0, Math.max(1, Math.round(n)));
  const used = new Set(sheet.flats.palette.map(({ color }) => color));
  let gray = 1;
  while (used.has(`#${hexByte(gray).repeat(3)}`)) gray++;
  for (const i of wanted) painted.data.set([gray, gray, gray, 255], 4 * i);
  return { flats: painted, at: new Set(wanted) };
}

function mixedBorder(sheet, n) {
  const { width, random } = sheet;
  const { data } = sheet.flats.indices;
  const other = (i) => [1, width, -1, -width].find((d) => data[i + d] !== data[i]);
  const at = anyPixel(sheet, (i) => other(i) !== undefined);
  if (at === undefined) return undefined;
  const painted = paintFlats(sheet.flats);
  const clean = painted.data.slice();
  const changed = new Set();
  for (const i of nearest(sheet, at)) {
    if (changed.size >= Math.max(1, Math.round(n))) break;
    const d = other(i);
    if (d === undefined) continue;
    // Off the ends: a mix within a level or two of a flat is no other color to anybody.
    const share = 0.25 + 0.5 * random();
    for (let c = 0; c < 3; c++) {
      const [own, its] = [clean[4 * i + c], clean[4 * (i + d) + c]];
      painted.data[4 * i + c] = Math.round(own + share * (its - own));
    }
    changed.add(i);
  }
  return { flats: painted, at: changed, palette: undefined };
}

function halfClear(sheet, n) {
  const at = anyPixel(sheet, always);
  const painted = paintFlats(sheet.flats);
  const wanted = [...nearest(sheet, at)].slice(0, Math.max(1, Math.round(n)));
  for (const i of wanted) painted.data[4 * i + 3] = 1 + Math.floor(254 * sheet.random());
  return { flats: painted, at: new Set(wanted) };
}

function forcedSeam(sheet, n) {
  const { ink, labels } = sheet;
  for (let attempt = 0; attempt < 20; attempt++) {
    const line = chord(sheet, [0.8 * n, 1.3 * n]);
    if (line === undefined) return undefined;
    const split = splitRegion(labels, labels.data[line.middle], line.ends, { ink });
    const made = split.data.reduce((most, id) => Math.max(most, id), 0);
    if (labels.data.includes(made)) continue; // the line divides nothing
    const indices = sheet.flats.indices.data.slice();
    const swatch = another(sheet, indices[line.middle]);
    if (swatch === indices[line.middle]) return undefined;
    for (let i = 0; i < indices.length; i++) if (split.data[i] === made) indices[i] = swatch;
    const bridge = { from: line.ends[0], to: line.ends[1], drawn: true, forced: true };
    const report = { bridges: [bridge], unnamed: [] };
    return { flats: withIndices(sheet, indices), report, at: line.pixels };
  }
  return undefined;
}

function leaveOut(sheet) {
  const { random, pixels, labels, flats, width } = sheet;
  const plan = draftPlan(sheet);
  const own = plan.marks.filter(({ swatch }) => swatch !== flats.ground);
  if (own.length < 2) return undefined;
  const gone = own[Math.floor(random() * own.length)];
  const [x, y] = gone.point.map(Math.floor);
  const id = labels.data[y * width + x];
  const marks = plan.marks.filter((mark) => mark !== gone);
  const laid = layFlats(pixels, { plan: { ...plan, marks } });
  const at = new Set();
  for (let i = 0; i < labels.data.length; i++) if (labels.data[i] === id) at.add(i);
  return { flats: laid.flats, report: laid.report, palette: undefined, at };
}

function secondMark(sheet) {
  const { ink, pixels, flats, width } = sheet;
  const plan = draftPlan(sheet);
  const at = anyPixel(sheet, (i) => ink.data[i] === 0);
  if (at === undefined) return undefined;
  const index = another(sheet, flats.indices.data[at]);
  const { name: swatch } = flats.palette[index];
  const point = [(at % width) + 0.5, Math.floor(at / width) + 0.5];
  const laid = layFlats(pixels, { plan: { ...plan, marks: [...plan.marks, { point, swatch }] } });
  const got = laid.flats.palette[laid.flats.indices.data[at]].name;
  // What gets its own swatch was parted off by a forced bridge, or nobody else had named it.
  if (got === swatch) return undefined;
  return { flats: laid.flats, report: laid.report, palette: undefined, at: new Set([at]) };
}

function alike(sheet, n) {
  const { data } = sheet.flats.indices;
  const { width } = sheet;
  const isBorder = (i) => data[i] !== data[i + 1] || data[i] !== data[i + width];
  const at = anyPixel(sheet, isBorder);
  if (at === undefined) return undefined;
  const other = data[at + 1] !== data[at] ? data[at + 1] : data[at + width];
  return twoColors(sheet, data[at], other, n);
}

function lookalike(sheet, n) {
  const a = 1 + Math.floor(sheet.random() * (sheet.flats.palette.length - 1));
  const b = another(sheet, a);
  return a === b ? undefined : twoColors(sheet, a, b, n);
}

/** Swatch b gets a color less than n apart from that of a, and as near to that as 8 bits allow. */
function twoColors({ flats, random }, a, b, n) {
  const { color } = flats.palette[a];
  const from = [1, 3, 5].map((k) => Number.parseInt(color.slice(k, k + 2), 16));
  const way = from.map((v) => (v > 127 ? -1 : 1) * random());
  let near;
  for (let step = 1; step < 256; step++) {
    const rgb = from.map((v, c) => Math.max(0, Math.min(255, Math.round(v + way[c] * step))));
    const hex = `#${rgb.map(hexByte).join('')}`;
    if (hex === color) continue;
    if (colorDifference(color, hex) >= n) break;
    near = hex;
  }
  if (near === undefined) return undefined;
  const palette = flats.palette.with(b, { ...flats.palette[b], color: near });
  const swatches = [palette[a].name, palette[b].name];
  return { flats: { ...flats, palette }, palette: undefined, swatches };
}

function lineAcross(sheet, n) {
  const { ink, labels, width, height } = sheet;
  // Edges along a slanted line are more than its length, and up to two at its ends less.
  const line = chord(sheet, n < LEAST_LINE ? [0.5 * n, n] : [n + 2, 1.4 * n + 2]);
  if (line === undefined) return undefined;
  const split = splitRegion(labels, labels.data[line.middle], line.ends, { ink });
  // Both parts must have paper beside the line, or it parts nothing.
  const left = new Map();
  for (let i = 0; i < split.data.length; i++) {
    if (labels.data[i] !== labels.data[line.middle]) continue;
    const isPaper = ink.data[i] === 0 && !line.pixels.has(i);
    left.set(split.data[i], (left.get(split.data[i]) ?? 0) + Number(isPaper));
  }
  if (left.size < 2 || [...left.values()].some((paper) => paper < n)) return undefined;
  const inked = ink.data.slice();
  for (const i of line.pixels) inked[i] = 1;
  const thresholds = { minLength: LEAST_LINE };
  return { flats: sheet.flats, ink: raster(inked, [width, height]), thresholds, at: line.pixels };
}

function opening(sheet, n) {
  const { labels, flats } = sheet;
  const open = seamOpened(sheet, n);
  if (open === undefined) return undefined;
  const indices = flats.indices.data.slice();
  const swatch = indices[labels.data.indexOf(open.ids[0])];
  for (let i = 0; i < indices.length; i++)
    if (open.ids.includes(labels.data[i])) indices[i] = swatch;
  return { flats: withIndices(sheet, indices), ink: open.ink, at: open.erased };
}

function wipeOut(sheet) {
  const { flats, random } = sheet;
  if (flats.palette.length < 3) return undefined;
  const gone = 1 + Math.floor(random() * (flats.palette.length - 1));
  const by = another(sheet, gone);
  const indices = flats.indices.data.map((index) => (index === gone ? by : index));
  return { flats: withIndices(sheet, indices), swatches: [flats.palette[gone].name] };
}

function withIndices({ flats, width, height }, data) {
  return { ...flats, indices: raster(data, [width, height]) };
}

/** Another swatch than `index`, at random. */
function another({ flats, random }, index) {
  const others = flats.palette.map((_, k) => k).filter((k) => k > 0 && k !== index);
  return others[Math.floor(random() * others.length)] ?? index;
}

function hexByte(value) {
  return value.toString(16).padStart(2, '0');
}
