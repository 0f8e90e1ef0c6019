import { Envelope, FARTHEST } from '../distance/squared-distance.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';

/** The widest disc in each region, by id. */
export interface InscribedDiscs {
  /** Index of the pixel at its center; -1 for ids that do not occur. */
  readonly center: Int32Array;
  /** Squared distance from there to the nearest pixel that is not in the region; 0 likewise. */
  readonly square: Int32Array;
}

/**
 * The widest inscribed disc of every region, on paper: the pixel of the region off the ink that is
 * farthest from all that is not, pixels of ink, of other regions and beyond the picture's border,
 * between pixel centers. Ties go to the first pixel, row by row. A region without any paper has the
 * disc of all its pixels.
 *
 * ```text
 * labels        squared distance      center of 1: [1, 1]
 * 1 1 1 2 2     1 1 1 1 1             center of 2: [3, 0]
 * 1 1 1 2 2     1 4 1 1 1
 * 1 1 1 2 2     1 1 1 1 1
 * ```
 *
 * The scheme of `squaredDistance` with a region's border where that has the mask: the first phase
 * keeps what is above each vertical run of one region, the second solves each horizontal run alone,
 * from the last row up. A run whose length or whose distances in the columns leave no room for a
 * disc as wide as the one known is passed over, so that few pixels are looked at.
 *
 * O(pixels) time; O(width + ids), and 4 bytes per vertical run.
 *
 * @param length - One past the highest id.
 */
export function inscribedDiscs(
  labels: Int32Array,
  width: number,
  height: number,
  length: number,
  ink?: Uint8Array,
  tick?: Tick,
): InscribedDiscs {
  const center = new Int32Array(length).fill(-1);
  const square = new Int32Array(length);
  const rows = new PaperRows(labels, width, height, length, ink, partOf(tick, 0, 0.1));
  const columns = new Columns(rows, width, height, partOf(tick, 0.1, 0.5));
  const widest = new WidestOfRun(width);
  for (let y = height - 1; y >= 0; y--) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(1 - (0.5 * y) / height);
    columns.measure(y);
    const { row, reach } = columns;
    for (let x = 0; x < width; ) {
      const id = row[x]!;
      const from = x;
      let most = 0;
      for (; x < width && row[x] === id; x++) if (reach[x]! > most) most = reach[x]!;
      if (id === 0) continue;
      const run = x - from;
      const room = Math.min(most, (run + 1) >> 1);
      if (room * room < square[id]!) continue;
      const disc = widest.find(reach, from, x, square[id]!);
      if (disc < 0) continue;
      // Of equal discs the one in the higher row, come to later, or farther left in the same row.
      const found = widest.square;
      if (found === square[id]! && center[id]! < (y + 1) * width) continue;
      square[id] = found;
      center[id] = y * width + disc;
    }
  }
  return { center, square };
}

/** Steps a pixel that looking at single pixels of a run may take before all of it is solved. */
const STEPS = 4;

/** The widest disc with its center on a run, where one is at least as wide as another that is known. */
class WidestOfRun {
  /** Squared distance at the pixel that was found. */
  square = 0;
  private readonly envelope: Envelope;
  private readonly near: Int32Array;
  private readonly squares: Int32Array;

  constructor(width: number) {
    this.envelope = new Envelope(width + 2);
    this.near = new Int32Array(width + 2);
    this.squares = new Int32Array(width + 2);
  }

  /**
   * The first pixel of the run `[from, to)` whose squared distance is the largest of those that are at
   * least `least`; -1 where there is none. `reach` holds distances in the columns.
   *
   * Few pixels have room for such a disc in their column and in the run; their distances are taken one
   * by one, each given up where it falls short. Where that is too much, the whole run is solved.
   */
  find(reach: Int32Array, from: number, to: number, least: number): number {
    let best = -1;
    let square = least;
    let left = STEPS * (to - from);
    for (let x = from; x < to; x++) {
      const column = reach[x]!;
      const side = Math.min(x - from, to - 1 - x) + 1;
      if (column * column < square || side * side < square) continue;
      let found = Math.min(column * column, side * side);
      for (let dx = 1; dx * dx < found && found >= square; dx++) {
        const near = Math.min(reach[x - dx]!, reach[x + dx]!);
        found = Math.min(found, dx * dx + near * near);
        left--;
      }
      if (left < 0) return this.solve(reach, from, to, least);
      if (found < square || (found === square && best >= 0)) continue;
      best = x;
      square = found;
    }
    this.square = square;
    return best;
  }

