import { checkNumber, checkOptions } from '../raster/checks.ts';
import { ciede2000 } from './color-difference.ts';
import { type Lab, labOf } from './lab.ts';
import { checkPalette } from './swatches.ts';
import type { Swatch } from './types.ts';

export interface FindLookalikesOptions {
  /** Difference in CIEDE2000 below which two colors look alike. @default 2 */
  readonly below?: number;
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
 * @returns The pairs less than `below` apart. O(n log n) and, for each swatch, those of about its
 *   lightness.
 * @throws TypeError or RangeError for a bad palette, or for a `below` that is no number >= 0.
 * @example
 * ```ts
 * import { findLookalikes } from 'underink';
 * const pairs = findLookalikes([
 *   { name: 'skin', color: '#f0c8a0' },
 *   { name: 'coat', color: '#305080' },
 *   { name: 'ear', color: '#f0c8a4' },
 * ]);
 * console.log(pairs.map(({ a, b }) => `${a} ${b}`).join()); // skin ear
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
  for (let p = 0; p < order.length; p++) {
    const i = order[p]!;
    const lab = labs[i]!;
    for (let q = p + 1; q < order.length; q++) {
      const j = order[q]!;
      const other = labs[j]!;
      if ((other[0] - lab[0]) / MOST_SL >= below) break;
      if (leastDifference(lab, other) >= below) continue;
      const difference = ciede2000(lab, other);
      if (difference < below) pairs.push({ i: Math.min(i, j), j: Math.max(i, j), difference });
    }
  }
  pairs.sort((p, q) => p.difference - q.difference || p.i - q.i || p.j - q.j);
  return pairs.map(({ i, j, difference }) => ({
    a: palette[i]!.name,
    b: palette[j]!.name,
    difference,
  }));
}

/** S_L at a mean lightness of 0 or 100, its greatest: 1 + 0.015 · 2500 / √2520 = 1.747. */
const MOST_SL = 1.75;

/**
 * No more than CIEDE2000, and quick. |R_T| <= 2 sin 60°, so c² + H² + R_T c H is at least
 * (1 − sin 60°)(c² + H²) > 0.133 (c² + H²); unweighted, c and H are the distance of (a′, b), which
 * is no shorter than that of (a, b); and S_C, S_H <= 1 + 0.045 · 1.5 · mean chroma.
 */
export function leastDifference([L1, a1, b1]: Lab, [L2, a2, b2]: Lab): number {
  const chroma = Math.sqrt(a1 * a1 + b1 * b1) + Math.sqrt(a2 * a2 + b2 * b2);
  const weight = 1 + 0.03375 * chroma;
  const dL = (L1 - L2) / MOST_SL;
  const da = (a1 - a2) / weight;
  const db = (b1 - b2) / weight;
  return Math.sqrt(dL * dL + 0.133 * (da * da + db * db));
}
