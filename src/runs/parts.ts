import type { Packed } from '../raster/pack.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { RunStore } from './run-store.ts';
import { findRuns } from './runs.ts';
import { connectRuns, singleSets } from './union.ts';

/** Runs row by row, of which rows may lie anywhere: those of row y are `from[y]` to `to[y] - 1`. */
export interface RowRuns {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
}

/**
 * The 4-connected parts of what is 0 in a mask, named 1 to `count` by their first pixels, row by row.
 * Nothing of it changes; `changeParts` makes others, which share the rows that are the same.
 */
export interface Parts {
  readonly width: number;
  readonly height: number;
  readonly count: number;
  readonly runs: RowRuns;
  /** By run a number, which may be one of several of a part. */
  readonly numbers: Int32Array;
  /** Part by number. */
  readonly idOf: Int32Array;
  /** By part: pixels. */
  readonly area: Float64Array;
  /** By part: sides of pixels where it ends. */
  readonly perimeter: Float64Array;
  /** By part: sides of pixels at the picture's border. */
  readonly rim: Float64Array;
  /** By part: index of the first pixel. */
  readonly first: Float64Array;
  /** Room for the rows of other states. */
  readonly store: RunStore;
}

/** O(words + runs); 16 bytes per run. */
export function findParts(packed: Packed, tick?: Tick): Parts {
  const { width, height } = packed;
  const { rowStart, start, end } = findRuns(packed, 0, partOf(tick, 0, 0.2));
  const { ids, count } = connectRuns({ rowStart, start, end }, 4, partOf(tick, 0.2, 0.6));
  const runs = { from: rowStart.subarray(0, height), to: rowStart.subarray(1), start, end };
  const area = new Float64Array(count + 1);
  const perimeter = new Float64Array(count + 1);
  const rim = new Float64Array(count + 1);
  const first = new Float64Array(count + 1).fill(-1);
  const size = [width, height] as const;
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(0.6 + (0.4 * y) / height);
    let above = y === 0 ? 0 : rowStart[y - 1]!;
    const aboveEnd = y === 0 ? 0 : rowStart[y]!;
    for (let r = rowStart[y]!; r < rowStart[y + 1]!; r++) {
      const id = ids[r]!;
      const [x0, x1] = [start[r]!, end[r]!];
      area[id]! += x1 - x0;
      perimeter[id]! += 2 + 2 * (x1 - x0);
      rim[id]! += sidesAtBorder(size, y, x0, x1);
      if (first[id] === -1) first[id] = y * width + x0;
      while (above < aboveEnd && end[above]! <= x0) above++;
      for (let a = above; a < aboveEnd && start[a]! < x1; a++) {
        perimeter[id]! -= 2 * (Math.min(x1, end[a]!) - Math.max(x0, start[a]!));
      }
    }
  }
  const store = {
    start,
    end,
    numbers: ids,
    marks: new Int32Array(0),
    stamp: 0,
    used: start.length,
  };
  const idOf = singleSets(count + 1);
  return { width, height, count, runs, numbers: ids, idOf, area, perimeter, rim, first, store };
}

/** Sides of the pixels of a run that lie on the picture's border. */
export function sidesAtBorder(
  [width, height]: readonly [number, number],
  y: number,
  start: number,
  end: number,
): number {
  const rows = (y === 0 ? 1 : 0) + (y === height - 1 ? 1 : 0);
  return (start === 0 ? 1 : 0) + (end === width ? 1 : 0) + rows * (end - start);
}

/** The first run of a row that ends behind column x; `to[y]` for none. O(log runs of the row). */
export function runFrom({ from, to, end }: RowRuns, x: number, y: number): number {
  let low = from[y]!;
  let high = to[y]!;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (end[middle]! <= x) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Whether a pixel lies in a run. O(log runs of the row). */
export function isInRun(runs: RowRuns, x: number, y: number): boolean {
  const run = runFrom(runs, x, y);
  return run < runs.to[y]! && runs.start[run]! <= x;
}

/** The part of a pixel; 0 for none. O(log runs of the row). */
export function partAt({ runs, numbers, idOf }: Parts, x: number, y: number): number {
  const run = runFrom(runs, x, y);
  return run < runs.to[y]! && runs.start[run]! <= x ? idOf[numbers[run]!]! : 0;
}

/** Whether two states have one and the same row. */
export function isSameRow(a: Parts, b: Parts, y: number): boolean {
  const isSame = a.runs.from[y] === b.runs.from[y] && a.runs.to[y] === b.runs.to[y];
  return isSame && a.store === b.store;
}

/** Whether two states have the same runs within bounds. O(rows) where they share these. */
export function isSameWithin(
  a: Parts,
  b: Parts,
  [x0, y0, x1, y1]: readonly [number, number, number, number],
): boolean {
  for (let y = y0; y < y1; y++) {
    if (isSameRow(a, b, y)) continue;
    let [i, j] = [runFrom(a.runs, x0, y), runFrom(b.runs, x0, y)];
    for (;;) {
      const isIn = i < a.runs.to[y]! && a.runs.start[i]! < x1;
      if (isIn !== (j < b.runs.to[y]! && b.runs.start[j]! < x1)) return false;
      if (!isIn) break;
      if (Math.max(x0, a.runs.start[i]!) !== Math.max(x0, b.runs.start[j]!)) return false;
      if (Math.min(x1, a.runs.end[i++]!) !== Math.min(x1, b.runs.end[j++]!)) return false;
    }
  }
  return true;
}
