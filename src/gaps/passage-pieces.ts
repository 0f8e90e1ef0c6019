import { fillSpan } from '../runs/runs.ts';
import { findRoot, numberRoots, unite } from '../runs/union.ts';
import type { Flood } from './passage-flood.ts';
import type { Found } from './passage-list.ts';

/** Paper cut at every passage of the merge tree, and the tree that the passages make of the pieces. */
export interface Pieces {
  /** Piece of every pixel, numbered by first pixel, row by row; 0 on ink. Stored as the basins. */
  readonly pieces: Int32Array;
  readonly count: number;
  /** Pieces on both sides of each passage of the tree, in the order of `passages`. */
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly passages: readonly Found[];
}

/**
 * Joins basins across all meetings that are no passages. Whatever a setting cuts, it joins the rest
 * of these, so basins need not be looked at again. The basins are used up. O(pixels + basins).
 */
export function cutPieces({ basins, count, meetings }: Flood, found: readonly Found[]): Pieces {
  const passages = found.filter(({ meeting }) => meetings.highA[meeting] !== 0);
  const parent = Int32Array.from({ length: count + 1 }, (_, i) => i);
  let next = 0;
  for (let i = 0; i < meetings.at.length; i++) {
    if (passages[next]?.meeting === i) next++;
    else if (meetings.highA[i] !== 0) unite(parent, meetings.a[i]!, meetings.b[i]!);
  }
  const pieceOf = new Int32Array(count + 1);
  let pieceCount = 0;
  for (let p = 0; p < basins.length; p++) {
    const basin = basins[p]!;
    if (basin === 0) continue;
    if (pieceOf[basin] === 0) {
      const root = findRoot(parent, basin);
      if (pieceOf[root] === 0) pieceOf[root] = ++pieceCount;
      pieceOf[basin] = pieceOf[root]!;
    }
    basins[p] = pieceOf[basin]!;
  }
  return {
    pieces: basins,
    count: pieceCount,
    a: Int32Array.from(passages, ({ meeting }) => pieceOf[meetings.a[meeting]!]!),
    b: Int32Array.from(passages, ({ meeting }) => pieceOf[meetings.b[meeting]!]!),
    passages,
  };
}

/**
 * Regions with the passages closed that `isGap` names: pieces joined across the others. Numbered by
 * first pixel, as the pieces are. O(pixels + pieces).
 */
export function joinPieces(
  { pieces, count, a, b, passages }: Pieces,
  isGap: (passage: Found) => boolean,
  width: number,
  height: number,
  labels: Int32Array,
): void {
  const region = Int32Array.from({ length: count + 1 }, (_, i) => i);
  passages.forEach((passage, i) => {
    if (!isGap(passage)) unite(region, a[i]!, b[i]!);
  });
  numberRoots(region, (root) => root === 0);
  const stride = width + 1;
  for (let y = 0; y < height; y++) {
    const row = y * width;
    const skip = (y + 1) * stride - row;
    for (let i = row; i < row + width; ) {
      const from = i;
      const piece = pieces[i + skip]!;
      while (++i < row + width && pieces[i + skip] === piece);
      fillSpan(labels, region[piece]!, from, i);
    }
  }
}
