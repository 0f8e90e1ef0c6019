import { PairIndex } from '../runs/pair-index.ts';

/** Counts by unordered pair of ids. */
export class PairCounts {
  private readonly pairs: PairIndex = new PairIndex();

  /** Adds n ≥ 1 to the count of {a, b}; both ids are positive. */
  add(a: number, b: number, n: number): void {
    this.pairs.add(Math.min(a, b), Math.max(a, b), n);
  }

  /** All pairs in ascending order: first by the lower id, then by the higher. */
  sorted(): { a: Int32Array; b: Int32Array; length: Int32Array } {
    const { first, second, counts, size } = this.pairs;
    const order = Array.from({ length: size }, (_, k) => k);
    order.sort((p, q) => first[p]! - first[q]! || second[p]! - second[q]!);
    return {
      a: Int32Array.from(order, (k) => first[k]!),
      b: Int32Array.from(order, (k) => second[k]!),
      length: Int32Array.from(order, (k) => counts[k]!),
    };
  }
}
