// Drawings with gaps and their truth: `loadCases` makes them once and keeps them on disk.
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { deflateSync, inflateSync } from 'node:zlib';
import { labelRegions, raster, strokeWidth } from 'underink';
import { findBorders } from './borders.mjs';
import { drawBrush } from './brush.mjs';
import { cutAgain, cutGaps } from './cut.mjs';
import { drawGlyph, glyphDrawings } from './glyph.mjs';
import { brushDrawings, HALVES, openmojiDrawings, openmojiVersion } from './halves.mjs';
import { drawHand, drawHandAgain } from './hand.mjs';
import { drawNib, nibDrawings } from './nib.mjs';
import { findSites } from './sites.mjs';
import { drawVector, penOf } from './vector.mjs';

export const SETS = ['vector', 'hand', 'brush', 'nib', 'glyph'];
/** Those that are reported where no others are asked for; `nib` and `glyph` are to train on. */
export const REPORTED = ['vector', 'hand', 'brush'];
/** Those whose drawings are drawn at the size asked for. */
const SIZED = ['vector', 'hand', 'nib'];
/** Those whose drawings can be drawn twice as large. */
const DOUBLED = ['vector', 'hand'];
/** Openings of the gaps in pixels; 0 is the drawing without any, the control. */
export const GAPS = [0, 2, 4, 6, 8, 12, 16, 24];
/** All openings that are cut; 3 and 10 for the bench of points. */
const OPENINGS = [2, 3, 4, 6, 8, 10, 12, 16, 24];
/** Pixels of the least true region. */
export const LEAST = { vector: 12, hand: 12, brush: 60, nib: 60, glyph: 30 };
/** True regions that a drawing has at least, so that three gaps can each join two. */
const FEWEST = { vector: 4, hand: 4, brush: 2, nib: 4, glyph: 4 };

/**
 * Cases of the bench, drawing by drawing, gap by gap:
 *
 * - `set, half, group, name, gap`: where it is from; `gap` is the nominal opening, 0 for the control;
 * - `width, height`, and the rasters `intact` and `ink` (Uint8, 1 is ink) of the drawing without and
 *   with gaps, and `truth` (Int32), the true regions 1..`count`; `colors` (Int32, 0xrrggbb) of the
 *   artist in the set `brush`. The cases of one drawing share `intact`, `truth` and `colors`;
 * - `pen`: median width of the strokes; `scale`: 2 for doubled drawings, else 1;
 * - `gaps`: what was cut, `{ x, y, direction, opening, width, kind, ends, slope, regions }` each.
 *
 * A drawing that has no place for three gaps of an opening has no case of it.
 *
 * @param options.sets - Of `SETS`. `REPORTED` by default.
 * @param options.gaps - Of `GAPS`. All by default.
 * @param options.half - `tune` or `report`.
 * @param options.drawings - At most so many drawings of each set.
 * @param options.size - Sides of the drawings of `vector` and `hand`, and about those of `nib`: 512
 *   or 1024. Strokes are 3 to 14 pixels wide in both, 2 to 11 in `nib`.
 * @param options.doubled - With `size` 1024, strokes and openings are twice those at 512, so that
 *   the drawings are those of 512, twice as large; `gap` stays the opening at 512. For `vector` and
 *   `hand`.
 */
export async function loadCases({
  sets = REPORTED,
  gaps = GAPS,
  half = 'tune',
  drawings = 120,
  size = 512,
  doubled = false,
} = {}) {
  const cases = [];
  for await (const some of eachDrawing({ sets, gaps, half, drawings, size, doubled })) {
    cases.push(...some);
  }
  return cases;
}

/** The same, the cases of one drawing at a time. */
export async function* eachDrawing({ sets, gaps, half, drawings, size, doubled }) {
  for (const set of sets) checkOneOf('sets', set, SETS);
  for (const gap of gaps) checkOneOf('gaps', gap, [0, ...OPENINGS]);
  checkOneOf('half', half, HALVES);
  checkOneOf('size', size, [512, 1024]);
  if (doubled && size !== 1024) throw new RangeError(`doubled needs size 1024, got ${size}`);
  if (doubled) for (const set of sets) checkOneOf('sets of doubled drawings', set, DOUBLED);
  for (const set of sets) {
    const mine = drawingsOf(set).filter((drawing) => drawing.half === half);
    let count = 0;
    for (const drawing of mine) {
      if (count === drawings) break;
      const stored = readStored(set, drawing, SIZED.includes(set) ? size : 0, doubled);
      if (stored === undefined) continue;
      count++;
      yield unpack(stored, set, drawing, gaps);
    }
  }
}

function drawingsOf(set) {
  if (set === 'brush') return brushDrawings();
  if (set === 'glyph') return glyphDrawings();
  return set === 'nib' ? nibDrawings() : openmojiDrawings();
}

function checkOneOf(name, value, allowed) {
  if (!allowed.includes(value)) {
    throw new RangeError(`${name} must be of ${allowed.join(', ')}, got ${value}`);
  }
}

/** A folder per state of the makers, so that what another state made is never read. */
const folder = (() => {
  const here = new URL('.', import.meta.url);
  const makers = readdirSync(here).filter((file) =>
    /^(blacks|borders|brush|cut|dataset|details|field|glyph|halves|hand|marks|nib|pen|random|shapes|sites|thick-thin|twins|vector)\.mjs$/.test(
      file,
    ),
  );
  const hash = createHash('sha256').update(openmojiVersion());
  for (const file of makers.sort()) hash.update(readFileSync(new URL(file, here)));
  return join(tmpdir(), `underink-gaps-${hash.digest('hex').slice(0, 12)}`);
})();

