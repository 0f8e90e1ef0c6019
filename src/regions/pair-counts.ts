/** Counts by unordered pair of ids, in an open-addressing table of typed arrays. */
export class PairCounts {
  private low = new Int32Array(64);
  private high = new Int32Array(64);
  private counts = new Int32Array(64);
  private used = 0;

  /** Adds n ≥ 1 to the count of {a, b}; both ids are positive. */
  add(a: number, b: number, n: number): void {
    if (2 * this.used >= this.low.length) this.rehash();
    const low = Math.min(a, b);
    const high = Math.max(a, b);
    const slot = this.slotOf(low, high);
    if (this.low[slot] === 0) {
      this.low[slot] = low;
      this.high[slot] = high;
      this.used++;
    }
    this.counts[slot]! += n;
  }

  /** All pairs in ascending order: first by the lower id, then by the higher. */
  sorted(): { a: Int32Array; b: Int32Array; length: Int32Array } {
    const slots: number[] = [];
    for (let slot = 0; slot < this.low.length; slot++) if (this.low[slot] !== 0) slots.push(slot);
    slots.sort((p, q) => this.low[p]! - this.low[q]! || this.high[p]! - this.high[q]!);
    return {
      a: Int32Array.from(slots, (slot) => this.low[slot]!),
      b: Int32Array.from(slots, (slot) => this.high[slot]!),
      length: Int32Array.from(slots, (slot) => this.counts[slot]!),
    };
  }

  private slotOf(low: number, high: number): number {
    const mask = this.low.length - 1;
    let slot = (Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b)) >>> 0;
    slot = (slot ^ (slot >>> 15)) & mask;
    while (this.low[slot] !== 0 && (this.low[slot] !== low || this.high[slot] !== high)) {
      slot = (slot + 1) & mask;
    }
    return slot;
  }

  private rehash(): void {
    const { low, high, counts } = this;
    this.low = new Int32Array(2 * low.length);
    this.high = new Int32Array(2 * low.length);
    this.counts = new Int32Array(2 * low.length);
    for (let old = 0; old < low.length; old++) {
      if (low[old] === 0) continue;
      const slot = this.slotOf(low[old]!, high[old]!);
      this.low[slot] = low[old]!;
      this.high[slot] = high[old]!;
      this.counts[slot] = counts[old]!;
    }
  }
}
