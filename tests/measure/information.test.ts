import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { variationOfInformation } from '../../src/measure/index.ts';
import { lists, plainCounts, renamed, row } from './partitions.ts';

/** By the definition, with probabilities. */
function byEntropies(truth: readonly number[], found: readonly number[]) {
  const { trueAreas, foundAreas, cells } = plainCounts(truth, found);
  const n = cells.reduce((sum, cell) => sum + cell.n, 0);
  const entropy = (counts: readonly number[]) =>
    counts.reduce((sum, k) => sum - (k / n) * Math.log2(k / n), 0);
  const joint = entropy(cells.map((cell) => cell.n));
  return {
    split: joint - entropy([...trueAreas.values()]),
    merge: joint - entropy([...foundAreas.values()]),
  };
}

describe('variationOfInformation', () => {
  it('gives whole bits for halves', () => {
    const one = row([1, 1, 1, 1]);
    const two = row([1, 1, 2, 2]);
    const four = row([1, 2, 3, 4]);
    expect(variationOfInformation(one, one)).toEqual({ split: 0, merge: 0, total: 0 });
    expect(variationOfInformation(one, four)).toEqual({ split: 2, merge: 0, total: 2 });
    expect(variationOfInformation(four, two)).toEqual({ split: 0, merge: 1, total: 1 });
    expect(variationOfInformation(two, row([1, 2, 1, 2]))).toEqual({
      split: 1,
      merge: 1,
      total: 2,
    });
  });

  it('agrees with entropies of probabilities', () => {
    fc.assert(
      fc.property(lists(2), ([a, b]) => {
        const { split, merge, total } = variationOfInformation(row(a!), row(b!));
        const plain = byEntropies(a!, b!);
        expect(split).toBeCloseTo(plain.split, 10);
        expect(merge).toBeCloseTo(plain.merge, 10);
        expect(total).toBe(split + merge);
      }),
    );
  });

  it('is a metric on partitions, blind to names', () => {
    fc.assert(
      fc.property(lists(3, 1), ([a, b, c]) => {
        const distance = (p: number[], q: number[]) => variationOfInformation(row(p), row(q));
        const ab = distance(a!, b!);
        expect(ab.split).toBeGreaterThanOrEqual(0);
        expect(ab.merge).toBeGreaterThanOrEqual(0);
        expect(ab.total).toBeLessThanOrEqual(Math.log2(a!.length) + 1e-12);
        expect(distance(a!, a!).total).toBe(0);
        expect(distance(b!, a!).total).toBeCloseTo(ab.total, 12);
        expect(distance(b!, a!).split).toBeCloseTo(ab.merge, 12);
        expect(distance(renamed(a!), renamed(b!)).total).toBeCloseTo(ab.total, 12);
        const way = ab.total + distance(b!, c!).total;
        expect(distance(a!, c!).total).toBeLessThanOrEqual(way + 1e-12);
      }),
    );
  });

  it('leaves label 0 of the truth out and takes label 0 of the found as a part', () => {
    expect(variationOfInformation(row([0, 0, 1, 1]), row([1, 2, 3, 3])).total).toBe(0);
    expect(variationOfInformation(row([1, 1]), row([0, 4])).split).toBe(1);
    expect(variationOfInformation(row([0]), row([4])).total).toBe(0);
  });
});