/** What is kept of a drawing; undefined for one without place for gaps. */
function readStored(set, drawing, size, doubled) {
  mkdirSync(folder, { recursive: true });
  const key = `${set} ${drawing.group} ${drawing.name} ${size} ${doubled}`;
  const file = join(folder, createHash('sha256').update(key).digest('hex').slice(0, 20));
  if (!existsSync(file)) {
    const made = make(set, drawing, size, doubled);
    writeFileSync(`${file}.${process.pid}`, deflateSync(serialize(made), { level: 6 }));
    renameSync(`${file}.${process.pid}`, file);
  }
  return deserialize(inflateSync(readFileSync(file)));
}

function make(set, drawing, size, doubled) {
  if (doubled) return makeDoubled(set, drawing, size / 2);
  const drawn = draw(set, drawing, size);
  const place = drawn && prepare(set, drawing, drawn, 1);
  if (place === undefined) return undefined;
  const cuts = OPENINGS.flatMap((gap) => {
    const cut = cutGaps(place, place.sites, gap, `${place.seed} ${gap}`);
    return cut === undefined ? [] : [{ gap, ...cut }];
  });
  return cuts.length === 0 ? undefined : pack(place, cuts);
}

/** The drawing of half the size again, with the same gaps, all twice as large. */
function makeDoubled(set, drawing, size) {
  const small = readStored(set, drawing, size, false);
  if (small === undefined) return undefined;
  const pen = penOf(drawing);
  const drawn =
    set === 'hand' ? drawHandAgain(drawing, size, pen, 2) : drawVector(drawing, 2 * size, 2 * pen);
  const place = prepare(set, drawing, drawn, 2);
  if (place === undefined) return undefined;
  const cuts = small.cuts.flatMap(({ gap, gaps }) => {
    const cut = cutAgain(place, place.sites, gaps, 2);
    return cut === undefined ? [] : [{ gap, ...cut }];
  });
  return pack(place, cuts);
}

function draw(set, drawing, size) {
  if (set === 'brush') return drawBrush(drawing);
  if (set === 'glyph') return drawGlyph(drawing);
  if (set === 'nib') return drawNib(drawing, size);
  return (set === 'hand' ? drawHand : drawVector)(drawing, size, penOf(drawing));
}

/** What cutting needs to know about a drawing; undefined for one of too few regions. */
function prepare(set, drawing, { width, height, ink, colors }, scale) {
  const least = LEAST[set] * scale * scale;
  const { truth, count } = trueRegions(ink, width, height, least);
  if (count < FEWEST[set]) return undefined;
  const { median } = strokeWidth(raster(ink, [width, height]));
  const { grown, chains } = findBorders(truth, width, height);
  // Blots are no strokes: a gap crosses at most two and a half pens.
  const widest = Math.min(40 * scale, Math.max(2, 1.25 * median));
  const seed = `${drawing.group} ${drawing.name} ${set}`;
  const sites = findSites({ ink, width, height, chains, widest, seed });
  return {
    ink,
    truth,
    grown,
    width,
    height,
    widest,
    chains,
    sites,
    seed,
    least,
    median,
    colors,
    scale,
  };
}

function pack({ width, height, ink, least, median, colors, scale }, cuts) {
  return { width, height, bits: toBits(ink), least, median, colors, scale, cuts };
}

/** Cases of a drawing as it is kept. */
function unpack(stored, set, drawing, gaps) {
  const { width, height, bits, least, median, cuts, colors, scale } = stored;
  const intact = fromBits(bits, width * height);
  const { truth, count } = trueRegions(intact, width, height, least);
  const { half, group, name } = drawing;
  const shared = {
    set,
    half,
    group,
    name,
    width,
    height,
    intact,
    truth,
    count,
    pen: median,
    scale,
  };
  return gaps.flatMap((gap) => {
    if (gap === 0) return [{ ...shared, gap, ink: intact, gaps: [], colors }];
    const cut = cuts.find((one) => one.gap === gap);
    if (cut === undefined) return [];
    const ink = intact.slice();
    for (const i of cut.erased) ink[i] = 0;
    return [{ ...shared, gap, ink, gaps: cut.gaps, colors }];
  });
}

/** 4-connected paper of at least so many pixels, numbered 1..count; 0 elsewhere. */
function trueRegions(ink, width, height, least) {
  const { labels, count: all } = labelRegions(raster(ink, [width, height]), { of: 0 });
  const areas = new Int32Array(all + 1);
  for (let i = 0; i < labels.data.length; i++) areas[labels.data[i]]++;
  let count = 0;
  const ids = areas.map((area, label) => (label > 0 && area >= least ? ++count : 0));
  const truth = labels.data;
  for (let i = 0; i < truth.length; i++) truth[i] = ids[truth[i]];
  return { truth, count };
}

function toBits(mask) {
  const bits = new Uint8Array((mask.length + 7) >> 3);
  for (let i = 0; i < mask.length; i++) bits[i >> 3] |= mask[i] << (i & 7);
  return bits;
}

function fromBits(bits, length) {
  const mask = new Uint8Array(length);
  for (let i = 0; i < length; i++) mask[i] = (bits[i >> 3] >> (i & 7)) & 1;
  return mask;
}
