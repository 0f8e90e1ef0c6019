import { GOLDEN, MURMUR } from '../raster/scatter.ts';
import type { Trees } from './trees.ts';

/** Boxes that are kept at most: chosen. A page of A4 needs about 2000 a decision. */
const MOST = 8192;

/**
 * Log-odds of trees for rows that come again, or nearly so. With the odds of a row the box is kept in
 * which all rows get the same: a tree asks only whether a column is at most a limit. So a row
 * that lies in a known box needs one look at each column, however many trees there are.
 */
export class KnownOdds {
  private readonly trees: Trees;
  private readonly columns: number;
  /** Columns that tell which box may be a row's. */
  private readonly telling: readonly number[];
  /** Box by what these columns tell. */
  private readonly places: Map<number, number> = new Map();
  /** By box, and column by column, what is less than all of its values, and the greatest one. */
  private boxes: Float64Array;
  private readonly odds: Float64Array = new Float64Array(MOST);
  private readonly bits: Int32Array;
  private readonly value: Float64Array = new Float64Array(1);

  constructor(trees: Trees, columns: number, telling: readonly number[]) {
    this.trees = trees;
    this.columns = columns;
    this.telling = telling;
    this.boxes = new Float64Array(2 * columns * 64);
    this.bits = new Int32Array(this.value.buffer);
  }

  /** What `oddsOf` gives for the row. */
  of(row: Float64Array): number {
    const { boxes, columns, places } = this;
    const told = this.tellingOf(row);
    const place = places.get(told);
    if (place === undefined) return this.find(row, this.placeFor(told));
    const from = 2 * columns * place;
    for (let c = 0, at = from; c < columns; c++, at += 2) {
      if (!(row[c]! > boxes[at]! && row[c]! <= boxes[at + 1]!)) return this.find(row, place);
    }
    return this.odds[place]!;
  }

  private placeFor(told: number): number {
    const { places, boxes, columns } = this;
    if (places.size === MOST) places.clear();
    const place = places.size;
    places.set(told, place);
    if (2 * columns * (place + 1) > boxes.length) {
      this.boxes = new Float64Array(2 * boxes.length);
      this.boxes.set(boxes);
    }
    return place;
  }

  private find(row: Float64Array, place: number): number {
    const { trees, boxes, columns, odds } = this;
    const { roots, column, limit, no } = trees;
    const from = 2 * columns * place;
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
    odds[place] = sum;
    return sum;
  }

  /** A number that is the same where the telling columns are. */
  private tellingOf(row: Float64Array): number {
    const { bits, value } = this;
    let told = 0;
    for (const column of this.telling) {
      value[0] = row[column]!;
      told = Math.imul(told ^ bits[0]!, GOLDEN) ^ Math.imul(bits[1]!, MURMUR);
      told ^= told >>> 15;
    }
    return told;
  }
}
