import { compacted, isCrowded } from './compact-parts.ts';
import { type Parts, partAt, type RunStore, runFrom, sidesAtBorder } from './parts.ts';
import { type Flood, floodsThatEnd } from './run-floods.ts';
import { findRoot } from './union.ts';

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
  /** What may become one part: the parts of before, then new ones. By it what `Parts` has by part. */
  private parent: Int32Array;
  private groups: number;
  private readonly groupOf: number[];
  private readonly area: number[];
  private readonly perimeter: number[];
  private readonly rim: number[];
  private readonly first: number[];
  /** Groups whose first pixel may be gone. */
  private readonly headless: Set<number> = new Set();

  constructor(before: Parts) {
    const { width, height, runs, count, store, idOf } = before;
    this.before = before;
    this.size = [width, height];
    this.from = runs.from.slice();
    this.to = runs.to.slice();
    this.store = store;
    this.shared = store.used;
    this.groups = count + 1;
    this.parent = Int32Array.from({ length: count + 64 }, (_, group) => group);
    this.groupOf = Array.from(idOf);
    this.area = Array.from(before.area);
    this.perimeter = Array.from(before.perimeter);
    this.rim = Array.from(before.rim);
    this.first = Array.from(before.first);
  }

  /** Takes closed pixels from the parts that they were of. */
  count(closed: Int32Array): void {
    const [width] = this.size;
    const gone = new Set(closed);
    for (const p of closed) {
      const [x, y] = [p % width, Math.floor(p / width)];
      const group = this.groupAt(x, y);
      this.add(group, -1, -4, -sidesAtBorder(this.size, y, x, x + 1));
      if (this.first[group] === p) this.headless.add(group);
      this.eachSide(x, y, (u, v) => {
        const q = v * width + u;
        if ((q < p && gone.has(q)) || this.groupAt(u, v) === 0) return;
        this.perimeter[group]! += 2;
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
    this.reserve(stop - first + closed.length + opened.length);
    const { start, end, numbers } = this.store;
    const begin = this.store.used;
    let c = 0;
    const put = (from: number, to: number, number: number): void => {
      const last = this.store.used - 1;
      if (last >= begin && end[last] === from) {
        // An opened pixel lies between.
        this.join(numbers[last]!, number);
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
        put(x, x + 1, this.newNumber(opened[o]!));
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
    const [width] = this.size;
    const come = new Set(opened);
    for (const p of opened) {
      const [x, y] = [p % width, Math.floor(p / width)];
      const number = this.store.numbers[this.runAt(x, y)]!;
      this.eachSide(x, y, (u, v) => {
        const [q, run] = [v * width + u, this.runAt(u, v)];
        if (run < 0) return;
        this.join(number, this.store.numbers[run]!);
        if (q < p && come.has(q)) return;
        this.perimeter[this.rootOf(number)]! -= 2;
      });
    }
  }

  /** Finds what has come off beside closed pixels, and numbers it anew. */
  divide(closed: Int32Array): void {
    this.reserve(0);
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
      const root = this.rootOf(numbers[run]!);
      const flood = { found: [run, y], ahead: [run, y], at: 0 };
      const own = floods.get(root);
      if (own === undefined) floods.set(root, [flood]);
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
    const { start, end, numbers } = this.store;
    const group = this.rootOf(numbers[found[0]!]!);
    const number = this.newNumber();
    const own = this.groupOf[number]!;
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
    this.add(own, area, perimeter, rim);
    this.add(group, -area, -perimeter, -rim);
    this.first[own] = first;
    if (this.first[group] === first) this.headless.add(group);
    return number;
  }

  /** Gives the runs of a row the numbers that their marks tell. */
  private renumber(y: number): void {
    if (this.from[y]! < this.shared) {
      const [first, stop] = [this.from[y]!, this.to[y]!];
      this.reserve(stop - first);
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
    const { before, area, perimeter, rim, first, groups, groupOf, parent } = this;
    const { width, height } = before;
    const there: number[] = [];
    for (let group = 1; group < groups; group++) {
      if (parent[group] !== group || area[group] === 0) continue;
      if (this.headless.has(group)) first[group] = this.firstOf(group);
      there.push(group);
    }
    there.sort((a, b) => first[a]! - first[b]!);
    const idOf = new Int32Array(groups);
    there.forEach((group, i) => {
      idOf[group] = i + 1;
    });
    const byPart = (values: readonly number[], none: number): Float64Array => {
      const list = new Float64Array(there.length + 1);
      list[0] = none;
      for (let id = 1; id < list.length; id++) list[id] = values[there[id - 1]!]!;
      return list;
    };
    const { start, end, numbers } = this.store;
    const idOfGroup = (group: number): number => idOf[findRoot(parent, group)]!;
    const parts: Parts = {
      width,
      height,
      count: there.length,
      runs: { from: this.from, to: this.to, start, end },
      numbers,
      idOf: Int32Array.from(groupOf, idOfGroup),
      area: byPart(area, 0),
      perimeter: byPart(perimeter, 0),
      rim: byPart(rim, 0),
      first: byPart(first, -1),
      store: this.store,
    };
    const nowOf = new Int32Array(before.count + 1);
    for (let id = 1; id <= before.count; id++) nowOf[id] = idOfGroup(id);
    return { parts: isCrowded(parts) ? compacted(parts) : parts, nowOf };
  }

  /** The first pixel of a group, which is none before the one that was. */
  private firstOf(group: number): number {
    const { start, numbers } = this.store;
    const [width, height] = this.size;
    for (let y = Math.floor(this.first[group]! / width); y < height; y++) {
      for (let r = this.from[y]!; r < this.to[y]!; r++) {
        if (this.rootOf(numbers[r]!) === group) return y * width + start[r]!;
      }
    }
    return -1;
  }

  private rootOf(number: number): number {
    return findRoot(this.parent, this.groupOf[number]!);
  }

  /** Calls for the pixels at the four sides of one. */
  private eachSide(x: number, y: number, visit: (x: number, y: number) => void): void {
    const [width, height] = this.size;
    if (x > 0) visit(x - 1, y);
    if (x + 1 < width) visit(x + 1, y);
    if (y > 0) visit(x, y - 1);
    if (y + 1 < height) visit(x, y + 1);
  }

  /** The part that a pixel was of; 0 for none. */
  private groupAt(x: number, y: number): number {
    return partAt(this.before, x, y);
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

  /** A number of a group of its own: of a pixel, or of nothing yet. */
  private newNumber(pixel?: number): number {
    const group = this.groups++;
    if (group === this.parent.length) {
      const longer = new Int32Array(2 * group);
      longer.set(this.parent);
      this.parent = longer;
    }
    this.parent[group] = group;
    this.area[group] = 0;
    this.perimeter[group] = 0;
    this.rim[group] = 0;
    this.first[group] = pixel ?? -1;
    if (pixel !== undefined) {
      const [width] = this.size;
      const [x, y] = [pixel % width, Math.floor(pixel / width)];
      this.add(group, 1, 4, sidesAtBorder(this.size, y, x, x + 1));
    }
    return this.groupOf.push(group) - 1;
  }

  private add(group: number, area: number, perimeter: number, rim: number): void {
    this.area[group]! += area;
    this.perimeter[group]! += perimeter;
    this.rim[group]! += rim;
  }

  /** Makes one group of those of two numbers. */
  private join(one: number, other: number): void {
    const [a, b] = [this.rootOf(one), this.rootOf(other)];
    if (a === b) return;
    const [keep, drop] = a < b ? [a, b] : [b, a];
    const { area, perimeter, rim, first, headless } = this;
    this.parent[drop] = keep;
    this.add(keep, area[drop]!, perimeter[drop]!, rim[drop]!);
    if (first[drop]! > first[keep]!) return;
    first[keep] = first[drop]!;
    if (headless.has(drop)) headless.add(keep);
    else headless.delete(keep);
  }

  /** Makes room for some more runs. */
  private reserve(runs: number): void {
    const { store } = this;
    const { used } = store;
    if (used + runs <= store.marks.length) return;
    const length = Math.ceil(1.5 * (used + runs)) + 1024;
    const longer = (list: Int32Array): Int32Array => {
      const copy = new Int32Array(length);
      copy.set(list.subarray(0, used));
      return copy;
    };
    for (const key of ['start', 'end', 'numbers', 'marks'] as const)
      store[key] = longer(store[key]);
  }
}
