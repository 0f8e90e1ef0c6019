import { ciede2000 } from '../color/color-difference.ts';
import type { Lab } from '../color/lab.ts';
import { leastDifference, MOST_SL } from '../color/least-difference.ts';
import type { Tick } from '../raster/progress.ts';
import type { ColorRuns } from './color-runs.ts';
import { compareColors, labOfWord } from './words.ts';

/** A color that had an area and was given to a near one. */
export interface MergedColor {
  /** `0xbbggrr`, as is `into`. */
  readonly color: number;
  readonly into: number;
  readonly difference: number;
  readonly pixels: number;
}

/** Of a shelf, in lightness: some 2,000 shelves are as good as more. */
const THINNEST = 0.05;

/** A color that others are gathered under. */
interface Center {
  readonly k: number;
  readonly lab: Lab;
  /** Place in the order of centers. */
  readonly rank: number;
}

/**
 * For each color with an area the color that it is gathered under: the nearest that is less than the
 * limit from it and has more pixels, ties to the one of more; colors of equally many pixels
 * are taken in the order of colors. Centers lie in shelves of lightness as thick as the limit reaches, so that a
 * color is compared with those on three of them: colors · centers / shelves.
 */
export function gatherColors(
  runs: ColorRuns,
  limit: number,
  tick?: Tick,
): { centers: Int32Array; merged: MergedColor[] } {
  const centers = Int32Array.from({ length: runs.colors }, (_, k) => k);
  const merged: MergedColor[] = [];
  if (limit === 0) return { centers, merged };
  const { pixels, words } = runs;
  const order = [...centers].filter((k) => isArea(runs, k));
  order.sort((j, k) => pixels[k]! - pixels[j]! || compareColors(words[j]!, words[k]!));
  const thickness = Math.max(THINNEST, limit * MOST_SL);
  const shelves: Center[][] = Array.from({ length: Math.floor(100 / thickness) + 3 }, () => []);
  let rank = 0;
  for (let n = 0; n < order.length; n++) {
    if (n % 256 === 0) tick?.(n / order.length);
    const k = order[n]!;
    const lab = labOfWord(words[k]!);
    const shelf = Math.floor(Math.max(0, lab[0]) / thickness) + 1;
    let into: Center | undefined;
    let least = limit;
    for (let near = shelf - 1; near <= Math.min(shelf + 1, shelves.length - 1); near++) {
      for (const center of shelves[near]!) {
        if (leastDifference(lab, center.lab) > least) continue;
        const difference = ciede2000(lab, center.lab);
        if (difference > least || difference >= limit) continue;
        if (difference === least && into !== undefined && into.rank < center.rank) continue;
        least = difference;
        into = center;
      }
    }
    if (into === undefined) shelves[shelf]!.push({ k, lab, rank: rank++ });
    else {
      centers[k] = into.k;
      const [color, other] = [words[k]! & 0xffffff, words[into.k]! & 0xffffff];
      merged.push({ color, into: other, difference: least, pixels: pixels[k]! });
    }
  }
  return { centers, merged };
}

/** An area of a color with full alpha. */
export function isArea(runs: ColorRuns, k: number): boolean {
  return runs.area[k] === 1 && runs.words[k]! >>> 24 === 255;
}
