import { ciede2000 } from '../color/color-difference.ts';
import { cosine, sine } from '../color/elementary.ts';
import { type Lab, labOf } from '../color/lab.ts';
import { MOST_SL, nearDifference } from '../color/least-difference.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import { checkPalette } from './swatches.ts';
import type { Swatch } from './types.ts';

export interface FindLookalikesOptions {
  /** Difference in CIEDE2000 below which two colors look alike. @default 2 */
  readonly below?: number | undefined;
}

/** Two swatches that are easily taken for one. */
export interface Lookalike {
  /** Name of the one that comes first in the palette. */
  readonly a: string;
  readonly b: string;
  /** CIEDE2000. */
  readonly difference: number;
}

/**
 * Pairs of swatches whose colors are hard to tell apart: the usual cause of a fill in a wrong flat.
 *
 * `bare` has no color and is left out. Nearest pair first; ties by place in the palette.
 *
 * @param palette - That of flats, or any list of swatches.
 * @returns The pairs less than `below` apart. O(n log n), and a few steps for each pair of about
 *   one lightness; the formula itself is worked out for little more than the pairs that are given.
 * @throws TypeError or RangeError for a bad palette, or for a `below` that is no number >= 0.
 *   RangeError for more than 1,000,000 pairs, so that none is left out in silence.
 * @example
 * ```ts
 * import { findLookalikes } from 'underink';
 * const pairs = findLookalikes([
 *   { name: 'shell', color: '#b5482f' },
 *   { name: 'coat', color: '#305080' },
 *   { name: 'claw', color: '#b54a31' },
 * ]);
 * console.log(pairs.map(({ a, b }) => `${a} ${b}`).join()); // shell claw
 * ```
 */
export function findLookalikes(
  palette: readonly Swatch[],
  options?: FindLookalikesOptions,
): Lookalike[] {
  const { below = 2 } = checkOptions(options, 'findLookalikes', ['below']);
  checkNumber(below, 'below');
  const bare = checkPalette(palette, 'palette', 'either')[0]?.name === 'bare' ? 1 : 0;
  const labs = palette.map(({ color }) => labOf(color, 'color'));
  const order = [...labs.keys()].slice(bare).sort((i, j) => labs[i]![0] - labs[j]![0] || i - j);
  const pairs: { i: number; j: number; difference: number }[] = [];
  forNearPairs(
    order.map((i) => labs[i]!),
    below,
    (p, q) => {
      const i = Math.min(order[p]!, order[q]!);
      const j = Math.max(order[p]!, order[q]!);
      if (nearDifference(labs[i]!, labs[j]!) >= below + ROUNDING) return;
      const difference = ciede2000(labs[i]!, labs[j]!);
      if (difference >= below) return;
      if (pairs.length === MOST_PAIRS) throw tooMany(order.length, below);
      pairs.push({ i, j, difference });
    },
  );
  pairs.sort((p, q) => p.difference - q.difference || p.i - q.i || p.j - q.j);
  return pairs.map(({ i, j, difference }) => ({
    a: palette[i]!.name,
    b: palette[j]!.name,
    difference,
  }));
}

/** Pairs that people could still look through, and that fit in memory many times. */
const MOST_PAIRS = 1_000_000;

function tooMany(swatches: number, below: number): RangeError {
  return new RangeError(
    `palette must have at most ${MOST_PAIRS} pairs less than ${below} apart, got more among ${swatches} swatches; lower below, or make swatches of one color one (mergeSwatches)`,
  );
}

/** More than the rounding of `nearDifference`. */
const ROUNDING = 1e-9;

/**
 * Calls back for all pairs less than `below` apart, and for few others; `labs` in the order of their
 * lightness.
 *
 * Unweighted, ΔC′ and ΔH′ are the distance of (a′, b), which is no shorter than that of (a, b). S_C
 * and S_H are at most 1 + 0.045 · mean C′, and mean C′ is at most the mean chroma times 1.5, and at
 * most 6.4 more than it. Where both hues lie in one half of the circle that stays 60° away from
 * 275°, so does their mean, and |R_T| < 0.0067; else (1 − sin 60°) is left of the squares.
 */
function forNearPairs(
  labs: readonly Lab[],
  below: number,
  found: (p: number, q: number) => void,
): void {
  const L = Float64Array.from(labs, (lab) => lab[0] / MOST_SL);
  const a = Float64Array.from(labs, (lab) => lab[1]);
  const b = Float64Array.from(labs, (lab) => lab[2]);
  const chroma = Float64Array.from(labs, ([, x, y]) => Math.sqrt(x * x + y * y));
  const half = Uint8Array.from(labs, halvesOf);
  const limit = below * below * (1 + ROUNDING);
  for (let p = 0; p < labs.length; p++) {
    const [Lp, ap, bp, chromaP, halfP] = [L[p]!, a[p]!, b[p]!, chroma[p]!, half[p]!];
    for (let q = p + 1; q < labs.length; q++) {
      const dL = L[q]! - Lp;
      const left = limit - dL * dL;
      if (left <= 0) break;
      const da = a[q]! - ap;
      const db = b[q]! - bp;
      const mean = (chroma[q]! + chromaP) / 2;
      const weight = 1 + 0.045 * (mean < 12.8 ? 1.5 * mean : mean + 6.4);
      const share = (half[q]! & halfP) === 0 ? 0.133 : 0.996;
      if (share * (da * da + db * db) < left * weight * weight) found(p, q);
    }
  }
}

/** Directions in the middle of three halves of the hue circle, together 335° to 215°. */
const HALVES = /* @__PURE__ */ [65, 90, 125].map((hue) => [cosine(hue), sine(hue)] as const);

/**
 * A bit for each of the halves that a hue lies in, whatever a′ is between a and 1.5 a, and not at
 * its ends, where the mean of opposite hues may be on either side. Grays have no hue to go by.
 */
function halvesOf([, a, b]: Lab): number {
  if (a === 0 && b === 0) return 7;
  const margin = 1e-3 * Math.sqrt(a * a + b * b);
  return HALVES.reduce((bits, [x, y], k) => {
    const inside = x * a + y * b > margin && 1.5 * x * a + y * b > margin;
    return inside ? bits | (1 << k) : bits;
  }, 0);
}
