import { partOf, type Tick } from '../raster/progress.ts';
import { type ColorRuns, colorRuns, TICK_RUNS } from './color-runs.ts';
import { Mixer, TICK_BLENDS } from './mixer.ts';
import { areaColors, type Solid, withColorsOf } from './solid-colors.ts';

/** A line or a dot has at least so many pixels. */
const LEAST_PIXELS = 4;
/** A straight line of no mixed color at least so many. */
const LEAST_LINE = 6;

/** The runs of a picture and its solid colors: those with an area, then those of lines. */
export function readSolid(
  words: Uint32Array,
  width: number,
  height: number,
  name?: string,
): { runs: ColorRuns; solid: Solid } {
  const runs = colorRuns(words, width, height);
  const areas = areaColors(runs, words.length, 0, name);
  const lines = lineColors(words, width, height, runs, areas);
  return { runs, solid: withColorsOf(lines, runs, areas, name) };
}

/**
 * Colors without an area that are solid all the same, in ascending order. Evidence is that the very
 * same color recurs along a line, where a blend would vary:
 *
 * - on a line that bends: a quarter of the color's pixels, and four at least, have two neighbors of
 *   it that do not lie opposite, and are no mix of two solid colors that touch them. The blends of an
 *   edge repeat along straight lines, and a few of them beside one another by chance.
 * - on a straight line inside one area: three quarters of six pixels or more touch another of them,
 *   and most have one solid color round them, and are no mix of it with another one near, or with a
 *   little of one anywhere. A straight edge repeats one blend too, but has two sides; two edges that
 *   lie on one another inside an area let a little of what is under them through.
 *
 * O(pixels of such colors).
 */
export function lineColors(
  words: Uint32Array,
  width: number,
  height: number,
  runs: ColorRuns,
  solid: Solid,
  tick?: Tick,
): number[] {
  const { start, color, count, pixels } = runs;
  const bent = new Int32Array(runs.colors);
  const touching = new Int32Array(runs.colors);
  const first = partOf(tick, 0, 0.4);
  for (let r = 0; r < count; r++) {
    if (r % TICK_RUNS === 0) first?.(r / count);
    const k = color[r]!;
    if (!mayBeLine(k)) continue;
    for (let i = start[r]!; i < start[r + 1]!; i++) {
      const around = sameAround(words, i, width, height);
      if (around === 0) continue;
      touching[k]!++;
      if (bends(around)) bent[k]!++;
    }
  }
  const mayBend = pixels.map((n, k) => Number(isMuch(bent[k]!, n)));
  const mayBeStraight = pixels.map((n, k) => Number(n >= LEAST_LINE && 4 * touching[k]! >= 3 * n));
  const lights = [
    new Mixer(words, solid, width, height, 'srgb'),
    new Mixer(words, solid, width, height, 'linear'),
  ];
  const strange = new Int32Array(runs.colors);
  bent.fill(0);
  const last = partOf(tick, 0.4, 1);
  for (let r = 0, looked = TICK_BLENDS; r < count; r++) {
    if (looked >= TICK_BLENDS || r % TICK_RUNS === 0) {
      last?.(r / count);
      looked = 0;
    }
    const k = color[r]!;
    if (mayBend[k] === 0 && mayBeStraight[k] === 0) continue;
    looked += start[r + 1]! - start[r]!;
    for (let i = start[r]!; i < start[r + 1]!; i++) {
      if (mayBend[k] === 1 && bends(sameAround(words, i, width, height))) {
        if (!lights.some((mixer) => mixer.touchesMix(i))) bent[k]!++;
      }
      if (mayBeStraight[k] === 1 && liesInArea(words, solid.codes, i, width, height)) {
        if (!lights.some((mixer) => mixer.solveInArea(i))) strange[k]!++;
      }
    }
  }
  const found: number[] = [];
  for (let k = 0; k < runs.colors; k++) {
    if (isMuch(bent[k]!, pixels[k]!) || 2 * strange[k]! > pixels[k]!) found.push(k);
  }
  return found;

  function mayBeLine(k: number): boolean {
    return solid.codeOf[k] === 0 && pixels[k]! >= LEAST_PIXELS && runs.words[k]! >>> 24 === 255;
  }
}

function isMuch(bent: number, pixels: number): boolean {
  return bent >= LEAST_PIXELS && 4 * bent >= pixels;
}

/** A bit for each of the 8 neighbors of the same word, clockwise from the right one. */
function sameAround(words: Uint32Array, i: number, width: number, height: number): number {
  const x = i % width;
  const y = (i - x) / width;
  const word = words[i]!;
  const left = x > 0;
  const right = x < width - 1;
  let bits = 0;
  if (right && words[i + 1] === word) bits |= 1;
  if (left && words[i - 1] === word) bits |= 16;
  if (y < height - 1) {
    const below = i + width;
    if (right && words[below + 1] === word) bits |= 2;
    if (words[below] === word) bits |= 4;
    if (left && words[below - 1] === word) bits |= 8;
  }
  if (y > 0) {
    const above = i - width;
    if (left && words[above - 1] === word) bits |= 32;
    if (words[above] === word) bits |= 64;
    if (right && words[above + 1] === word) bits |= 128;
  }
  return bits;
}

/** Whether all neighbors but those of the same word are of one solid color. */
function liesInArea(
  words: Uint32Array,
  codes: Uint16Array,
  i: number,
  width: number,
  height: number,
): boolean {
  const x = i % width;
  const y = (i - x) / width;
  let own = 0;
  for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++) {
    for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++) {
      const j = v * width + u;
      if (words[j] === words[i]) continue;
      const code = codes[j]!;
      if (code === 0 || (own !== 0 && code !== own)) return false;
      own = code;
    }
  }
  return own !== 0;
}

/** Whether there are two neighbors, and not just two that lie opposite. */
function bends(around: number): boolean {
  if ((around & (around - 1)) === 0) return false;
  return around !== 17 && around !== 34 && around !== 68 && around !== 136;
}
