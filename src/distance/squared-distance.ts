import { packMask } from '../raster/pack.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { Owned } from '../raster/types.ts';
import { Columns } from './columns.ts';

/** Distances from here on are all given as this one, so that their squares fit in 31 bits. */
export const FARTHEST = 46_340;

/** Squares of columns this far away, and half of the largest, stay below the largest. */
const SAFE = 32_767;

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
  solveRows(data, width, height, squares, (y) => y * width, tick);
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
  const row = new Int32Array(width);
  const begin = (y: number): number => {
    if (y + 1 < height) visit(row, y + 1);
    row.fill(0);
    return 0;
  };
  solveRows(data, width, height, row, begin, tick);
  visit(row, 0);
}

/** Writes the squares that are not 0 into `squares`, row y from `begin(y)` on, the last row first. */
function solveRows(
  data: Uint8Array,
  width: number,
  height: number,
  squares: Int32Array,
  begin: (y: number) => number,
  tick?: Tick,
): void {
  const mask = packMask({ data, width, height, channels: 1 }, 'mask', partOf(tick, 0, 0.1));
  const columns = new Columns(mask, partOf(tick, 0.1, 0.2));
  const envelope = new Envelope(width + 2);
  const near = new Int32Array(width);
  let at = 0;
  const solve = (y: number, from: number, to: number): void => {
    columns.measure(y, from, to, near, FARTHEST);
    envelope.solve(near, from, to, squares, at);
  };
  for (let y = height - 1; y >= 0; y--) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(1 - (0.8 * y) / height);
    at = begin(y);
    columns.goUp(y, solve);
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

  /**
   * Writes the squares of the run `[from, to)`, that of column x at `squares[at + x]`; `near` is the
   * distance in the column.
   */
  solve(near: Int32Array, from: number, to: number, squares: Int32Array, at: number): void {
    const top = this.gather(near, from, to);
    const { site, square, first } = this;
    const limit = FARTHEST * FARTHEST;
    if (top < 0) squares.fill(limit, at + from, at + to);
    for (let k = 0; k <= top; k++) {
      const end = k === top ? to : Math.min(first[k + 1]!, to);
      const low = square[k]!;
      let dx = first[k]! - site[k]!;
      const last = end - 1 - site[k]!;
      let i = at + first[k]!;
      if (Math.max(-dx, last) < SAFE && low < limit / 2) {
        for (; dx <= last; dx++, i++) squares[i] = (Math.imul(dx, dx) + low) | 0;
      } else for (; dx <= last; dx++, i++) squares[i] = Math.min(dx * dx + low, limit);
    }
  }

  /** Finds the parabolas that are the lowest somewhere; gives the last one. */
  private gather(near: Int32Array, from: number, to: number): number {
    const { site, square, first } = this;
    const left = from - 1;
    const closed = from > 0 && to < near.length && to - left < 2 * FARTHEST;
    const begin = Math.max(left, 0);
    const end = Math.min(to, near.length - 1);
    let top = -1;
    // The last parabola, where there is one.
    let site0 = 0;
    let square0 = 0;
    let first0 = 0;
    for (let x = begin; x <= end; x++) {
      const distance = near[x]!;
      const height = Math.imul(distance, distance);
      if (distance === FARTHEST || (closed && height > Math.imul(x - left, to - x))) continue;
      if (x > begin && x < end) {
        // Between neighbors a column apart, the later one takes over at its own plus half the rise.
        const before = near[x - 1]!;
        const after = near[x + 1]!;
        const fall = (height - Math.imul(before, before) + 1) >> 1;
        if ((Math.imul(after, after) - height + 1) >> 1 < fall) continue;
      }
      let start = from;
      while (top >= 0) {
        // Taken from the left site on, so that numbers stay small in wide pictures.
        const step = x - site0;
        const lead = step * step + height - square0;
        if (lead >= 2 * step * (first0 - site0)) {
          start = site0 + 1 + (step === 1 ? lead >> 1 : Math.floor(lead / (2 * step)));
          break;
        }
        if (--top < 0) break;
        site0 = site[top]!;
        square0 = square[top]!;
        first0 = first[top]!;
      }
      if (start >= to) continue;
      top++;
      site[top] = site0 = x;
      square[top] = square0 = height;
      first[top] = first0 = start;
    }
    return top;
  }
}
