import { ciede2000 } from '../color/color-difference.ts';
import { type Lab, labOfRgb } from '../color/lab.ts';
import { leastDifference } from '../color/least-difference.ts';
import type { Tick } from '../raster/progress.ts';
import { type ColorRuns, TICK_RUNS } from './color-runs.ts';
import { isSpot } from './noise.ts';
import { CLEAR_CODE, type Solid } from './solid-colors.ts';
import { labOfWord } from './words.ts';

/** Samples of a flat spot, 3 × 3 pixels, differ by no more than this: little noise first, then much. */
export const RANGES: readonly number[] = [10, 20];
/** Spots that make a color. */
const LEAST_SPOTS = 4;
/** CIEDE2000 within which noise moves a color. */
export const NOISE_DIFFERENCE = 5;
/** Bits of each sample that tell a bin. */
const BITS = 4;

/**
 * Colors of areas that noise has left nowhere quite even: the means of the commonest among spots
 * that are nearly even, each farther than noise from those before. `rest` are the pixels to look at,
 * ascending. O(rest + colors found · bins).
 */
export function noisyColors(
  words: Uint32Array,
  width: number,
  height: number,
  rest: Int32Array,
  colors: Uint32Array,
  range: number,
  tick?: Tick,
): number[] {
  const counts = new Int32Array(1 << (3 * BITS));
  const sums = new Float64Array(3 * counts.length);
  const drop = 8 - BITS;
  for (let k = 0; k < rest.length; k++) {
    if (k % TICK_RUNS === 0) tick?.(k / rest.length);
    const i = rest[k]!;
    if (!isSpot(words, i, width, height, range)) continue;
    const word = words[i]!;
    const [r, g, b] = [word & 255, (word >>> 8) & 255, (word >>> 16) & 255];
    const bin = ((r >> drop) << (2 * BITS)) | ((g >> drop) << BITS) | (b >> drop);
    counts[bin]!++;
    sums[3 * bin]! += r;
    sums[3 * bin + 1]! += g;
    sums[3 * bin + 2]! += b;
  }
  const labs = Array.from(colors.subarray(2), labOfWord);
  const bins = [...counts.keys()].filter((bin) => counts[bin]! >= LEAST_SPOTS);
  bins.sort((a, b) => counts[b]! - counts[a]! || a - b);
  const found: number[] = [];
  for (const bin of bins) {
    const [r, g, b] = [0, 1, 2].map((c) => Math.round(sums[3 * bin + c]! / counts[bin]!));
    const lab = labOfRgb(r!, g!, b!);
    if (isNoiseOn(labs, lab)) continue;
    labs.push(lab);
    found.push((r! | (g! << 8) | (b! << 16) | 0xff000000) >>> 0);
  }
  return found;
}

/**
 * Codes of the runs' colors, where a line that somebody meant counts as solid: a color of `lines` that
 * is farther than noise from every color with an area.
 */
export function withoutMeant(
  { words }: ColorRuns,
  { codeOf, colors }: Solid,
  lines: readonly number[],
): Uint16Array {
  if (lines.length === 0) return codeOf;
  const labs = Array.from(colors.subarray(2), labOfWord);
  const own = codeOf.slice();
  for (const k of lines) if (!isNoiseOn(labs, labOfWord(words[k]!))) own[k] = CLEAR_CODE;
  return own;
}

function isNoiseOn(labs: readonly Lab[], lab: Lab): boolean {
  return labs.some(
    (other) =>
      leastDifference(lab, other) < NOISE_DIFFERENCE && ciede2000(lab, other) < NOISE_DIFFERENCE,
  );
}
