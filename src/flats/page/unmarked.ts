import { mergeSmall } from '../../regions/absorb.ts';
import { addPair, type RegionAdjacency, sortedPairs } from '../../regions/adjacency.ts';
import { PairIndex } from '../../runs/pair-index.ts';
import { speckNotes } from '../input-notes.ts';
import type { PlanNote } from '../plan-report.ts';
import { RegionExtents } from '../region-extents.ts';
import type { GrownPaper } from './grown-paper.ts';
import type { LabelRow } from './label-rows.ts';
import type { UnmarkedRegions } from './run-map.ts';

/** Regions before any mark, with what `absorb` did. */
export interface Unmarked extends UnmarkedRegions {
  /** Regions that went to a neighbor. */
  readonly absorbed: number;
  readonly specks: readonly PlanNote[];
}

/** What marks find: grown regions, the small ones given to neighbors. O(runs + pairs · log). */
export function unmarkedRegions({ paper, rows }: GrownPaper, absorb: number): Unmarked {
  const { width, height, runs } = paper;
  const areas = Int32Array.from(paper.area);
  const length = paper.count + 1;
  const owner =
    absorb === 0
      ? Int32Array.from({ length }, (_, id) => id)
      : mergeSmall(adjacencyOfRows(rows, width), length, absorb, areas);
  const extents = new RegionExtents(width, height);
  for (let id = 0; id < length; id++) extents.add();
  rows.forEach((row, y) => {
    for (let k = 0; k < row.length; k += 2) {
      const end = k + 2 < row.length ? row[k + 2]! : width;
      extents.extendRow(owner[row[k + 1]!]!, y, row[k]!, end);
    }
  });
  let absorbed = 0;
  for (let id = 1; id < length; id++) if (owner[id] !== id) absorbed++;
  return {
    width,
    height,
    rows,
    owner,
    border: new Set([...owner.keys()].filter((id) => paper.rim[id]! > 0)),
    paper: runs,
    extents,
    absorbed,
    specks: speckNotes(areas, absorb),
  };
}

/**
 * Which regions share a border, and how long it is in pixel edges; as `regionAdjacency`. With `ids`,
 * labels are numbers that stand for these. O(runs).
 */
export function adjacencyOfRows(
  rows: readonly LabelRow[],
  width: number,
  ids?: Int32Array,
): RegionAdjacency {
  const pairs = new PairIndex();
  const meet = (one: number, other: number, edges: number): void => {
    if (one === other) return;
    const [a, b] = ids === undefined ? [one, other] : [ids[one]!, ids[other]!];
    if (a !== b && a !== 0 && b !== 0) addPair(pairs, a, b, edges);
  };
  rows.forEach((row, y) => {
    for (let k = 2; k < row.length; k += 2) meet(row[k - 1]!, row[k + 1]!, 1);
    if (y === 0) return;
    const above = rows[y - 1]!;
    for (let a = 0, b = 0, x = 0; x < width; ) {
      const endA = a + 2 < above.length ? above[a + 2]! : width;
      const endB = b + 2 < row.length ? row[b + 2]! : width;
      const end = Math.min(endA, endB);
      meet(above[a + 1]!, row[b + 1]!, end - x);
      if (endA === end) a += 2;
      if (endB === end) b += 2;
      x = end;
    }
  });
  return sortedPairs(pairs);
}
