import { PairIndex } from '../../runs/pair-index.ts';
import type { LabelRow } from './label-rows.ts';

/** Labels as rows of runs, whose numbers stand for ids. */
export interface NumberedRows {
  readonly rows: readonly LabelRow[];
  /** Id by number. */
  readonly ids: Int32Array;
}

/**
 * Calls for the spans of two pictures' rows with the numbers in both. Of rows that are one and the
 * same, numbers that `settled` has 1 for are left out. O(runs).
 */
export function eachSpan(
  before: readonly LabelRow[],
  now: readonly LabelRow[],
  width: number,
  settled: Uint8Array,
  put: (y: number, start: number, end: number, before: number, now: number) => void,
): void {
  const allSettled = settled.every((is) => is === 1);
  for (let y = 0; y < now.length; y++) {
    const [old, row] = [before[y]!, now[y]!];
    if (old === row) {
      for (let k = 0; k < row.length && !allSettled; k += 2) {
        const number = row[k + 1]!;
        if (settled[number] === 1) continue;
        put(y, row[k]!, k + 2 < row.length ? row[k + 2]! : width, number, number);
      }
      continue;
    }
    for (let a = 0, b = 0, x = 0; x < width; ) {
      const endA = a + 2 < old.length ? old[a + 2]! : width;
      const endB = b + 2 < row.length ? row[b + 2]! : width;
      const end = Math.min(endA, endB);
      put(y, x, end, old[a + 1]!, row[b + 1]!);
      if (endA === end) a += 2;
      if (endB === end) b += 2;
      x = end;
    }
  }
}

/** By number 1 where two pictures have the same id for it and `isSame` holds of that. */
export function settledNumbers(
  before: NumberedRows,
  now: NumberedRows,
  isSame: (id: number) => boolean,
): Uint8Array {
  const settled = new Uint8Array(now.ids.length);
  for (let number = 0; number < Math.min(before.ids.length, settled.length); number++) {
    const id = now.ids[number]!;
    if (before.ids[number] === id && isSame(id)) settled[number] = 1;
  }
  return settled;
}

/**
 * The ids of regions that stand where others stood: a region gets the id of which it has the most
 * pixels, each id goes to one region, pairs with more pixels in common first, ties to the lower id
 * and then to the lower number. Regions that are left get new ones in the order of their numbers.
 *
 * @param roots - By number the number of the region that it is a part of; 0 is none.
 */
export function matchRegions(
  before: NumberedRows,
  rows: readonly LabelRow[],
  roots: Int32Array,
  width: number,
  nextId: number,
): { ids: Int32Array; nextId: number } {
  const pairs = new PairIndex();
  const present = new Uint8Array(roots.length);
  const inSameRows = pixelsInSameRows(before.rows, rows, width, roots.length);
  inSameRows.forEach((pixels, number) => {
    if (pixels === 0) return;
    present[roots[number]!] = 1;
    pairs.add(roots[number]!, before.ids[number]!, pixels);
  });
  eachSpan(before.rows, rows, width, present.slice().fill(1), (_, start, end, old, now) => {
    const root = roots[now]!;
    present[root] = 1;
    pairs.add(root, before.ids[old]!, end - start);
  });
  const { first, second, counts, size } = pairs;
  const order = Int32Array.from({ length: size }, (_, k) => k);
  order.sort((p, q) => counts[q]! - counts[p]! || second[p]! - second[q]! || first[p]! - first[q]!);
  const idOf = new Int32Array(roots.length);
  const taken = new Set<number>();
  for (const k of order) {
    const [root, id] = [first[k]!, second[k]!];
    if (root === 0 || id === 0 || idOf[root] !== 0 || taken.has(id)) continue;
    idOf[root] = id;
    taken.add(id);
  }
  let next = nextId;
  for (let root = 1; root < roots.length; root++) {
    if (present[root] === 1 && idOf[root] === 0) idOf[root] = next++;
  }
  return { ids: roots.map((root) => idOf[root]!), nextId: next };
}

/** Pixels by number in the rows that are one and the same in two pictures. O(runs). */
function pixelsInSameRows(
  before: readonly LabelRow[],
  rows: readonly LabelRow[],
  width: number,
  length: number,
): Int32Array {
  const pixels = new Int32Array(length);
  rows.forEach((row, y) => {
    if (row !== before[y]) return;
    const last = row.length - 2;
    for (let k = 0; k < last; k += 2) pixels[row[k + 1]!]! += row[k + 2]! - row[k]!;
    pixels[row[last + 1]!]! += width - row[last]!;
  });
  return pixels;
}
