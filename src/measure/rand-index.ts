import type { LabelsLike } from '../raster/types.ts';
import { contingencyArgument } from './contingency.ts';

/**
 * How well two partitions agree about which pixels belong together, corrected for chance: 1 for the
 * same partition, about 0 for unrelated ones, at least -0.5.
 *
 * Of all pairs of pixels, it counts those that lie together in both partitions, takes off what two
 * random partitions with the same areas would share on average, and divides by what they could share
 * at most. Only pixels with a label above 0 in `truth` count; of those, the pixels of label 0 in
 * `found` are one more part. Two partitions for which nothing is left to chance (at most one pixel,
 * one part each, or a part for each pixel in both) are the same and give 1.
 *
 * O(pixels), 12 to 36 bytes per pair of regions that overlap. Exact sums up to 134 million pixels.
 *
 * Lawrence Hubert, Phipps Arabie 1985, "Comparing partitions", doi:10.1007/BF01908075.
 *
 * @param truth - `[w, h]` Int32 ids; 0 is left out of every count.
 * @param found - Ids of the same shape.
 * @throws TypeError or RangeError for rasters that hold no labels or differ in size.
 * @example
 * ```ts
 * import { adjustedRandIndex, raster } from 'underink';
 * const truth = raster(new Int32Array([1, 1, 2, 2]), [4, 1]);
 * console.log(adjustedRandIndex(truth, raster(new Int32Array([7, 7, 3, 3]), [4, 1]))); // 1
 * console.log(adjustedRandIndex(truth, raster(new Int32Array([1, 2, 1, 2]), [4, 1]))); // -0.5
 * ```
 */
export function adjustedRandIndex(truth: LabelsLike, found: LabelsLike): number {
  const { pixels, trueAreas, foundAreas, shared } = contingencyArgument(truth, found);
  const together = pairsWithin(shared);
  const inTruth = pairsWithin(trueAreas);
  const inFound = pairsWithin(foundAreas);
  if (inTruth === together && inFound === together) return 1;
  // Both sides of the fraction times all pairs: whole numbers, exact where they are small.
  const all = (pixels * (pixels - 1)) / 2;
  const byChance = 2 * inTruth * inFound;
  return (2 * together * all - byChance) / ((inTruth + inFound) * all - byChance);
}

/** Pairs of pixels within parts of the given sizes. */
function pairsWithin(areas: Int32Array): number {
  let pairs = 0;
  for (let k = 0; k < areas.length; k++) pairs += (areas[k]! * (areas[k]! - 1)) / 2;
  return pairs;
}
