import { checkNumber, checkOptions } from '../raster/checks.ts';
import type { LabelsLike } from '../raster/types.ts';
import { contingencyArgument } from './contingency.ts';

export interface CorrectionsOptions {
  /** Least pixels that make a piece of a true region. @default 12 */
  readonly minArea?: number | undefined;
  /** Least share of a true region's pixels that makes a piece of it, 0 to 1. @default 0.05 */
  readonly minShare?: number | undefined;
}

export interface Corrections {
  /** True regions in each found one beyond the first, added up: each costs a cut. */
  readonly merges: number;
  /** Pieces of each true region beyond the first, added up: each costs a join or one more click. */
  readonly splits: number;
}

/**
 * How many corrections a person would make to get from the found regions to the true ones.
 *
 * A found region holds a piece of a true one when they share at least max(`minArea`, `minShare` of the
 * true one's pixels); what is less is a rim that nobody mends. `splits` are the pieces of each true
 * region beyond the first, `merges` the true regions in each found one beyond the first.
 *
 * Only pixels with a label above 0 in `truth` count. Label 0 in `found` is no region and holds
 * nothing: a true region that no found one holds costs neither. O(pixels), 12 to 36 bytes per pair
 * of regions that overlap.
 *
 * @param truth - `[w, h]` Int32 ids; 0 is left out of every count.
 * @param found - Ids of the same shape.
 * @throws TypeError or RangeError for rasters that hold no labels or differ in size, or a bad option.
 * @example
 * ```ts
 * import { correctionsNeeded, raster } from 'underink';
 * const truth = raster(new Int32Array([1, 1, 2, 2, 3, 3, 3, 3]), [8, 1]);
 * const found = raster(new Int32Array([1, 1, 1, 1, 2, 2, 3, 3]), [8, 1]);
 * const { merges, splits } = correctionsNeeded(truth, found, { minArea: 1 });
 * console.log(merges, splits); // 1 1
 * ```
 */
export function correctionsNeeded(
  truth: LabelsLike,
  found: LabelsLike,
  options?: CorrectionsOptions,
): Corrections {
  const names = ['minArea', 'minShare'] as const;
  const { minArea = 12, minShare = 0.05 } = checkOptions(options, 'correctionsNeeded', names);
  checkNumber(minArea, 'minArea', { unit: 'pixels' });
  checkNumber(minShare, 'minShare', { max: 1 });
  const table = contingencyArgument(truth, found);
  const { trueAreas, foundAreas, unfound, trueOf, foundOf, shared } = table;
  const pieces = new Int32Array(trueAreas.length);
  const held = new Int32Array(foundAreas.length);
  for (let k = 0; k < shared.length; k++) {
    const t = trueOf[k]!;
    const f = foundOf[k]!;
    if (f === unfound || shared[k]! < Math.max(minArea, minShare * trueAreas[t]!)) continue;
    pieces[t]!++;
    held[f]!++;
  }
  return { merges: beyondFirst(held), splits: beyondFirst(pieces) };
}

function beyondFirst(counts: Int32Array): number {
  let sum = 0;
  for (let k = 0; k < counts.length; k++) sum += Math.max(0, counts[k]! - 1);
  return sum;
}
