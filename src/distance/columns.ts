import { IntList } from '../raster/int-list.ts';
import type { Packed } from '../raster/pack.ts';
import { TICK_ROWS, type Tick } from '../raster/progress.ts';

/** Rows that are farther than any of the picture. */
const NONE_ABOVE = -0x3fffffff;
const NONE_BELOW = 0x3fffffff;

/**
 * The next pixels of a packed mask above and below in each column, row by row from the last one up:
 * the first phase of exact distances. It keeps the ends of vertical runs of zeros, of which drawings
 * have few, and finds them a word at a time.
 *
 * O(words + ends of vertical runs) in all; O(width) and 4 bytes per vertical run of zeros.
 */
export class Columns {
  /** Rows of the next pixels, by column; those at columns of the mask itself are stale. */
  readonly above: Int32Array;
  readonly below: Int32Array;
  private readonly mask: Packed;
  /** What is above each vertical run of zeros that ends on the mask, in the order of their ends. */
  private readonly ended: IntList = new IntList();

  /** Goes down the columns. */
  constructor(mask: Packed, tick?: Tick) {
    const { words, width, height, stride } = mask;
    this.mask = mask;
    this.above = new Int32Array(width).fill(NONE_ABOVE);
    this.below = new Int32Array(width).fill(NONE_BELOW);
    const { above, ended } = this;
    for (let y = 0; y + 1 < height; y++) {
      if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
      for (let c = 0, k = y * stride; c < stride; c++, k++) {
        const word = words[k]!;
        for (let ends = word ^ words[k + stride]!; ends !== 0; ends &= ends - 1) {
          const bit = ends & -ends;
          const x = 32 * c + 31 - Math.clz32(bit);
          if ((word & bit) === 0) ended.push(above[x]!);
          else above[x] = y;
        }
      }
    }
  }

  /** Goes up to row y, from the row below, and calls for its runs of zeros from the left. */
  goUp(y: number, run: (y: number, from: number, to: number) => void): void {
    const { words, width, height, stride } = this.mask;
    if (y + 1 < height) this.turnEnds(y);
    let before = 1;
    let from = 0;
    for (let c = 0, k = y * stride; c < stride; c++, k++) {
      const word = words[k]!;
      for (let edges = word ^ ((word << 1) | before); edges !== 0; edges &= edges - 1) {
        const x = 32 * c + 31 - Math.clz32(edges & -edges);
        before ^= 1;
        if (before === 0) from = x;
        else run(y, from, x);
      }
    }
    // Bits past the width are 0, so a run may seem to begin there.
    if (before === 0 && from < width) run(y, from, width);
  }

  /** The runs that end in row y begin there from below. */
  private turnEnds(y: number): void {
    const { above, below, ended } = this;
    const { words, stride } = this.mask;
    for (let c = stride - 1, k = y * stride + c; c >= 0; c--, k--) {
      for (let ends = ~words[k]! & words[k + stride]!; ends !== 0; ) {
        const bit = 31 - Math.clz32(ends);
        ends ^= 1 << bit;
        const x = 32 * c + bit;
        above[x] = ended.data[--ended.length]!;
        below[x] = y + 1;
      }
    }
  }

  /** Writes the distances, at most `most`, in the columns of a run of row y, and 0 at its ends. */
  measure(y: number, from: number, to: number, near: Int32Array, most: number): void {
    const { above, below } = this;
    if (from > 0) near[from - 1] = 0;
    if (to < near.length) near[to] = 0;
    for (let x = from; x < to; x++) {
      const up = (y - above[x]!) | 0;
      const down = (below[x]! - y) | 0;
      near[x] = Math.min(up, down, most);
    }
  }
}
