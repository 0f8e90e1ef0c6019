import { numberRoots, unite } from '../runs/union.ts';
import type { Check } from './finding.ts';
import { amount, describePlace, MOST_PLACES, where } from './places.ts';

/**
 * Open seams: two flats meet where there is no ink. A seam is the edge between two 4-neighbors of
 * different swatches; it is open when neither pixel is ink. Bare pixels and a picture's
 * blended ones have no seams: they are findings of their own. Edges of one pair of swatches that share a corner are one finding;
 * the longest comes first, ties in the order of their first edge. O(pixels + edges · log).
 */
export const seams: Check = {
  name: 'seams',
  run: ({ flats, ink }) => {
    if (ink === undefined) return [];
    const { data, shape } = flats.indices;
    const [width, height] = shape as [number, number];
    const edges = openEdges(data, ink.data, width, height);
    return seamsOf(edges, width).map(({ indices, pixels, places }) => {
      const swatches = indices.map((index) => flats.palette[index]!.name);
      const count = pixels.length / 2;
      const spans = spansOfPixels(pixels, width);
      const between = places === 1 ? ` between "${swatches[0]}" and "${swatches[1]}"` : '';
      const length = amount(count, 'pixel edge');
      const message = `open seam of ${length}${between} ${where({ spans, places })}`;
      return { message, ...describePlace(spans), count, swatches };
    });
  },
};

/** Row by row: edge k is that of pixel `from[k]` to its right, or below it where `down[k]` is 1. */
interface Edges {
  readonly from: Int32Array;
  readonly down: Uint8Array;
  /** The two swatches, the lower index in the upper half. */
  readonly pair: Uint32Array;
}

function openEdges(
  data: Uint8Array | Uint16Array,
  ink: Uint8Array,
  width: number,
  height: number,
): Edges {
  const count = visitOpen(data, ink, width, height);
  const edges = {
    from: new Int32Array(count),
    down: new Uint8Array(count),
    pair: new Uint32Array(count),
  };
  if (count > 0) visitOpen(data, ink, width, height, edges);
  return edges;
}

/** Counts the open edges; writes them down where `edges` is given. */
function visitOpen(
  data: Uint8Array | Uint16Array,
  ink: Uint8Array,
  width: number,
  height: number,
  edges?: Edges,
): number {
  let count = 0;
  for (let y = 0, i = 0; y < height; y++) {
    const below = y + 1 < height ? width : 0;
    for (let x = 0; x < width; x++, i++) {
      const a = data[i]!;
      const right = x + 1 < width ? i + 1 : i;
      if (data[right] === a && data[i + below] === a) continue;
      if (a === 0 || ink[i] === 1) continue;
      for (let down = 0; down < 2; down++) {
        const other = down === 0 ? right : i + below;
        const b = data[other]!;
        if (b === a || b === 0 || ink[other] === 1) continue;
        if (edges !== undefined) {
          edges.from[count] = i;
          edges.down[count] = down;
          edges.pair[count] = a < b ? a * 0x10000 + b : b * 0x10000 + a;
        }
        count++;
      }
    }
  }
  return count;
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
): { ids: Int32Array; count: number } {
  const parent = Int32Array.from(from, (_, k) => k);
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

interface Seam {
  /** Indices of the swatches, ascending. */
  readonly indices: readonly number[];
  /** The two pixels of each edge. */
  readonly pixels: Int32Array;
  /** 1, but for what is left when there are too many. */
  readonly places: number;
}

/** The longest seam first, ties in the order of first edges. */
function seamsOf(edges: Edges, width: number): Seam[] {
  const { from, down, pair } = edges;
  const { ids, count } = connectEdges(edges, width);
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
  const swatches = sizes.map(() => new Set<number>());
  const filled = new Int32Array(sizes.length);
  for (let k = 0; k < ids.length; k++) {
    const at = slot[ids[k]!]!;
    swatches[at]!.add(pair[k]! >>> 16).add(pair[k]! & 0xffff);
    pixels[at]![filled[at]!++] = from[k]!;
    pixels[at]![filled[at]!++] = from[k]! + (down[k] === 1 ? width : 1);
  }
  return pixels.map((own, k) => ({
    indices: [...swatches[k]!].sort((a, b) => a - b),
    pixels: own,
    places: k < MOST_PLACES ? 1 : count - k,
  }));
}

/** Spans of pixels in any order, some of them given more than once. */
function spansOfPixels(pixels: Int32Array, width: number): Int32Array {
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
