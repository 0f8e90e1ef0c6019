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

/**
 * What marks find: grown regions, the small ones given to neighbors. What does not depend on paper
 * alone is taken over from other regions with the same rows. O(runs + pairs · log), or O(rows).
 */
export function unmarkedRegions(
  { paper, rows }: GrownPaper,
  absorb: number,
  known?: Pick<Unmarked, 'rows' | 'owner' | 'extents' | 'absorbed'>,
): Unmarked {
  const { width, height } = paper;
  const areas = Int32Array.from(paper.area);
  const length = paper.count + 1;
  const shared = {
    width,
    height,
    border: new Set([...areas.keys()].filter((id) => paper.rim[id]! > 0)),
    paper,
    specks: speckNotes(areas, absorb),
  };
  // What is small enough to be absorbed is told by its paper.
  const same = absorb === 0 && known?.absorbed === 0 && isSameRows(known.rows, rows);
  if (same)
    return { ...shared, rows: known.rows, owner: known.owner, extents: known.extents, absorbed: 0 };
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
  return { ...shared, rows, owner, extents, absorbed };
}

function isSameRows(a: readonly LabelRow[], b: readonly LabelRow[]): boolean {
  return a.every((row, y) => row === b[y]);
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
