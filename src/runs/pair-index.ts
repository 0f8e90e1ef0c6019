import { GOLDEN, MURMUR } from '../raster/scatter.ts';

/** Numbers pairs of ids 0, 1, 2, … in the order they come and counts them; open addressing. */
export class PairIndex {
  first: Int32Array = new Int32Array(32);
  second: Int32Array = new Int32Array(32);
  /** Pixels of each pair; at most 2³¹ − 1. */
  counts: Int32Array = new Int32Array(32);
  size = 0;
  /** Number of the pair plus one; 0 for a free slot. Twice as many slots as pairs or more. */
  private slots = new Int32Array(64);

  /** Adds n to the count of (a, b), both ≥ 0, and gives the pair's number. */
  add(a: number, b: number, n: number): number {
    const slot = this.slotOf(a, b);
    const known = this.slots[slot]!;
    if (known !== 0) {
      this.counts[known - 1]! += n;
      return known - 1;
    }
    const number = this.size++;
    if (number === this.first.length) this.extend();
    this.first[number] = a;
    this.second[number] = b;
    this.counts[number] = n;
    if (2 * this.size > this.slots.length) this.rehash();
    else this.slots[slot] = number + 1;
    return number;
  }

  /** The number of (a, b), −1 where it never came. */
  numberOf(a: number, b: number): number {
    return this.slots[this.slotOf(a, b)]! - 1;
  }

  private slotOf(a: number, b: number): number {
    const { slots, first, second } = this;
    const mask = slots.length - 1;
    let slot = Math.imul(a, GOLDEN) ^ Math.imul(b, MURMUR);
    slot = (slot ^ (slot >>> 15)) & mask;
    for (;;) {
      const known = slots[slot]!;
      if (known === 0 || (first[known - 1] === a && second[known - 1] === b)) return slot;
      slot = (slot + 1) & mask;
    }
  }

  private extend(): void {
    this.first = doubled(this.first);
    this.second = doubled(this.second);
    this.counts = doubled(this.counts);
  }

  private rehash(): void {
    this.slots = new Int32Array(2 * this.slots.length);
    for (let k = 0; k < this.size; k++) {
      this.slots[this.slotOf(this.first[k]!, this.second[k]!)] = k + 1;
    }
  }
}

function doubled(list: Int32Array): Int32Array {
  const longer = new Int32Array(2 * list.length);
  longer.set(list);
  return longer;
}
