import { ciede2000 } from '../color/color-difference.ts';
import type { Lab } from '../color/lab.ts';
import { leastDifference } from '../color/least-difference.ts';
import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { MergedColor } from './gather-colors.ts';
import { CLEAR_CODE } from './solid-colors.ts';
import { compareColors, labOfWord } from './words.ts';

/*
 * Compression keeps color at half the resolution, or coarsely, so that beside an edge ink has a tint
 * of what is across and paper one of the ink. Measured on drawings after JPEG of qualities 60 to 85:
 * such a tint is within 10 of the color that it lies on, and fewer than 4 in 10 of its pixels have all their
 * neighbors in it; of areas as small as 80 pixels more than 5 in 10 have.
 */
const TINT_DIFFERENCE = 10;
const LEAST_CORE = 0.4;
/** Share of its border that a tint has with the color that it lies on. */
const LEAST_CONTACT = 0.25;

/** A color that is nowhere but along edges, and what it may lie on. */
interface Tint {
  readonly code: number;
  /** Border with each color near it. */
  readonly contacts: Map<number, number>;
  border: number;
}

/**
 * Gives the pixels of tints the code of the color that they lie on, the nearest of those with more pixels
 * and a fair share of their border; smallest tints first. Changes the codes. O(pixels + tints · colors).
 */
export function mergeSmears(
  codes: Uint16Array,
  colors: Uint32Array,
  width: number,
  height: number,
  tick?: Tick,
): MergedColor[] {
  const { pixels, core } = countCores(codes, colors.length, width, height, tick);
  const labs = Array.from(colors, labOfWord);
  const tints = new Map<number, Tint>();
  for (let code = CLEAR_CODE + 1; code < colors.length; code++) {
    if (pixels[code]! > 0 && core[code]! < LEAST_CORE * pixels[code]!) {
      tints.set(code, { code, contacts: new Map(), border: 0 });
    }
  }
  if (tints.size === 0) return [];
  countContacts(codes, width, tints);
  const order = [...tints.values()].sort(
    (a, b) => pixels[a.code]! - pixels[b.code]! || compareColors(colors[a.code]!, colors[b.code]!),
  );
  const to = Uint16Array.from(colors, (_, code) => code);
  const merged: MergedColor[] = [];
  for (const { code, contacts, border } of order) {
    let best = 0;
    let least = TINT_DIFFERENCE;
    for (const [other, shared] of contacts) {
      if (pixels[other]! <= pixels[code]! || shared < LEAST_CONTACT * border) continue;
      const difference = differenceBelow(labs[code]!, labs[other]!, least);
      if (difference >= least) continue;
      least = difference;
      best = other;
    }
    if (best === 0) continue;
    to[code] = best;
    const [color, into] = [colors[code]!, colors[best]!];
    merged.push({ color, into, difference: least, pixels: pixels[code]! });
  }
  // From the largest tint to the smallest, so that a tint on a tint goes where that one goes.
  for (const { code } of order.reverse()) to[code] = to[to[code]!]!;
  for (let i = 0; i < codes.length; i++) codes[i] = to[codes[i]!]!;
  return merged;
}

/** CIEDE2000, or no less than `most` where that is known sooner. */
function differenceBelow(a: Lab, b: Lab, most: number): number {
  return leastDifference(a, b) >= most ? most : ciede2000(a, b);
}

/** Pixels of each code, and of them those whose eight neighbors have it too. */
function countCores(
  codes: Uint16Array,
  count: number,
  width: number,
  height: number,
  tick?: Tick,
): { pixels: Float64Array; core: Float64Array } {
  const pixels = new Float64Array(count);
  const core = new Float64Array(count);
  for (let y = 0; y < height; y++) {
    if (y % TICK_ROWS === 0) tick?.(y / height);
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const code = codes[i]!;
      pixels[code]!++;
      const inside = x > 0 && y > 0 && x < width - 1 && y < height - 1;
      if (inside && isCore(codes, i, width, code)) core[code]!++;
    }
  }
  return { pixels, core };
}

function isCore(codes: Uint16Array, i: number, width: number, code: number): boolean {
  for (let row = i - width; row <= i + width; row += width) {
    if (codes[row - 1] !== code || codes[row] !== code || codes[row + 1] !== code) return false;
  }
  return true;
}

function countContacts(codes: Uint16Array, width: number, tints: ReadonlyMap<number, Tint>): void {
  const meet = (code: number, other: number): void => {
    const tint = tints.get(code);
    if (tint === undefined) return;
    tint.border++;
    tint.contacts.set(other, (tint.contacts.get(other) ?? 0) + 1);
  };
  for (let i = 0; i < codes.length; i++) {
    const code = codes[i]!;
    const right = i % width === width - 1 ? code : codes[i + 1]!;
    const below = i + width < codes.length ? codes[i + width]! : code;
    if (right !== code) {
      meet(code, right);
      meet(right, code);
    }
    if (below !== code) {
      meet(code, below);
      meet(below, code);
    }
  }
}
