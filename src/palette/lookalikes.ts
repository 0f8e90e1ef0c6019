import { checkNumber, checkOptions } from '../raster/checks.ts';
import { ciede2000 } from './color-difference.ts';
import { labOf } from './lab.ts';
import { BARE, checkPalette } from './swatches.ts';
import type { Swatch } from './types.ts';

export interface LookalikesOptions {
  /** Pairs of a smaller difference are listed, in CIEDE2000. @default 2 */
  readonly below?: number;
}

/** Two swatches that are hard to tell apart. */
export interface Lookalikes {
  /** Name of the one that comes first in the palette. */
  readonly a: string;
  readonly b: string;
  /** CIEDE2000; 0 for one color. */
  readonly difference: number;
}

/**
 * Swatches that look alike: a second skin that differs by one level, say. Nearest pairs first, ties
 * in the order of the palette; `bare` is no color. O(swatches²).
 *
 * @throws TypeError or RangeError for a palette that is none or a bad option.
 * @example
 * ```ts
 * import { findLookalikes } from 'underink';
 * const skins = [{ name: 'skin', color: '#f0c8a0' }, { name: 'skin 2', color: '#f0c8a1' }];
 * console.log(findLookalikes(skins).map((pair) => pair.b).join()); // skin 2
 * ```
 */
export function findLookalikes(
  palette: readonly Swatch[],
  options?: LookalikesOptions,
): Lookalikes[] {
  const { below = 2 } = checkOptions(options, 'findLookalikes', ['below']);
  checkNumber(below, 'below');
  const swatches = checkPalette(palette, 'palette', 'either').filter(({ name }) => name !== BARE);
  const labs = swatches.map(({ color }) => labOf(color, 'color'));
  const pairs: Lookalikes[] = [];
  for (let i = 0; i < labs.length; i++) {
    for (let j = i + 1; j < labs.length; j++) {
      const difference = ciede2000(labs[i]!, labs[j]!);
      if (difference < below) {
        pairs.push({ a: swatches[i]!.name, b: swatches[j]!.name, difference });
      }
    }
  }
  return pairs.sort((p, q) => p.difference - q.difference);
}
