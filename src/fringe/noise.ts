import type { Tick } from '../raster/progress.ts';
import { someBlends, TICK_RUNS } from './color-runs.ts';
import { Mixer, TICK_BLENDS } from './mixer.ts';
import type { Solid } from './solid-colors.ts';
import { compareColors } from './words.ts';

/** Noise moves a color by no more than this, in steps of 8 bit … */
const MOST_NOISE = 24;
/** … and by no more than this share of the way to another color. */
const MOST_NOISE_SHARE = 0.3;

/**
 * Whether a picture is noisy, as lossy compression leaves it: noise reaches into areas, while the
 * blends of a clean edge, two pixels wide at most, have both its colors within 2 pixels. A picture is
 * noisy where more than one blend in eight has not; of many, 20,000 are looked at.
 */
export function isNoisy(
  words: Uint32Array,
  solid: Solid,
  width: number,
  height: number,
  blends: Int32Array,
  tick?: Tick,
): boolean {
  const mixer = new Mixer(words, solid, width, height, 'srgb');
  const asked = someBlends(blends, width, height, tick);
  let lone = 0;
  for (let k = 0; k < asked.length; k++) if (mixer.isLone(asked[k]!)) lone++;
  return 8 * lone > asked.length;
}

/**
 * Gives noisy pixels the code of an area that they touch and whose color they nearly have, round by
 * round from the areas inwards; of several areas the one nearest in color, ties to the first in
 * the order of colors. Changes the codes; gives the pixels that are left, in ascending order.
 */
export function settleNoise(
  words: Uint32Array,
  solid: Solid,
  width: number,
  height: number,
  blends: Int32Array,
  tick?: Tick,
): Int32Array {
  const { codes, colors } = solid;
  const reach = reachOf(colors);
  const mixer = new Mixer(words, solid, width, height, 'srgb');
  let front = blends.slice();
  const waiting = new Uint8Array(words.length);
  let next = new Int32Array(blends.length);
  const settled = new Int32Array(blends.length);
  const given = new Uint16Array(blends.length);
  let size = front.length;
  let total = 0;
  while (size > 0) {
    let done = 0;
    for (let k = 0; k < size; k++) {
      if (k % TICK_BLENDS === 0) tick?.(total / blends.length);
      const i = front[k]!;
      waiting[i] = 0;
      const code = mixer.nearestTouching(i);
      if (code === 0 || mixer.distance(code) > reach[code]!) continue;
      settled[done] = i;
      given[done++] = code;
    }
    for (let k = 0; k < done; k++) codes[settled[k]!] = given[k]!;
    total += done;
    size = 0;
    for (let k = 0; k < done; k++) {
      if (k % TICK_RUNS === 0) tick?.(total / blends.length);
      const i = settled[k]!;
      const x = i % width;
      const x1 = x < width - 1 ? 1 : 0;
      for (let row = i - width; row <= i + width; row += width) {
        if (row < 0 || row >= words.length) continue;
        for (let j = row - (x > 0 ? 1 : 0); j <= row + x1; j++) {
          if (codes[j] !== 0 || waiting[j] === 1) continue;
          waiting[j] = 1;
          next[size++] = j;
        }
      }
    }
    [front, next] = [next, front];
  }
  return blends.filter((i) => codes[i] === 0);
}

/**
 * Gives the pixels of nearly even spots, 3 × 3, the code of the color that they nearly have, wherever
 * it is known from; the nearest one, looked up by the upper 6 bits of each sample.
 */
export function seedNoise(
  words: Uint32Array,
  { codes, colors }: Solid,
  width: number,
  height: number,
  blends: Int32Array,
  range: number,
  tick?: Tick,
): void {
  const reach = reachOf(colors);
  const known = new Uint16Array(1 << 18);
  for (let k = 0; k < blends.length; k++) {
    if (k % TICK_RUNS === 0) tick?.(k / blends.length);
    const i = blends[k]!;
    if (codes[i] !== 0 || !isSpot(words, i, width, height, range)) continue;
    const word = words[i]!;
    const bin = ((word >>> 2) & 63) | ((word >>> 4) & 0xfc0) | ((word >>> 6) & 0x3f000);
    let code = known[bin]!;
    if (code === 0) {
      code = nearestCode((word & 0xfffcfcfc) | 0x020202, colors);
      known[bin] = code;
    }
    if (code > 1 && squaredDistance(word, colors[code]!) <= reach[code]!) codes[i] = code;
  }
}

/** The code of the color at the least distance, ties to the first in the order of colors; 1 with none. */
function nearestCode(word: number, colors: Uint32Array): number {
  let best = 1;
  let least = Number.POSITIVE_INFINITY;
  for (let code = 2; code < colors.length; code++) {
    const d = squaredDistance(word, colors[code]!);
    if (d > least || (d === least && compareColors(colors[code]!, colors[best]!) > 0)) continue;
    least = d;
    best = code;
  }
  return best;
}

/** Whether the samples of the 3 × 3 pixels round one differ from its own by no more than `range`. */
export function isSpot(
  words: Uint32Array,
  i: number,
  width: number,
  height: number,
  range: number,
): boolean {
  const x = i % width;
  const y = (i - x) / width;
  if (x === 0 || y === 0 || x === width - 1 || y === height - 1) return false;
  const word = words[i]!;
  for (let row = i - width; row <= i + width; row += width) {
    for (let j = row - 1; j <= row + 1; j++) {
      const other = words[j]!;
      if (other === word) continue;
      if (Math.abs((other & 255) - (word & 255)) > range) return false;
      if (Math.abs(((other >>> 8) & 255) - ((word >>> 8) & 255)) > range) return false;
      if (Math.abs(((other >>> 16) & 255) - ((word >>> 16) & 255)) > range) return false;
      if (other >>> 24 !== word >>> 24) return false;
    }
  }
  return true;
}

/** Squared distance within which a pixel has the color of each code but for noise. */
function reachOf(colors: Uint32Array): Float64Array {
  return Float64Array.from(colors, (word, code) => {
    let least = MOST_NOISE * MOST_NOISE;
    if (code < 2) return 0;
    for (let other = 2; other < colors.length; other++) {
      const d = squaredDistance(word, colors[other]!);
      if (d > 0 && d * MOST_NOISE_SHARE * MOST_NOISE_SHARE < least)
        least = d * MOST_NOISE_SHARE * MOST_NOISE_SHARE;
    }
    return least;
  });
}

function squaredDistance(a: number, b: number): number {
  const dr = (a & 255) - (b & 255);
  const dg = ((a >>> 8) & 255) - ((b >>> 8) & 255);
  const db = ((a >>> 16) & 255) - ((b >>> 16) & 255);
  return dr * dr + dg * dg + db * db;
}
