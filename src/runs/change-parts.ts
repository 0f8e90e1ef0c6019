import { compacted, isCrowded } from './compact-parts.ts';
import { PartGroups } from './part-groups.ts';
import { type Parts, partAt, runFrom, sidesAtBorder } from './parts.ts';
import { type Flood, floodsThatEnd } from './run-floods.ts';
import { type RunStore, reserveRuns } from './run-store.ts';

/** The parts after pixels were closed or opened. */
export interface ChangedParts {
  readonly parts: Parts;
  /** By part of before the one that has its place now; 0 for none. */
  readonly nowOf: Int32Array;
}

/**
 * The parts with some pixels more in the mask, `closed`, and some less, `opened`, by index and in
 * order. Rows in which nothing is other than before are shared with the parts that are given.
 *
 * What opened pixels touch becomes one part. Where pixels were closed, floods set out from all runs
 * beside them, a run at a time each: those that meet go on as one, and one that ends before the
 * last is a part that has come off. So the work is that for the lesser pieces.
 *
 * O(runs of rows with changed pixels + runs of lesser pieces + parts + rows).
 */
export function changeParts(before: Parts, closed: Int32Array, opened: Int32Array): ChangedParts {
  const change = new PartChange(before);
  change.count(closed);
  change.rewrite(closed, opened);
  change.unite(opened);
  change.divide(closed);
  return change.finish();
}

/** What of a list in order is not in another one. */
export function withoutCommon(list: Int32Array, other: Int32Array): Int32Array {
  let k = 0;
  return list.filter((p) => {
    while (k < other.length && other[k]! < p) k++;
    return other[k] !== p;
  });
}

class PartChange {
  private readonly before: Parts;
  private readonly from: Int32Array;
  private readonly to: Int32Array;
  private readonly size: readonly [number, number];
  private readonly store: RunStore;
  /** Runs before this one are shared with other states. */
  private readonly shared: number;
  private readonly groups: PartGroups;

  constructor(before: Parts) {
    const { width, height, runs, store } = before;
    this.before = before;
    this.size = [width, height];
    this.from = runs.from.slice();
    this.to = runs.to.slice();
    this.store = store;
    this.shared = store.used;
    this.groups = new PartGroups(before);
  }

  /** Takes closed pixels from the parts that they were of. */
  count(closed: Int32Array): void {
    const { size, groups } = this;
    const [width] = size;
    const gone = new Set(closed);
    for (const p of closed) {
      const [x, y] = [p % width, Math.floor(p / width)];
      const group = partAt(this.before, x, y);
      groups.add(group, -1, -4, -sidesAtBorder(size, y, x, x + 1));
      if (groups.first[group] === p) groups.headless.add(group);
      this.eachSide(x, y, (u, v) => {
        const q = v * width + u;
        if ((q < p && gone.has(q)) || partAt(this.before, u, v) === 0) return;
        groups.perimeter[group]! += 2;
      });
    }
  }

  /** Writes the rows with changed pixels. */
  rewrite(closed: Int32Array, opened: Int32Array): void {
    const [width, height] = this.size;
    const end = width * height;
    for (let c = 0, o = 0; c < closed.length || o < opened.length; ) {
      const y = Math.floor(Math.min(closed[c] ?? end, opened[o] ?? end) / width);
      const stop = (y + 1) * width;
      let [toC, toO] = [c, o];
      while (toC < closed.length && closed[toC]! < stop) toC++;
      while (toO < opened.length && opened[toO]! < stop) toO++;
      this.rewriteRow(y, closed.subarray(c, toC), opened.subarray(o, toO));
      [c, o] = [toC, toO];
    }
  }

