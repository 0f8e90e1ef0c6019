import { fillSpan } from '../runs/fill-span.ts';
import { findRoot, numberRoots, singleSets, unite } from '../runs/union.ts';
import type { Flood } from './flood.ts';
import type { Levels } from './levels.ts';
import type { Found } from './list.ts';

/** Paper cut at every passage of the merge tree, and the tree that the passages make of the pieces. */
export interface Pieces {
  /**
   * Runs of one piece, or of ink, row by row: those of row y are `rowStart[y]` to
   * `rowStart[y + 1] - 1`, and each ends where the next begins.
   */
  readonly rowStart: Int32Array;
  readonly end: Int32Array;
  /** Piece of every run, numbered by first pixel, row by row; 0 on ink. */
  readonly piece: Int32Array;
  readonly count: number;
  /** Pieces on both sides of each passage of the tree, in the order of `passages`. */
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly passages: readonly Found[];
}

/**
 * Joins basins across all meetings that are no passages. Whatever a setting cuts, it joins the rest
 * of these, so basins need not be looked at again. O(pixels + basins); 8 bytes per run.
 */
export function cutPieces(
  { basins, count, meetings }: Flood,
  { stride, width, height }: Levels,
  found: readonly Found[],
): Pieces {
  const passages = found.filter(({ meeting }) => meetings.highA[meeting] !== 0);
  const parent = singleSets(count + 1);
  let next = 0;
  for (let i = 0; i < meetings.at.length; i++) {
    if (passages[next]?.meeting === i) next++;
    else if (meetings.highA[i] !== 0) unite(parent, meetings.a[i]!, meetings.b[i]!);
  }
  const { pieceOf, pieceCount } = numberPieces(parent);
  const rowStart = new Int32Array(height + 1);
  for (let y = 0; y < height; y++) {
    let runs = 1;
    const from = (y + 1) * stride;
    for (let p = from + 1; p < from + width; p++) {
      if (basins[p] !== basins[p - 1] && pieceOf[basins[p]!] !== pieceOf[basins[p - 1]!]) runs++;
    }
    rowStart[y + 1] = rowStart[y]! + runs;
  }
  const end = new Int32Array(rowStart[height]!);
  const piece = new Int32Array(rowStart[height]!);
  let r = 0;
  for (let y = 0; y < height; y++) {
    const from = (y + 1) * stride;
    for (let p = from + 1; p < from + width; p++) {
      if (basins[p] === basins[p - 1]) continue;
      const before = pieceOf[basins[p - 1]!]!;
      if (pieceOf[basins[p]!] === before) continue;
      piece[r] = before;
      end[r++] = p - from;
    }
    piece[r] = pieceOf[basins[from + width - 1]!]!;
    end[r++] = width;
  }
  return {
    rowStart,
    end,
    piece,
    count: pieceCount,
    a: Int32Array.from(passages, ({ meeting }) => pieceOf[meetings.a[meeting]!]!),
    b: Int32Array.from(passages, ({ meeting }) => pieceOf[meetings.b[meeting]!]!),
    passages,
  };
}

/** Numbers sets of basins, which are in the order of their first pixels, as their pieces will be. */
function numberPieces(parent: Int32Array): { pieceOf: Int32Array; pieceCount: number } {
  const pieceOf = new Int32Array(parent.length);
  let pieceCount = 0;
  for (let basin = 1; basin < parent.length; basin++) {
    const root = findRoot(parent, basin);
    if (pieceOf[root] === 0) pieceOf[root] = ++pieceCount;
    pieceOf[basin] = pieceOf[root]!;
  }
  return { pieceOf, pieceCount };
}

/**
 * Regions with the passages closed that `isGap` names: pieces joined across the others. Numbered by
 * first pixel, as the pieces are. O(pixels + pieces).
 */
export function joinPieces(
  { rowStart, end, piece, count, a, b, passages }: Pieces,
  isGap: (passage: Found) => boolean,
  width: number,
  labels: Int32Array,
): void {
  const region = singleSets(count + 1);
  passages.forEach((passage, i) => {
    if (!isGap(passage)) unite(region, a[i]!, b[i]!);
  });
  numberRoots(region, (root) => root === 0);
  for (let y = 0; y + 1 < rowStart.length; y++) {
    const row = y * width;
    let from = row;
    for (let r = rowStart[y]!; r < rowStart[y + 1]!; r++) {
      const to = row + end[r]!;
      fillSpan(labels, region[piece[r]!]!, from, to);
      from = to;
    }
  }
}
