import { partOf, TICK_PIXELS, TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { Connectivity } from '../raster/types.ts';
import type { Runs } from './runs.ts';

/**
 * Connected components over runs (two-pass labeling): one id per run, 1..count by first pixel, row by row.
 *
 * Union-find where the smaller run index is the root, so that roots come in the order of their
 * first pixel and one pass numbers them (He, Chao, Suzuki 2008, "A run-based two-scan labeling
 * algorithm", DOI 10.1109/TIP.2008.919369; here the equivalences are resolved over the run table
 * itself). Two runs of neighboring rows connect when they share a column (4), or touch at a corner
 * (8). Near O(runs); 4 bytes per run.
 */
export function connectRuns(
  { rowStart, start, end }: Runs,
  connectivity: Connectivity,
  tick?: Tick,
): { ids: Int32Array; count: number } {
  const parent = new Int32Array(start.length);
  const reach = connectivity === 8 ? 1 : 0;
  const rows = rowStart.length - 1;
  for (let y = 0; y < rows; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick((0.6 * y) / rows);
    const rowEnd = rowStart[y + 1]!;
    let above = y === 0 ? 0 : rowStart[y - 1]!;
    const aboveEnd = y === 0 ? 0 : rowStart[y]!;
    for (let r = rowStart[y]!; r < rowEnd; r++) {
      const from = start[r]! - reach;
      const to = end[r]! + reach;
      parent[r] = r;
      while (above < aboveEnd && end[above]! <= from) above++;
      for (let a = above; a < aboveEnd && start[a]! < to; a++) unite(parent, a, r);
    }
  }
  return { ids: parent, count: numberRoots(parent, undefined, partOf(tick, 0.6, 1)) };
}

/** Pixels of each component that `connectRuns` numbered. O(runs). */
export function componentAreas(
  { start, end }: Runs,
  { ids, count }: { readonly ids: Int32Array; readonly count: number },
): Int32Array {
  const areas = new Int32Array(count + 1);
  for (let r = 0; r < ids.length; r++) areas[ids[r]!]! += end[r]! - start[r]!;
  return areas;
}

/** The parents of so many sets of one node each. */
export function singleSets(count: number): Int32Array {
  const parent = new Int32Array(count);
  for (let node = 0; node < count; node++) parent[node] = node;
  return parent;
}

/** Joins the sets of a and b under the smaller root. */
export function unite(parent: Int32Array, a: number, b: number): void {
  const rootA = findRoot(parent, a);
  const rootB = findRoot(parent, b);
  if (rootA < rootB) parent[rootB] = rootA;
  else parent[rootA] = rootB;
}

/** Root of a set, halving the path on the way. */
export function findRoot(parent: Int32Array, node: number): number {
  let at = node;
  let up = parent[at]!;
  while (up !== at) {
    const over = parent[up]!;
    parent[at] = over;
    at = over;
    up = parent[at]!;
  }
  return at;
}

/**
 * Turns parents into ids 1..count, in place. A root comes before its members, so a member's parent
 * holds its id already: ids are stored negated to tell them from parents until the end. Sets whose
 * root is background get 0.
 */
export function numberRoots(
  parent: Int32Array,
  isBackground: (root: number) => boolean = () => false,
  tick?: Tick,
): number {
  let count = 0;
  for (let i = 0; i < parent.length; i++) {
    if (tick !== undefined && i % TICK_PIXELS === 0) tick((0.6 * i) / parent.length);
    const up = parent[i]!;
    if (up !== i) parent[i] = parent[up]!;
    else parent[i] = isBackground(i) ? 0 : -++count;
  }
  for (let i = 0; i < parent.length; i++) {
    if (tick !== undefined && i % TICK_PIXELS === 0) tick(0.6 + (0.4 * i) / parent.length);
    parent[i] = -parent[i]!;
  }
  return count;
}