  private rewriteRow(y: number, closed: Int32Array, opened: Int32Array): void {
    const row = y * this.size[0];
    const [first, stop] = [this.from[y]!, this.to[y]!];
    reserveRuns(this.store, stop - first + closed.length + opened.length);
    const { start, end, numbers } = this.store;
    const begin = this.store.used;
    let c = 0;
    const put = (from: number, to: number, number: number): void => {
      const last = this.store.used - 1;
      if (last >= begin && end[last] === from) {
        // An opened pixel lies between.
        this.groups.join(numbers[last]!, number);
        end[last] = to;
        return;
      }
      start[this.store.used] = from;
      end[this.store.used] = to;
      numbers[this.store.used++] = number;
    };
    let o = 0;
    const putOpened = (limit: number): void => {
      for (; o < opened.length && opened[o]! < row + limit; o++) {
        const x = opened[o]! - row;
        put(x, x + 1, this.numberOf(opened[o]!));
      }
    };
    for (let r = first; r < stop; r++) {
      let x = start[r]!;
      putOpened(x);
      for (; c < closed.length && closed[c]! < row + end[r]!; c++) {
        if (x < closed[c]! - row) put(x, closed[c]! - row, numbers[r]!);
        x = closed[c]! - row + 1;
      }
      if (x < end[r]!) put(x, end[r]!, numbers[r]!);
    }
    putOpened(this.size[0]);
    this.from[y] = begin;
    this.to[y] = this.store.used;
  }

  /** Joins opened pixels with what lies above and below them, and counts their sides. */
  unite(opened: Int32Array): void {
    const { groups } = this;
    const [width] = this.size;
    const come = new Set(opened);
    for (const p of opened) {
      const [x, y] = [p % width, Math.floor(p / width)];
      const number = this.store.numbers[this.runAt(x, y)]!;
      this.eachSide(x, y, (u, v) => {
        const [q, run] = [v * width + u, this.runAt(u, v)];
        if (run < 0) return;
        groups.join(number, this.store.numbers[run]!);
        if (q < p && come.has(q)) return;
        groups.perimeter[groups.of(number)]! -= 2;
      });
    }
  }

  /** Finds what has come off beside closed pixels, and numbers it anew. */
  divide(closed: Int32Array): void {
    reserveRuns(this.store, 0);
    const pieces: Flood[] = [];
    for (const floods of this.floodsBeside(closed).values()) {
      if (floods.length < 2) continue;
      pieces.push(...floodsThatEnd(floods, this.store, this.eachAround));
    }
    const rows = new Set<number>();
    for (const { found } of pieces) {
      const number = this.measure(found);
      for (let k = 0; k < found.length; k += 2) {
        this.store.marks[found[k]!] = -number;
        rows.add(found[k + 1]!);
      }
    }
    for (const y of rows) this.renumber(y);
  }

  /** Floods that set out from the runs beside closed pixels, by group. */
  private floodsBeside(closed: Int32Array): Map<number, Flood[]> {
    const [width] = this.size;
    const floods = new Map<number, Flood[]>();
    const stamp = ++this.store.stamp;
    const { marks, numbers } = this.store;
    const add = (x: number, y: number): void => {
      const run = this.runAt(x, y);
      if (run < 0 || marks[run] === stamp) return;
      marks[run] = stamp;
      const group = this.groups.of(numbers[run]!);
      const flood = { found: [run, y], ahead: [run, y], at: 0 };
      const own = floods.get(group);
      if (own === undefined) floods.set(group, [flood]);
      else own.push(flood);
    };
    for (const p of closed) this.eachSide(p % width, Math.floor(p / width), add);
    return floods;
  }

  private readonly eachAround = (
    run: number,
    y: number,
    visit: (other: number, row: number) => void,
  ): void => {
    for (const row of [y - 1, y + 1]) this.eachBeside(run, row, (other) => visit(other, row));
  };

  /** Calls for the runs of a row that share a column with a run of another. */
  private eachBeside(run: number, y: number, visit: (run: number) => void): void {
    if (y < 0 || y >= this.size[1]) return;
    const { start, end } = this.store;
    const stop = this.to[y]!;
    for (let r = this.runFrom(start[run]!, y); r < stop && start[r]! < end[run]!; r++) visit(r);
  }

  /** Takes a piece from its group; gives the number of its own. */
  private measure(found: readonly number[]): number {
    const { groups } = this;
    const { start, end, numbers } = this.store;
    const group = groups.of(numbers[found[0]!]!);
    const number = groups.open(-1);
    const own = groups.of(number);
    let [area, perimeter, rim, first] = [0, 0, 0, Number.POSITIVE_INFINITY];
    for (let k = 0; k < found.length; k += 2) {
      const [run, y] = [found[k]!, found[k + 1]!];
      const [x0, x1] = [start[run]!, end[run]!];
      area += x1 - x0;
      perimeter += 2 + 2 * (x1 - x0);
      rim += sidesAtBorder(this.size, y, x0, x1);
      first = Math.min(first, y * this.size[0] + x0);
      this.eachBeside(run, y - 1, (above) => {
        perimeter -= 2 * (Math.min(x1, end[above]!) - Math.max(x0, start[above]!));
      });
    }
    groups.add(own, area, perimeter, rim);
    groups.add(group, -area, -perimeter, -rim);
    groups.first[own] = first;
    if (groups.first[group] === first) groups.headless.add(group);
    return number;
  }

