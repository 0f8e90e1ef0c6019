import { coverageArgument } from '../raster/arguments.ts';
import { TICK_PIXELS, type Tick } from '../raster/progress.ts';
import type { CoverageLike } from '../raster/types.ts';
import { maskAbove } from './mask-above.ts';
import { GIVEN, type Method } from './threshold-method.ts';

/** Ink is coverage above Otsu's level. */
export interface OtsuChoice {
  readonly method: 'otsu';
  readonly level: number;
  readonly why: string;
}

/** Coverage above {@link otsuLevel}. */
export const otsu: Method<object, OtsuChoice> = {
  options: [],
  check() {},
  settle: (_, { data }, tick) => ({
    method: 'otsu',
    level: levelOf(histogramOf(data, tick)),
    why: GIVEN,
  }),
  apply: ({ level }, { data }, mask, tick) => maskAbove(data, level, mask, tick),
};

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
 * Counts of the 256 values. Where the storage allows, four are read as one word; words that are all
 * 0 or all 255, paper and solid ink, are counted as such. A table for each place in the word keeps a
 * count from waiting for the one before it.
 */
export function histogramOf(data: Uint8Array | Uint8ClampedArray, tick?: Tick): Float64Array {
  const counts = new Int32Array(1024);
  const words = (data.byteOffset & 3) === 0 ? data.length >> 2 : 0;
  for (let from = 0; from < words; from += TICK_PIXELS) {
    tick?.(from / words);
    const length = Math.min(TICK_PIXELS, words - from);
    countWords(new Int32Array(data.buffer, data.byteOffset + 4 * from, length), counts);
  }
  for (let i = 4 * words; i < data.length; i++) counts[data[i]!]! += 1;
  return Float64Array.from(
    { length: 256 },
    (_, v) => counts[v]! + counts[256 + v]! + counts[512 + v]! + counts[768 + v]!,
  );
}

function countWords(words: Int32Array, counts: Int32Array): void {
  let zeros = 0;
  let ones = 0;
  for (let i = 0; i < words.length; i++) {
    const four = words[i]!;
    if (four === 0) zeros++;
    else if (four === -1) ones++;
    else {
      const a = four & 255;
      const b = 256 | ((four >>> 8) & 255);
      const c = 512 | ((four >>> 16) & 255);
      const d = 768 | (four >>> 24);
      counts[a] = (counts[a]! + 1) | 0;
      counts[b] = (counts[b]! + 1) | 0;
      counts[c] = (counts[c]! + 1) | 0;
      counts[d] = (counts[d]! + 1) | 0;
    }
  }
  counts[0]! += 4 * zeros;
  counts[255]! += 4 * ones;
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
