import { ciede2000 } from '../color/color-difference.ts';
import type { Lab } from '../color/lab.ts';
import { leastDifference } from '../color/least-difference.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import { type ColorRuns, TICK_RUNS } from './color-runs.ts';
import { gatherColors, isArea, type MergedColor } from './gather-colors.ts';
import { compareColors, labOfWord } from './words.ts';

/** Code of what is transparent; 0 is a blended pixel, solid colors come after. */
export const CLEAR_CODE = 1;

/** More codes than a Uint16 holds. */
const MOST_CODES = 65_536;

/** Which pixels are solid, and in which color. */
export interface Solid {
  /** Code of each pixel: 0 for a blended one. */
  readonly codes: Uint16Array;
  /** Word of each code; of 0 and 1, 0. */
  readonly colors: Uint32Array;
  /** Code of each color of the runs: 0 for one that is not solid. */
  readonly codeOf: Uint16Array;
  readonly merged: readonly MergedColor[];
}

/**
 * The solid colors of a picture that have an area; those less than `limit` apart as one. With none,
 * the most frequent color is solid.
 */
export function areaColors(
  runs: ColorRuns,
  size: number,
  limit: number,
  name = 'pixels',
  tick?: Tick,
): Solid {
  const { colors: count } = runs;
  const codeOf = new Uint16Array(count);
  const { centers, merged } = gatherColors(runs, limit, partOf(tick, 0, 0.5));
  const own: number[] = [0, 0];
  for (let k = 0; k < count; k++) {
    if (runs.words[k] === 0) codeOf[k] = CLEAR_CODE;
    else if (isArea(runs, k) && centers[k] === k) codeOf[k] = addCode(own, runs.words[k]!, name);
  }
  for (let k = 0; k < count; k++) if (isArea(runs, k)) codeOf[k] = codeOf[centers[k]!]!;
  const most = own.length > 2 ? -1 : mostFrequent(runs);
  if (most >= 0) codeOf[most] = addCode(own, runs.words[most]!, name);
  const codes = new Uint16Array(size);
  paint(codes, runs, codeOf, partOf(tick, 0.5, 1));
  return { codes, colors: Uint32Array.from(own), codeOf, merged };
}

/** The same with some colors of the runs. Changes the codes and the table of codes. */
export function withColorsOf(
  more: readonly number[],
  runs: ColorRuns,
  solid: Solid,
  name = 'pixels',
  tick?: Tick,
): Solid {
  if (more.length === 0) return solid;
  const { codes, codeOf, colors } = solid;
  const own = [...colors];
  for (const k of more) codeOf[k] = addCode(own, runs.words[k]!, name);
  paint(codes, runs, codeOf, tick);
  return { ...solid, colors: Uint32Array.from(own) };
}

/** The same with more colors, which have no pixels yet. */
export function withColors(solid: Solid, more: readonly number[]): Solid {
  const own = [...solid.colors];
  for (const word of more) addCode(own, word, 'pixels');
  return { ...solid, colors: Uint32Array.from(own) };
}

/** The pixels of a palette's colors; an area of another color counts as its nearest one's. */
export function paletteColors(
  runs: ColorRuns,
  size: number,
  palette: readonly number[],
  tick?: Tick,
): Solid {
  const own = Uint32Array.from([0, 0, ...palette.map((rgb) => (rgb | 0xff000000) >>> 0)]);
  const codeOf = new Uint16Array(runs.colors);
  const exact = new Map<number, number>();
  for (let code = own.length - 1; code > CLEAR_CODE; code--) exact.set(own[code]!, code);
  const labs = Array.from(own, labOfWord);
  const finding = partOf(tick, 0, 0.5);
  for (let k = 0; k < runs.colors; k++) {
    if (k % 256 === 0) finding?.(k / runs.colors);
    const word = runs.words[k]!;
    if (word === 0) codeOf[k] = CLEAR_CODE;
    else codeOf[k] = exact.get(word) ?? (isArea(runs, k) ? nearestOf(labOfWord(word), labs) : 0);
  }
  const codes = new Uint16Array(size);
  paint(codes, runs, codeOf, partOf(tick, 0.5, 1));
  return { codes, colors: own, codeOf, merged: [] };
}

/** Code of the color that looks nearest, ties to the first; that of transparency with none. */
export function nearestOf(lab: Lab, labs: readonly Lab[]): number {
  let best = CLEAR_CODE;
  let least = Number.POSITIVE_INFINITY;
  for (let code = CLEAR_CODE + 1; code < labs.length; code++) {
    if (leastDifference(lab, labs[code]!) >= least) continue;
    const difference = ciede2000(lab, labs[code]!);
    if (difference >= least) continue;
    least = difference;
    best = code;
  }
  return best;
}

function addCode(own: number[], word: number, name: string): number {
  if (own.length === MOST_CODES) {
    throw new RangeError(`${name} must hold at most ${MOST_CODES - 2} solid colors, got more`);
  }
  own.push(word);
  return own.length - 1;
}

/** The opaque color of most pixels, ties to the first in the order of colors; -1 with none. */
function mostFrequent({ words, pixels, colors }: ColorRuns): number {
  let best = -1;
  for (let k = 0; k < colors; k++) {
    if (words[k]! >>> 24 !== 255) continue;
    const more = best < 0 ? 1 : pixels[k]! - pixels[best]!;
    if (more > 0 || (more === 0 && compareColors(words[k]!, words[best]!) < 0)) best = k;
  }
  return best;
}

function paint(codes: Uint16Array, runs: ColorRuns, codeOf: Uint16Array, tick?: Tick): void {
  const { start, color, count } = runs;
  for (let r = 0; r < count; r++) {
    if (r % TICK_RUNS === 0) tick?.(r / count);
    const code = codeOf[color[r]!]!;
    if (code === 0) continue;
    const from = start[r]!;
    const to = start[r + 1]!;
    if (to - from > 24) codes.fill(code, from, to);
    else for (let i = from; i < to; i++) codes[i] = code;
  }
}