  /** Gives the runs of a row the numbers that their marks tell. */
  private renumber(y: number): void {
    if (this.from[y]! < this.shared) {
      const [first, stop] = [this.from[y]!, this.to[y]!];
      reserveRuns(this.store, stop - first);
      const { start, end, numbers, marks, used } = this.store;
      start.copyWithin(used, first, stop);
      end.copyWithin(used, first, stop);
      numbers.copyWithin(used, first, stop);
      marks.copyWithin(used, first, stop);
      marks.fill(0, first, stop);
      this.store.used += stop - first;
      this.from[y] = used;
      this.to[y] = this.store.used;
    }
    const { numbers, marks } = this.store;
    for (let r = this.from[y]!; r < this.to[y]!; r++) {
      if (marks[r]! >= 0) continue;
      numbers[r] = -marks[r]!;
      marks[r] = 0;
    }
  }

  finish(): ChangedParts {
    const { before, groups } = this;
    const { width, height } = before;
    const { area, perimeter, rim, first, headless } = groups;
    const there: number[] = [];
    for (let group = 1; group < groups.count; group++) {
      if (groups.rootOf(group) !== group || area[group] === 0) continue;
      if (headless.has(group)) first[group] = this.firstOf(group);
      there.push(group);
    }
    there.sort((a, b) => first[a]! - first[b]!);
    const ids = new Int32Array(groups.count);
    there.forEach((group, i) => {
      ids[group] = i + 1;
    });
    const byPart = (values: readonly number[], none: number): Float64Array => {
      const list = new Float64Array(there.length + 1);
      list[0] = none;
      for (let id = 1; id < list.length; id++) list[id] = values[there[id - 1]!]!;
      return list;
    };
    const { start, end, numbers } = this.store;
    const parts: Parts = {
      width,
      height,
      count: there.length,
      runs: { from: this.from, to: this.to, start, end },
      numbers,
      idOf: groups.byNumber().map((group) => ids[group]!),
      area: byPart(area, 0),
      perimeter: byPart(perimeter, 0),
      rim: byPart(rim, 0),
      first: byPart(first, -1),
      store: this.store,
    };
    const nowOf = new Int32Array(before.count + 1);
    for (let id = 1; id <= before.count; id++) nowOf[id] = ids[groups.rootOf(id)]!;
    return { parts: isCrowded(parts) ? compacted(parts) : parts, nowOf };
  }

  /** The first pixel of a group, which is none before the one that was. */
  private firstOf(group: number): number {
    const { groups } = this;
    const { start, numbers } = this.store;
    const [width, height] = this.size;
    for (let y = Math.floor(groups.first[group]! / width); y < height; y++) {
      for (let r = this.from[y]!; r < this.to[y]!; r++) {
        if (groups.of(numbers[r]!) === group) return y * width + start[r]!;
      }
    }
    return -1;
  }

  /** Calls for the pixels at the four sides of one. */
  private eachSide(x: number, y: number, visit: (x: number, y: number) => void): void {
    const [width, height] = this.size;
    if (x > 0) visit(x - 1, y);
    if (x + 1 < width) visit(x + 1, y);
    if (y > 0) visit(x, y - 1);
    if (y + 1 < height) visit(x, y + 1);
  }

  /** The run of a pixel as it is now; -1 for none. */
  private runAt(x: number, y: number): number {
    const run = this.runFrom(x, y);
    return run < this.to[y]! && this.store.start[run]! <= x ? run : -1;
  }

  private runFrom(x: number, y: number): number {
    const { from, to, store } = this;
    return runFrom({ from, to, start: store.start, end: store.end }, x, y);
  }

  /** A number of a group of its own, of one pixel. */
  private numberOf(pixel: number): number {
    const { size, groups } = this;
    const number = groups.open(pixel);
    const [x, y] = [pixel % size[0], Math.floor(pixel / size[0])];
    groups.add(groups.of(number), 1, 4, sidesAtBorder(size, y, x, x + 1));
    return number;
  }
}
