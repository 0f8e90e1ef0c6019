import type { Rings } from '../polygon/rings-argument.ts';
import { scanRings } from '../polygon/scan.ts';
import { IntList } from '../raster/int-list.ts';
import { TICK_ROWS } from '../raster/progress.ts';
import type { Bounds } from '../raster/types.ts';
import { findRoot, unite } from '../runs/union.ts';

/** Told of a run of pixels of one region, by the region and the pixels. */
type PutRun = (region: number, start: number, end: number) => void;

/** Where runs come from. */
export interface RunSource {
  readonly width: number;
  readonly height: number;
  /** Calls for the runs that tile pixels of a row, from left to right. */
  eachRun(from: number, to: number, put: PutRun): void;
}

/**
 * The bounds of a polygon, one pixel wider all round, as runs that tile each row: each run is of one
 * region, and inside the polygon or outside.
 *
 * ```text
 *   1 1 1 1 1 1        1 1 1 1 1 1
 *   1 1[1 1]2 2   →    - - + + . .      + taken from region 1, - left of it, . of no interest
 *   1 1[1 1]2 2        - - + + . .
 * ```
 *
 * From them follow the pieces to take, and whether what is left of a region may have fallen apart:
 * it has not where all its runs that touch a piece are connected within these bounds, since a way
 * through the piece can go round it there. O(pixels of the bounds), without a call for each pixel;
 * 12 bytes per run.
 */
export class PolygonRuns {
  /** Half-open, one pixel wider than the polygon where the picture goes on. */
  bounds: Bounds = [0, 0, 0, 0];
  /** Of the picture. */
  private width = 0;
  /** Pixel at which each run starts; where it ends, the next of the row does, or the bounds. */
  private readonly start: IntList = new IntList();
  private readonly end: IntList = new IntList();
  /** Region of the run where it is inside, its negative where outside, 0 for what is left alone. */
  private readonly key: IntList = new IntList();
  private readonly rowStart: IntList = new IntList();
  private parent: Int32Array = new Int32Array(0);
  /** 1 for runs outside that touch one inside of the same region. */
  private touching: Uint8Array = new Uint8Array(0);
  private readonly inside: Map<number, number> = new Map();
  private readonly whole: Set<number> = new Set();

  /** Finds the runs of a polygon; gives whether it holds a pixel. */
  scan(polygon: Rings, source: RunSource, pulse: () => void): boolean {
    const { width, height } = source;
    this.width = width;
    const rows = new IntList();
    const spans = new IntList();
    let [x0, x1] = [width, 0];
    scanRings(polygon, width, height, 'evenodd', {
      row: (y, list, count) => {
        if (y % TICK_ROWS === 0) pulse();
        rows.push(y);
        rows.push(spans.length);
        for (let i = 0; i < count; i++) spans.push(list[i]!);
        x0 = Math.min(x0, list[0]!);
        x1 = Math.max(x1, list[count - 1]!);
      },
    });
    for (const list of [this.start, this.end, this.key, this.rowStart]) list.length = 0;
    this.inside.clear();
    this.whole.clear();
    if (rows.length === 0) return false;
    const y0 = rows.data[0]!;
    const y1 = rows.data[rows.length - 2]! + 1;
    this.bounds = [
      Math.max(0, x0 - 1),
      Math.max(0, y0 - 1),
      Math.min(width, x1 + 1),
      Math.min(height, y1 + 1),
    ];
    rows.push(-1);
    rows.push(spans.length);
    let next = 0;
    for (let y = this.bounds[1]; y < this.bounds[3]; y++) {
      if (y % TICK_ROWS === 0) pulse();
      this.rowStart.push(this.start.length);
      const row = y * width;
      let x = this.bounds[0];
      if (rows.data[next] === y) {
        for (let i = rows.data[next + 1]!; i < rows.data[next + 3]!; i += 2) {
          const [from, to] = [spans.data[i]!, spans.data[i + 1]!];
          this.addRuns(source, row + x, row + from, -1);
          this.addRuns(source, row + from, row + to, 1);
          x = to;
        }
        next += 2;
      }
      this.addRuns(source, row + x, row + this.bounds[2], -1);
    }
    this.rowStart.push(this.start.length);
    return true;
  }

