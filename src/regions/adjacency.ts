import { labelsArgument } from '../raster/arguments.ts';
import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { LabelsLike, Owned } from '../raster/types.ts';
import { PairIndex } from '../runs/pair-index.ts';

/** Pairs of regions that share a border, one entry per pair in each column. */
export interface RegionAdjacency {
  /** The lower id of each pair. */
  readonly a: Owned<Int32Array>;
  /** The higher id. */
  readonly b: Owned<Int32Array>;
  /** Pixel edges between the two. */
  readonly borderLength: Owned<Int32Array>;
}

/**
 * Which regions share a border, and how long it is in pixel edges (a region adjacency graph). Pairs come in ascending order of
 * their lower, then of their higher id; 0 is no region and has no pairs. O(pixels + pairs · log).
 *
 * @param labels - `[w, h]` Int32 ids.
 * @throws TypeError or RangeError for a raster that holds no labels.
 * @example
 * ```ts
 * import { raster, regionAdjacency } from 'underink';
 * const labels = raster(new Int32Array([1, 2, 1, 3]), [2, 2]);
 * const { a, b, borderLength } = regionAdjacency(labels);
 * console.log(a.join(' '), '|', b.join(' '), '|', borderLength.join(' ')); // 1 1 2 | 2 3 3 | 1 1 1
 * ```
 */
export function regionAdjacency(labels: LabelsLike): RegionAdjacency {
  const { data, width, height } = labelsArgument(labels, 'labels');
  return adjacencyOf(data, width, height);
}

/** The same on flat labels. Equal neighbors in sequence are counted before they are looked up. */
export function adjacencyOf(
  data: Int32Array,
  width: number,
  height: number,
  tick?: Tick,
): RegionAdjacency {
  const pairs = new PairIndex();
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    const row = y * width;
    const below = y + 1 < height ? row + width : row;
    let lastA = 0;
    let lastB = 0;
    let n = 0;
    let next = data[row]!;
    for (let x = 0; x < width; x++) {
      const label = next;
      if (x + 1 < width) next = data[row + x + 1]!;
      const under = data[below + x]!;
      if ((next === label && under === label) || label === 0) continue;
      if (next !== label && next !== 0) addPair(pairs, label, next, 1);
      if (under === label || under === 0) continue;
      if (label === lastA && under === lastB) n++;
      else {
        if (n > 0) addPair(pairs, lastA, lastB, n);
        lastA = label;
        lastB = under;
        n = 1;
      }
    }
    if (n > 0) addPair(pairs, lastA, lastB, n);
  }
  return sortedPairs(pairs);
}

export function addPair(pairs: PairIndex, a: number, b: number, n: number): void {
  if (a < b) pairs.add(a, b, n);
  else pairs.add(b, a, n);
}

/** The pairs in ascending order: first by the lower id, then by the higher. */
export function sortedPairs({ first, second, counts, size }: PairIndex): RegionAdjacency {
  const order = Int32Array.from({ length: size }, (_, k) => k);
  order.sort((p, q) => first[p]! - first[q]! || second[p]! - second[q]!);
  return {
    a: order.map((k) => first[k]!),
    b: order.map((k) => second[k]!),
    borderLength: order.map((k) => counts[k]!),
  };
}
