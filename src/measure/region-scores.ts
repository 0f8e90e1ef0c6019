import { checkNumber, checkOptions } from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import type { LabelsLike } from '../raster/types.ts';
import { contingencyArgument } from './contingency.ts';

export interface RegionScoresOptions {
  /**
   * Shared area over joint area from which a found region is a true one: above 0.5, where no region
   * can have two partners, up to 1. @default 0.9
   */
  readonly iou?: number | undefined;
}

export interface RegionScores {
  /** Share of the found regions that are true ones. */
  readonly precision: number;
  /** Share of the true regions that were found. */
  readonly recall: number;
  /** Twice the pairs over the regions of both, the harmonic mean of the two. */
  readonly f1: number;
}

/**
 * Counts regions that were found as they are: a true and a found region are a pair when their shared
 * area is at least `iou` of their joint area (intersection over union, the Jaccard index).
 *
 * Only pixels with a label above 0 in `truth` count, in the areas of found regions too; a found region
 * without such a pixel is left out, whatever its size. Label 0 in `found` is no region. Where there
 * is nothing to count (no found region for precision, no true one for recall, neither for f1), the
 * score is 1. O(pixels), 12 to 36 bytes per pair of regions that overlap.
 *
 * @param truth - `[w, h]` Int32 ids; 0 is left out of every count.
 * @param found - Ids of the same shape.
 * @throws TypeError or RangeError for rasters that hold no labels or differ in size, or a bad option.
 * @example
 * ```ts
 * import { raster, regionScores } from 'underink';
 * const truth = raster(new Int32Array([1, 1, 2, 2, 3, 3]), [6, 1]);
 * const found = raster(new Int32Array([1, 1, 2, 2, 2, 2]), [6, 1]);
 * const { precision, recall, f1 } = regionScores(truth, found);
 * console.log(precision, recall.toFixed(2), f1); // 0.5 0.33 0.4
 * ```
 */
export function regionScores(
  truth: LabelsLike,
  found: LabelsLike,
  options?: RegionScoresOptions,
): RegionScores {
  const { iou = 0.9 } = checkOptions(options, 'regionScores', ['iou']);
  if (checkNumber(iou, 'iou', { max: 1 }) <= 0.5) {
    throw wrongValue('iou', 'a share above 0.5, up to 1', iou);
  }
  const table = contingencyArgument(truth, found);
  const { trueAreas, foundAreas, unfound, trueOf, foundOf, shared } = table;
  let pairs = 0;
  for (let k = 0; k < shared.length; k++) {
    if (foundOf[k] === unfound) continue;
    const n = shared[k]!;
    const joint = trueAreas[trueOf[k]!]! + foundAreas[foundOf[k]!]! - n;
    if (n >= iou * joint) pairs++;
  }
  const trueCount = trueAreas.length;
  const foundCount = foundAreas.length - (unfound < 0 ? 0 : 1);
  return {
    precision: share(pairs, foundCount),
    recall: share(pairs, trueCount),
    f1: share(2 * pairs, trueCount + foundCount),
  };
}

function share(part: number, whole: number): number {
  return whole === 0 ? 1 : part / whole;
}
