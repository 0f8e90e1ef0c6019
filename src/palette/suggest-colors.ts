import { ciede2000 } from '../color/color-difference.ts';
import { labsInAllSight } from '../color/deficient-sight.ts';
import { formatColor, parseColor } from '../color/hex.ts';
import type { Lab } from '../color/lab.ts';
import { leastDifference } from '../color/least-difference.ts';
import { checkList, checkNumber, checkOptions } from '../raster/checks.ts';
import { samples } from './shades.ts';
import { BARE } from './swatches.ts';
import type { Swatch } from './types.ts';

export interface SuggestColorsOptions {
  /** Colors `#rrggbb`, or swatches such as a palette, to stay away from. @default none */
  readonly apartFrom?: readonly (string | Swatch)[] | undefined;
}

const MOST_COLORS = 1024;

/** Samples of the colors to choose from: 17 levels of each of red, green and blue. */
const LEVELS: readonly number[] = [
  0, 16, 32, 48, 64, 80, 96, 112, 128, 143, 159, 175, 191, 207, 223, 239, 255,
];

/** What is darker passes for ink. */
const LEAST_LIGHTNESS = 30;

/**
 * Placeholder colors that people tell apart, those too who cannot tell red from green.
 *
 * Each color is the one farthest from the nearest of all before it, of `apartFrom`, of black ink
 * and of white paper. How far two colors are is the least CIEDE2000 between them in normal sight, in
 * protanopia and in deuteranopia, as Machado, Oliveira and Fernandes (2009,
 * doi:10.1109/TVCG.2009.113) simulate them at full severity. Chosen from a lattice of 17 levels a
 * sample without what is darker than L = 30; ties go to the lower `#rrggbb`.
 *
 * So the first colors are the same however many are asked for, and they are at least half as far
 * apart as the best choice from the lattice (T. F. Gonzalez 1985, Clustering to minimize the maximum
 * intercluster distance, doi:10.1016/0304-3975(85)90224-5; up to what CIEDE2000 lacks of a metric).
 *
 * @param count - Colors to suggest, 0 to 1024.
 * @returns Colors `#rrggbb`, all different and none in `apartFrom`; the same to the bit in every
 *   engine. O((count + apartFrom) · lattice).
 * @throws TypeError or RangeError for a count or a color that is none.
 * @example
 * ```ts
 * import { suggestColors } from 'underink';
 * console.log(suggestColors(3).join(' ')); // #9f20ff #708000 #ffff00
 * console.log(suggestColors(1, { apartFrom: ['#9f20ff'] })[0]); // #708000
 * ```
 */
export function suggestColors(count: number, options?: SuggestColorsOptions): string[] {
  checkNumber(count, 'count', { max: MOST_COLORS, integer: true, unit: 'colors' });
  const { apartFrom = [] } = checkOptions(options, 'suggestColors', ['apartFrom']);
  const given = givenColors(apartFrom);
  const choice = new Lattice();
  for (const rgb of [0x000000, 0xffffff, ...given]) choice.avoid(rgb);
  return Array.from({ length: count }, () => {
    const rgb = choice.farthest();
    choice.avoid(rgb);
    return formatColor(...samples(rgb));
  });
}

function givenColors(apartFrom: readonly (string | Swatch)[]): Set<number> {
  const items = checkList(apartFrom, 'apartFrom', 'an array of colors or swatches');
  const colors = new Set<number>();
  items.forEach((item, i) => {
    const isSwatch = typeof item === 'object' && item !== null;
    if (isSwatch && item.name === BARE) return;
    const [r, g, b] = isSwatch
      ? parseColor(item.color, `apartFrom[${i}].color`)
      : parseColor(item, `apartFrom[${i}]`);
    colors.add((r << 16) | (g << 8) | b);
  });
  return colors;
}

/** The colors to choose from, each with its distance from the nearest that is avoided. */
class Lattice {
  readonly #colors: readonly number[];
  readonly #labs: readonly (readonly Lab[])[];
  readonly #nearest: Float64Array;

  constructor() {
    const all = LEVELS.flatMap((r) =>
      LEVELS.flatMap((g) => LEVELS.map((b) => (r << 16) | (g << 8) | b)),
    );
    const labs = new Map(all.map((rgb) => [rgb, labsInAllSight(...samples(rgb))]));
    this.#colors = all.filter((rgb) => labs.get(rgb)![0]![0] >= LEAST_LIGHTNESS);
    this.#labs = this.#colors.map((rgb) => labs.get(rgb)!);
    this.#nearest = new Float64Array(this.#colors.length).fill(Number.POSITIVE_INFINITY);
  }

  /** Brings the distances up to date with one more color; itself it is not taken again. */
  avoid(rgb: number): void {
    const own = labsInAllSight(...samples(rgb));
    const nearest = this.#nearest;
    for (let k = 0; k < nearest.length; k++) {
      if (this.#colors[k] === rgb) nearest[k] = -1;
      const labs = this.#labs[k]!;
      for (let sight = 0; sight < own.length; sight++) {
        if (leastDifference(own[sight]!, labs[sight]!) >= nearest[k]!) continue;
        const difference = ciede2000(own[sight]!, labs[sight]!);
        if (difference < nearest[k]!) nearest[k] = difference;
      }
    }
  }

  /** The color with the longest way to what is avoided. */
  farthest(): number {
    const nearest = this.#nearest;
    let best = 0;
    for (let k = 1; k < nearest.length; k++) if (nearest[k]! > nearest[best]!) best = k;
    return this.#colors[best]!;
  }
}
