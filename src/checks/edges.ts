import { IntList } from '../raster/int-list.ts';
import { partOf, TICK_ROWS, TICK_STEPS, type Tick } from '../raster/progress.ts';
import { PairIndex } from '../runs/pair-index.ts';
import { numberRoots, singleSets, unite } from '../runs/union.ts';
import { MOST_PLACES } from './places.ts';

/** Pixel edges between two areas, those that touch by a corner counted as one. */
export interface EdgePlace {
  /** The values on both sides, ascending; more than two for what is left when there are too many. */
  readonly values: readonly number[];
  /** Pixel edges. */
  readonly length: number;
  /** The pixels on both sides. */
  readonly spans: Int32Array;
  /** 1, but for what is left when there are too many. */
  readonly places: number;
}

/**
 * The places where 4-neighbors i and j of different values meet so that `counts(i, j)` says yes. Edges
 * of one pair of values that share a corner are one place; the longest comes first, ties in the order
 * of their first edge, row by row. O(pixels + edges · log); 12 bytes per edge.
 */
export function edgePlaces(
  data: Uint8Array | Uint16Array | Int32Array,
  width: number,
  counts: (i: number, j: number) => boolean,
  tick?: Tick,
): EdgePlace[] {
  const edges = edgesWhere(data, width, counts, partOf(tick, 0, 0.6));
  return placesOf(edges, width, partOf(tick, 0.6, 1));
}

/** Row by row: edge k is that of pixel `from[k]` to its right, or below it where `down[k]` is 1. */
interface Edges {
  readonly from: Int32Array;
  readonly down: Int32Array;
  /** Number of the pair of values. */
  readonly pair: Int32Array;
  readonly pairs: PairIndex;
}

function edgesWhere(
  data: Uint8Array | Uint16Array | Int32Array,
  width: number,
  counts: (i: number, j: number) => boolean,
  tick?: Tick,
): Edges {
  const pairs = new PairIndex();
  const from = new IntList();
  const downs = new IntList();
  const pair = new IntList();
  const height = data.length / width;
  for (let y = 0, i = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    const below = y + 1 < height ? width : 0;
    for (let x = 0; x < width; x++, i++) {
      const a = data[i]!;
      const right = x + 1 < width ? i + 1 : i;
      if (data[right] === a && data[i + below] === a) continue;
      for (let down = 0; down < 2; down++) {
        const other = down === 0 ? right : i + below;
        const b = data[other]!;
        if (b === a || !counts(i, other)) continue;
        from.push(i);
        downs.push(down);
        pair.push(pairs.add(Math.min(a, b), Math.max(a, b), 1));
      }
    }
  }
  return { from: from.trimmed(), down: downs.trimmed(), pair: pair.trimmed(), pairs };
}

/*
 * An edge to the right of pixel (x, y) ends at the corners (x + 1, y) and (x + 1, y + 1), one below
 * it at (x, y + 1) and (x + 1, y + 1):
 *
 *    corner   0    1    2   of row y
 *             +----+----+
 *             | px | px |       up to four edges meet at a corner; those of the row's upper and
 *             +----+----+       lower corners are kept, as indices, -1 for none
 */
function connectEdges(
  { from, down, pair }: Edges,
  width: number,
  tick: Tick | undefined,
): { ids: Int32Array; count: number } {
  const parent = singleSets(from.length);
  let upper = new Int32Array(4 * (width + 1)).fill(-1);
  let lower = new Int32Array(4 * (width + 1)).fill(-1);
  let row = -1;
  const meet = (corners: Int32Array, x: number, k: number): void => {
    let slot = 4 * x;
    for (; corners[slot]! >= 0; slot++) {
      if (pair[corners[slot]!] === pair[k]) unite(parent, corners[slot]!, k);
    }
    corners[slot] = k;
  };
  for (let k = 0; k < from.length; k++) {
    if (tick !== undefined && k % TICK_STEPS === 0) tick(k / from.length);
    const x = from[k]! % width;
    const y = (from[k]! - x) / width;
    if (y !== row) {
      [upper, lower] = [lower, upper];
      if (y !== row + 1) upper.fill(-1);
      lower.fill(-1);
      row = y;
    }
    meet(down[k] === 1 ? lower : upper, down[k] === 1 ? x : x + 1, k);
    meet(lower, x + 1, k);
  }
  return { ids: parent, count: numberRoots(parent) };
}

/** The longest place first, ties in the order of first edges. */
function placesOf(edges: Edges, width: number, tick: Tick | undefined): EdgePlace[] {
  const { from, down, pair, pairs } = edges;
  const { ids, count } = connectEdges(edges, width, partOf(tick, 0, 0.4));
  const lengths = new Int32Array(count + 1);
  for (let k = 0; k < ids.length; k++) lengths[ids[k]!]! += 1;
  const order = Int32Array.from({ length: count }, (_, k) => k + 1);
  order.sort((a, b) => lengths[b]! - lengths[a]! || a - b);
  const slot = new Int32Array(count + 1);
  const sizes: number[] = [];
  order.forEach((id, rank) => {
    const k = Math.min(rank, MOST_PLACES);
    slot[id] = k;
    sizes[k] = (sizes[k] ?? 0) + 2 * lengths[id]!;
  });
  const pixels = sizes.map((size) => new Int32Array(size));
  const values = sizes.map(() => new Set<number>());
  const filled = new Int32Array(sizes.length);
  for (let k = 0; k < ids.length; k++) {
    if (tick !== undefined && k % TICK_STEPS === 0) tick(0.4 + (0.3 * k) / ids.length);
    const at = slot[ids[k]!]!;
    values[at]!.add(pairs.first[pair[k]!]!).add(pairs.second[pair[k]!]!);
    pixels[at]![filled[at]!++] = from[k]!;
    pixels[at]![filled[at]!++] = from[k]! + (down[k] === 1 ? width : 1);
  }
  return pixels.map((own, k) => {
    tick?.(0.7 + (0.3 * k) / pixels.length);
    return {
      values: [...values[k]!].sort((a, b) => a - b),
      length: own.length / 2,
      spans: spansOfPixels(own, width),
      places: k < MOST_PLACES ? 1 : count - k,
    };
  });
}

/** Spans of pixels in any order, some of them given more than once. */
export function spansOfPixels(pixels: Int32Array, width: number): Int32Array {
  const sorted = pixels.slice().sort();
  const starts = (i: number, last: number): boolean =>
    i > last + 1 || (i > last && i % width === 0);
  let count = 0;
  for (let k = 0; k < sorted.length; k++) if (starts(sorted[k]!, sorted[k - 1] ?? -2)) count++;
  const spans = new Int32Array(3 * count);
  let at = -3;
  for (let k = 0; k < sorted.length; k++) {
    const i = sorted[k]!;
    const x = i % width;
    if (starts(i, sorted[k - 1] ?? -2)) {
      at += 3;
      spans[at] = (i - x) / width;
      spans[at + 1] = x;
    }
    spans[at + 2] = x + 1;
  }
  return spans;
}
