import { GOLDEN, MURMUR } from '../raster/scatter.ts';
import type { Trees } from './trees.ts';

/** Places for boxes; a drawing of A4 has about 2000 pairs of faces. */
const SLOTS = 4096;

/**
 * Log-odds of trees for rows that come again, or nearly so. With the odds of a row the box is kept in
 * which all rows get the same: a tree asks only whether a column is at most a limit. So a row
 * that lies in a known box needs one look at each column, however many trees there are.
 */
export class KnownOdds {
  private readonly trees: Trees;
  private readonly columns: number;
  /** Columns that tell where a box is kept. */
  private readonly telling: readonly number[];
  /** By slot, and column by column, what is less than all values of the box, and the greatest one. */
  private readonly boxes: Float64Array;
  private readonly odds: Float64Array;
  private readonly bits: Int32Array;
  private readonly value: Float64Array = new Float64Array(1);

  constructor(trees: Trees, columns: number, telling: readonly number[]) {
    this.trees = trees;
    this.columns = columns;
    this.telling = telling;
    this.boxes = new Float64Array(2 * columns * SLOTS);
    this.odds = new Float64Array(SLOTS);
    this.bits = new Int32Array(this.value.buffer);
  }

  /** What `oddsOf` gives for the row. */
  of(row: Float64Array): number {
    const { boxes, columns } = this;
    const slot = this.slotOf(row);
    const from = 2 * columns * slot;
    for (let c = 0, at = from; c < columns; c++, at += 2) {
      if (!(row[c]! > boxes[at]! && row[c]! <= boxes[at + 1]!)) return this.find(row, slot);
    }
    return this.odds[slot]!;
  }

  private find(row: Float64Array, slot: number): number {
    const { trees, boxes, columns, odds } = this;
    const { roots, column, limit, no } = trees;
    const from = 2 * columns * slot;
    for (let at = from; at < from + 2 * columns; at += 2) {
      boxes[at] = Number.NEGATIVE_INFINITY;
      boxes[at + 1] = Number.POSITIVE_INFINITY;
    }
    let sum = trees.base;
    for (let t = 0; t < roots.length; t++) {
      let node = roots[t]!;
      for (let c = column[node]!; c >= 0; c = column[node]!) {
        const at = from + 2 * c;
        const most = limit[node]!;
        if (row[c]! <= most) {
          if (most < boxes[at + 1]!) boxes[at + 1] = most;
          node++;
        } else {
          if (most > boxes[at]!) boxes[at] = most;
          node = no[node]!;
        }
      }
      sum += limit[node]!;
    }
    odds[slot] = sum;
    return sum;
  }

  private slotOf(row: Float64Array): number {
    const { bits, value } = this;
    let slot = 0;
    for (const column of this.telling) {
      value[0] = row[column]!;
      slot = Math.imul(slot ^ bits[0]!, GOLDEN) ^ Math.imul(bits[1]!, MURMUR);
      slot ^= slot >>> 15;
    }
    return slot & (SLOTS - 1);
  }
}