  /** Pixels inside the polygon by region. */
  counts(): ReadonlyMap<number, number> {
    return this.inside;
  }

  /** Takes nothing of a region. */
  leave(region: number): void {
    this.whole.add(region);
  }

  /** Connects the runs of the regions that may be taken. */
  connect(mayTake: (region: number) => boolean, pulse: () => void): void {
    const { start, end, key, rowStart } = this;
    const count = start.length;
    const taken = new Map<number, boolean>();
    for (const id of this.inside.keys()) taken.set(id, mayTake(id) && !this.whole.has(id));
    for (let r = 0; r < count; r++) {
      if (taken.get(Math.abs(key.data[r]!)) !== true) key.data[r] = 0;
    }
    this.parent = new Int32Array(count);
    this.touching = new Uint8Array(count);
    const rows = rowStart.length - 1;
    const { width } = this;
    for (let y = 0; y < rows; y++) {
      if (y % TICK_ROWS === 0) pulse();
      let above = y === 0 ? 0 : rowStart.data[y - 1]!;
      const aboveEnd = y === 0 ? 0 : rowStart.data[y]!;
      for (let r = rowStart.data[y]!; r < rowStart.data[y + 1]!; r++) {
        this.parent[r] = r;
        if (key.data[r] === 0) continue;
        if (r > rowStart.data[y]!) this.meet(r - 1, r);
        while (above < aboveEnd && end.data[above]! + width <= start.data[r]!) above++;
        for (let a = above; a < aboveEnd && start.data[a]! + width < end.data[r]!; a++) {
          this.meet(a, r);
        }
      }
    }
  }

  /**
   * Calls for each run inside with its region, the number of its piece from 0 on, by first pixel,
   * and its pixels.
   */
  eachTaken(call: (region: number, piece: number, start: number, end: number) => void): void {
    const { start, end, key, parent } = this;
    const pieces = new Int32Array(start.length);
    let count = 0;
    for (let r = 0; r < start.length; r++) {
      if (key.data[r]! <= 0) continue;
      const root = findRoot(parent, r);
      if (root === r) pieces[r] = count++;
      call(key.data[r]!, pieces[root]!, start.data[r]!, end.data[r]!);
    }
  }

  /** Regions that may have fallen apart, in the order in which that shows, row by row. */
  torn(): Set<number> {
    const { key, parent, touching } = this;
    const pieceOf = new Map<number, number>();
    const torn = new Set<number>();
    for (let r = 0; r < key.length; r++) {
      if (touching[r] === 0) continue;
      const region = -key.data[r]!;
      const root = findRoot(parent, r);
      const piece = pieceOf.get(region);
      if (piece === undefined) pieceOf.set(region, root);
      else if (piece !== root) torn.add(region);
    }
    return torn;
  }

  /** Cuts pixels of a row into runs of one region. */
  private addRuns(source: RunSource, from: number, to: number, sign: 1 | -1): void {
    source.eachRun(from, to, (id, start, end) => {
      this.start.push(start);
      this.end.push(end);
      this.key.push(sign * id);
      if (sign === 1 && id !== 0) this.inside.set(id, (this.inside.get(id) ?? 0) + end - start);
    });
  }

  /** Two runs that share an edge. */
  private meet(a: number, b: number): void {
    const [keyA, keyB] = [this.key.data[a]!, this.key.data[b]!];
    if (keyA === keyB) unite(this.parent, a, b);
    else if (keyA === -keyB) this.touching[keyA < 0 ? a : b] = 1;
  }
}
