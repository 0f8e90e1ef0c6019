import { coverageArgument } from '../raster/arguments.ts';
import type { CoverageLike } from '../raster/types.ts';

/**
 * Otsu's level of a coverage: the one that splits its histogram into two classes with the largest
 * variance between them (Otsu 1979, "A threshold selection method from gray-level histograms",
 * DOI 10.1109/TSMC.1979.4310076). Coverage above the level is ink. The lowest of equally good
 * levels is taken; a raster of one level gives that level. O(pixels).
 *
 * @param coverage - Uint8 `[w, h]`.
 * @returns A level from 0 to 255.
 * @throws TypeError or RangeError for a raster that holds no coverage.
 * @example
 * ```ts
 * import { otsuLevel, raster } from 'underink';
 * console.log(otsuLevel(raster(new Uint8Array([10, 20, 10, 200, 210, 20]), [3, 2]))); // 20
 * ```
 */
export function otsuLevel(coverage: CoverageLike): number {
  return levelOf(histogramOf(coverageArgument(coverage, 'coverage').data));
}

/**
 * Counts of the 256 values. Four tables are filled in turn, so that a count does not wait for the
 * one before it on long spans of one value.
 */
export function histogramOf(data: Uint8Array): Float64Array {
  const counts = new Uint32Array(1024);
  const whole = data.length & ~3;
  for (let i = 0; i < whole; i += 4) {
    counts[data[i]!]! += 1;
    counts[256 + data[i + 1]!]! += 1;
    counts[512 + data[i + 2]!]! += 1;
    counts[768 + data[i + 3]!]! += 1;
  }
  for (let i = whole; i < data.length; i++) counts[data[i]!]! += 1;
  return Float64Array.from(
    { length: 256 },
    (_, v) => counts[v]! + counts[256 + v]! + counts[512 + v]! + counts[768 + v]!,
  );
}

/** Otsu's level of a histogram. */
export function levelOf(histogram: Float64Array): number {
  let total = 0;
  let sum = 0;
  let only = 0;
  for (let v = 0; v < 256; v++) {
    total += histogram[v]!;
    sum += v * histogram[v]!;
    if (histogram[v]! > 0) only = v;
  }
  let below = 0;
  let belowSum = 0;
  let best = -1n;
  let bestOver = 1n;
  let level = only;
  for (let v = 0; v < 255; v++) {
    below += histogram[v]!;
    belowSum += v * histogram[v]!;
    const above = total - below;
    if (below === 0 || above === 0) continue;
    // The variance between the classes, but for a factor, as an exact fraction: ties must be ties.
    const lead = BigInt(belowSum) * BigInt(total) - BigInt(sum) * BigInt(below);
    const variance = lead * lead;
    const over = BigInt(below) * BigInt(above);
    if (variance * bestOver > best * over) {
      best = variance;
      bestOver = over;
      level = v;
    }
  }
  return level;
}
