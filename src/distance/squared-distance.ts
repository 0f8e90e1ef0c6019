import { IntList } from '../raster/int-list.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { Owned } from '../raster/types.ts';

/** Distances from here on are all given as this one, so that their squares fit in 31 bits. */
export const FARTHEST = 46_340;

/**
 * Squared Euclidean distance from every pixel to the nearest one that is not 0, between pixel
 * centers; 0 on those. Exact below `FARTHEST`²; what is farther, or has no such pixel in the
 * picture, gets `FARTHEST`². Outside the picture there is nothing to be near to.
 *
 * ```text
 * mask             squared distance
 * 0 0 0 0          5 4 5 8
 * 0 0 0 0          2 1 2 5
 * 0 1 0 0          1 0 1 4
 * ```
 *
 * The two phases of Meijster, Roerdink, Hesselink 2000, "A general algorithm for computing distance
 * transforms in linear time", DOI 10.1007/0-306-47025-X_36; the second is the lower envelope of
 * parabolas of Felzenszwalb, Huttenlocher 2012, "Distance transforms of sampled functions",
 * DOI 10.4086/toc.2012.v008a019, with whole numbers: a parabola takes over at a column, not at a
 * real abscissa. Here the first phase keeps the ends of vertical runs of zeros, not distances, and
 * each horizontal run is solved alone, which is exact, because the pixels at its ends are nearer to
 * all of it than anything in a column beyond them. Most sites that win no column are left out
 * before they reach the envelope: those outside the circle over the run, and those that their two
 * neighbors beat.
 *
 * O(pixels) time; the result, O(width) and 4 bytes per vertical run of zeros.
 */
export function squaredDistance(
  data: Uint8Array,
  width: number,
  height: number,
  tick?: Tick,
): Owned<Int32Array> {
  const squares = new Int32Array(width * height);
  eachSquaredRow(data, width, height, (row, y) => squares.set(row, y * width), tick);
  return squares;
}

/**
 * The same row by row, from the last one up: `visit` sees the squares of row y, in storage that the
 * next row uses again.
 */
export function eachSquaredRow(
  data: Uint8Array,
  width: number,
  height: number,
  visit: (row: Int32Array, y: number) => void,
  tick?: Tick,
): void {
  const columns = new Columns(data, width, height, partOf(tick, 0, 0.2));
  const envelope = new Envelope(width + 2);
  const squares = new Int32Array(width);
  const { near } = columns;
  for (let y = height - 1; y >= 0; y--) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(1 - (0.8 * y) / height);
    columns.measure(y);
    for (let x = 0; x < width; x++) {
      squares[x] = 0;
      if (near[x] === 0) continue;
      const from = x;
      while (x < width && near[x] !== 0) x++;
      envelope.solve(near, from, x, squares);
      if (x < width) squares[x] = 0;
    }
    visit(squares, y);
  }
}

/** Rows that are farther than `FARTHEST` from any of the picture. */
const NONE_ABOVE = -0x3fffffff;
const NONE_BELOW = 0x3fffffff;

/** The distance to the mask in each column, row by row from the last one up. */
class Columns {
  /** At most `FARTHEST`; 0 on the mask. */
  readonly near: Int32Array;
  private readonly data: Uint8Array;
  private readonly width: number;
  private readonly height: number;
  /** Rows of the mask next above and below, by column. */
  private readonly above: Int32Array;
  private readonly below: Int32Array;
  /** What is above each vertical run of zeros, in the order of their last pixels. */
  private readonly runs: IntList = new IntList();

  constructor(data: Uint8Array, width: number, height: number, tick?: Tick) {
    this.data = data;
    this.width = width;
    this.height = height;
    this.near = new Int32Array(width);
    this.above = new Int32Array(width).fill(NONE_ABOVE);
    this.below = new Int32Array(width).fill(NONE_BELOW);
    for (let y = 0; y + 1 < height; y++) {
      if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
      this.closeRuns(y);
    }
    for (let x = 0; x < width; x++) {
      if (data[(height - 1) * width + x] === 0) this.runs.push(this.above[x]!);
    }
  }

  /** Distances of row y, after those of the row below. */
  measure(y: number): void {
    const { data, width, height, near, above, below } = this;
    const runs = this.runs.data;
    const row = y * width;
    const under = y + 1 < height ? row + width : -1;
    let count = this.runs.length;
    for (let x = width - 1; x >= 0; x--) {
      if (data[row + x] !== 0) {
        near[x] = 0;
        continue;
      }
      if (under < 0) above[x] = runs[--count]!;
      else if (data[under + x] !== 0) {
        above[x] = runs[--count]!;
        below[x] = y + 1;
      }
      near[x] = Math.min(y - above[x]!, below[x]! - y, FARTHEST);
    }
    this.runs.length = count;
  }

  /** Notes the runs that end in row y and the mask that does. */
  private closeRuns(y: number): void {
    const { data, width, above, runs } = this;
    const row = y * width;
    const under = row + width;
    for (let x = 0; x < width; x++) {
      const here = data[row + x];
      const next = data[under + x];
      if (here === next) continue;
      if (here === 0) runs.push(above[x]!);
      else if (next === 0) above[x] = y;
    }
  }
}

/** Lower envelope of the parabolas (x − site)² + square over the columns of one run. */
export class Envelope {
  private readonly site: Int32Array;
  private readonly square: Int32Array;
  /** First column at which the parabola is the lowest. */
  private readonly first: Int32Array;

  constructor(capacity: number) {
    this.site = new Int32Array(capacity);
    this.square = new Int32Array(capacity);
    this.first = new Int32Array(capacity);
  }

  /** Writes the squares of the run `[from, to)`; `near` is the distance in the column. */
  solve(near: Int32Array, from: number, to: number, squares: Int32Array): void {
    const { site, square, first } = this;
    const left = from - 1;
    const closed = from > 0 && to < near.length;
    const begin = Math.max(left, 0);
    const last = Math.min(to, near.length - 1);
    let top = -1;
    // Between neighbors a column apart, the later one takes over at its own plus half the rise.
    let next = near[begin]! * near[begin]!;
    let takeover = from;
    for (let x = begin; x <= last; x++) {
      const height = next;
      const since = takeover;
      if (x < last) {
        next = near[x + 1]! * near[x + 1]!;
        takeover = x + 1 + ((next - height + 1) >> 1);
        if (takeover <= since && x > begin) continue;
      }
      if (near[x] === FARTHEST || (closed && height > (x - left) * (to - x))) continue;
      let start = from;
      for (; top >= 0; top--) {
        // Taken from the left site on, so that numbers stay small in wide pictures.
        const step = x - site[top]!;
        const lead = step * step + height - square[top]!;
        if (lead < 2 * step * (first[top]! - site[top]!)) continue;
        start = site[top]! + 1 + (step === 1 ? lead >> 1 : Math.floor(lead / (2 * step)));
        break;
      }
      if (start >= to) continue;
      top++;
      site[top] = x;
      square[top] = height;
      first[top] = start;
    }
    const limit = FARTHEST * FARTHEST;
    if (top < 0) squares.fill(limit, from, to);
    for (let k = 0; k <= top; k++) {
      const end = k === top ? to : Math.min(first[k + 1]!, to);
      const low = square[k]!;
      let dx = first[k]! - site[k]!;
      for (let x = first[k]!; x < end; x++, dx++) squares[x] = Math.min(dx * dx + low, limit);
    }
  }
}