  private solve(reach: Int32Array, from: number, to: number, least: number): number {
    const { envelope, near, squares } = this;
    const run = to - from;
    near[0] = 0;
    for (let k = 0; k < run; k++) near[k + 1] = reach[from + k]!;
    near[run + 1] = 0;
    envelope.solve(near, 1, run + 1, squares, 0);
    let best = 1;
    for (let k = 2; k <= run; k++) if (squares[k]! > squares[best]!) best = k;
    this.square = squares[best]!;
    return this.square < least ? -1 : from + best - 1;
  }
}

/** Rows of the labels, with 0 on ink but in regions that hold nothing else. */
class PaperRows {
  private readonly labels: Int32Array;
  private readonly width: number;
  private readonly ink: Uint8Array | undefined;
  /** 1 for ids with a pixel off the ink. */
  private readonly hasPaper: Uint8Array;

  constructor(
    labels: Int32Array,
    width: number,
    height: number,
    length: number,
    ink: Uint8Array | undefined,
    tick?: Tick,
  ) {
    this.labels = labels;
    this.width = width;
    this.ink = ink;
    this.hasPaper = new Uint8Array(length);
    if (ink === undefined) return;
    for (let y = 0; y < height; y++) {
      if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
      for (let i = y * width; i < (y + 1) * width; i++) {
        if (ink[i] === 0) this.hasPaper[labels[i]!] = 1;
      }
    }
  }

  read(y: number, into: Int32Array): void {
    const { labels, width, ink, hasPaper } = this;
    const row = y * width;
    for (let x = 0; x < width; x++) {
      const id = labels[row + x]!;
      into[x] = ink !== undefined && ink[row + x] !== 0 && hasPaper[id] === 1 ? 0 : id;
    }
  }
}

/** The distance within each column to what is not of the same region, from the last row up. */
class Columns {
  /** Ids of the row that was measured last. */
  row: Int32Array;
  /** Distance by column, at most `FARTHEST`. */
  readonly reach: Int32Array;
  private under: Int32Array;
  private readonly rows: PaperRows;
  private readonly height: number;
  /** Rows of another region next above and below, by column; those beyond the picture count. */
  private readonly above: Int32Array;
  private readonly below: Int32Array;
  /** What is above each vertical run, in the order of their last pixels. */
  private runs: Int32Array = new Int32Array(1024);
  private count = 0;

  constructor(rows: PaperRows, width: number, height: number, tick?: Tick) {
    this.rows = rows;
    this.height = height;
    this.row = new Int32Array(width);
    this.under = new Int32Array(width);
    this.reach = new Int32Array(width);
    this.above = new Int32Array(width).fill(-1);
    this.below = new Int32Array(width);
    rows.read(0, this.row);
    for (let y = 0; y < height; y++) {
      if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
      if (y + 1 < height) rows.read(y + 1, this.under);
      this.closeRuns(y, y + 1 === height);
      [this.row, this.under] = [this.under, this.row];
    }
  }

  /** Distances of row y, after those of the row below. */
  measure(y: number): void {
    const { rows, height, above, below, reach, runs } = this;
    [this.row, this.under] = [this.under, this.row];
    const { row, under } = this;
    rows.read(y, row);
    const isLast = y + 1 === height;
    let count = this.count;
    for (let x = row.length - 1; x >= 0; x--) {
      if (row[x] === 0) continue;
      if (isLast || under[x] !== row[x]) {
        above[x] = runs[--count]!;
        below[x] = y + 1;
      }
      reach[x] = Math.min(y - above[x]!, below[x]! - y, FARTHEST);
    }
    this.count = count;
  }

  /** Notes the runs that end in row y. */
  private closeRuns(y: number, isLast: boolean): void {
    const { row, under, above } = this;
    for (let x = 0; x < row.length; x++) {
      const id = row[x]!;
      if (!isLast && under[x] === id) continue;
      if (id !== 0) this.push(above[x]!);
      above[x] = y;
    }
  }

  private push(row: number): void {
    if (this.count === this.runs.length) {
      const longer = new Int32Array(2 * this.count);
      longer.set(this.runs);
      this.runs = longer;
    }
    this.runs[this.count++] = row;
  }
}
