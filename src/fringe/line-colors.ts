import type { ColorRuns } from './color-runs.ts';
import { Mixer, TOLERANCE } from './mixer.ts';

/** A line or a dot has at least so many pixels. */
const LEAST_PIXELS = 4;
/** A straight line of no mixed color at least so many. */
const LEAST_LINE = 6;

/**
 * Colors without an area that are solid all the same, in ascending order. Evidence is that the very
 * same color recurs along a line, where a blend would vary:
 *
 * - on a line that bends: a quarter of the color's pixels, and four at least, have two neighbours of
 *   it that do not lie opposite. The blends of an edge repeat along straight lines only.
 * - on a straight line inside one area: three quarters of six pixels or more touch another of them,
 *   and most have one solid color round them, and are no mix of it with another one near. A straight
 *   edge repeats one blend too, but has two sides.
 *
 * O(pixels of such colors).
 */
export function lineColors(
  words: Uint32Array,
  codes: Uint16Array,
  width: number,
  height: number,
  runs: ColorRuns,
  codeOf: Uint16Array,
  colors: Uint32Array,
): number[] {
  const { start, color, count, pixels } = runs;
  const bent = new Int32Array(runs.colors);
  const touching = new Int32Array(runs.colors);
  for (let r = 0; r < count; r++) {
    const k = color[r]!;
    if (!mayBeLine(k)) continue;
    for (let i = start[r]!; i < start[r + 1]!; i++) {
      const around = sameAround(words, i, width, height);
      if (around === 0) continue;
      touching[k]!++;
      if (bends(around)) bent[k]!++;
    }
  }
  const found = new Uint8Array(runs.colors);
  const straight = new Uint8Array(runs.colors);
  let tried = false;
  for (let k = 0; k < runs.colors; k++) {
    if (!mayBeLine(k)) continue;
    if (bent[k]! >= LEAST_PIXELS && 4 * bent[k]! >= pixels[k]!) found[k] = 1;
    else if (pixels[k]! >= LEAST_LINE && 4 * touching[k]! >= 3 * pixels[k]!) {
      straight[k] = 1;
      tried = true;
    }
  }
  if (tried) {
    const mixer = new Mixer(words, codes, width, height, colors, 'srgb', TOLERANCE);
    const strange = new Int32Array(runs.colors);
    for (let r = 0; r < count; r++) {
      if (straight[color[r]!] === 0) continue;
      for (let i = start[r]!; i < start[r + 1]!; i++) {
        if (liesInArea(words, codes, i, width, height) && !mixer.solve(i)) strange[color[r]!]!++;
      }
    }
    for (let k = 0; k < runs.colors; k++) {
      if (straight[k] === 1 && 2 * strange[k]! > pixels[k]!) found[k] = 1;
    }
  }
  return [...found.keys()].filter((k) => found[k] === 1);

  function mayBeLine(k: number): boolean {
    return codeOf[k] === 0 && pixels[k]! >= LEAST_PIXELS && runs.words[k]! >>> 24 === 255;
  }
}

/** A bit for each of the 8 neighbours of the same word, clockwise from the right one. */
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

/** Whether all neighbours but those of the same word are of one solid color. */
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

/** Whether there are two neighbours, and not just two that lie opposite. */
function bends(around: number): boolean {
  if ((around & (around - 1)) === 0) return false;
  return around !== 17 && around !== 34 && around !== 68 && around !== 136;
}
