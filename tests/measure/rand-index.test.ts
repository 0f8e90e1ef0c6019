import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { adjustedRandIndex } from '../../src/measure/index.ts';
import { raster } from '../../src/raster/index.ts';
import { labels, otherViews, symmetries } from '../support/grids.ts';
import { lists, renamed, row } from './partitions.ts';

/** By the definition: every pair of pixels is looked at. */
function byPairs(truth: readonly number[], found: readonly number[]): number {
  const kept = truth.flatMap((t, i) => (t === 0 ? [] : [[t, found[i]!] as const]));
  let [both, one, other, all] = [0, 0, 0, 0];
  kept.forEach(([t, f], i) => {
    for (const [u, g] of kept.slice(0, i)) {
      all++;
      if (t === u) one++;
      if (f === g) other++;
      if (t === u && f === g) both++;
    }
  });
  const expected = (one * other) / all;
  const most = (one + other) / 2;
  return all === 0 || most === expected ? 1 : (both - expected) / (most - expected);
}

describe('adjustedRandIndex', () => {
  // Source: documentation of scikit-learn (general-purpose statistics), `adjusted_rand_score` and
  // the user guide on clustering; values from memory.
  it('gives the published values', () => {
    const index = (a: number[], b: number[]) => adjustedRandIndex(row(a), row(b));
    expect(index([1, 1, 2, 2], [1, 1, 2, 2])).toBe(1);
    expect(index([1, 1, 2, 2], [2, 2, 1, 1])).toBe(1);
    expect(index([1, 1, 2, 3], [1, 1, 2, 2])).toBeCloseTo(0.57, 2);
    expect(index([1, 1, 2, 2], [1, 1, 2, 3])).toBeCloseTo(0.57, 2);
    expect(index([1, 1, 1, 1], [1, 2, 3, 4])).toBe(0);
    expect(index([1, 1, 2, 2], [1, 2, 1, 2])).toBe(-0.5);
    expect(index([1, 1, 1, 2, 2, 2], [1, 1, 2, 2, 3, 3])).toBeCloseTo(0.24, 2);
  });

  it('agrees with a look at every pair', () => {
    fc.assert(
      fc.property(lists(2), ([a, b]) => {
        expect(adjustedRandIndex(row(a!), row(b!))).toBeCloseTo(byPairs(a!, b!), 10);
      }),
    );
  });

  it('is symmetric, blind to names, and 1 for the same partition only', () => {
    fc.assert(
      fc.property(lists(2, 1), ([a, b]) => {
        const value = adjustedRandIndex(row(a!), row(b!));
        expect(adjustedRandIndex(row(b!), row(a!))).toBeCloseTo(value, 12);
        expect(adjustedRandIndex(row(renamed(a!)), row(renamed(b!)))).toBeCloseTo(value, 12);
        const pairs = new Set(a!.map((t, i) => `${t} ${b![i]}`)).size;
        const same = pairs === new Set(a).size && pairs === new Set(b).size;
        expect(value === 1).toBe(same);
      }),
    );
  });

  it('leaves label 0 of the truth out and takes label 0 of the found as a part', () => {
    expect(adjustedRandIndex(row([0, 1, 1, 2]), row([9, 5, 5, 6]))).toBe(1);
    expect(adjustedRandIndex(row([1, 1, 2, 2]), row([0, 0, 5, 5]))).toBe(1);
    expect(adjustedRandIndex(row([0, 0]), row([1, 2]))).toBe(1);
    expect(adjustedRandIndex(row([3]), row([0]))).toBe(1);
  });

  it('gives the same for every symmetry and view', () => {
    const a = labels(`
      1 1 2
      0 1 2
      3 3 2
      3 3 4`);
    const b = labels(`
      1 1 1
      0 1 2
      3 2 2
      3 3 0`);
    const value = adjustedRandIndex(a, b);
    symmetries(a).forEach((view, k) => {
      expect(adjustedRandIndex(view, symmetries(b)[k]!)).toBeCloseTo(value, 12);
    });
    for (const view of otherViews(a)) expect(adjustedRandIndex(view, b)).toBe(value);
  });

  it('keeps exact sums where areas squared pass 2^31, and takes a million regions', () => {
    const n = 300_000;
    const halves = Int32Array.from({ length: n }, (_, i) => (i < n / 2 ? 1 : 2));
    const found = halves.slice();
    found[0] = 2;
    const [a, b] = [raster(halves, [n, 1]), raster(found, [n, 1])];
    // Pairs by the areas: 149,999 and 150,001 against 150,000 twice.
    const pairs = (k: number) => (k * (k - 1)) / 2;
    const [inTruth, inFound] = [2 * pairs(150_000), pairs(149_999) + pairs(150_001)];
    const both = pairs(149_999) + pairs(150_000);
    const chance = (inTruth * inFound) / pairs(n);
    expect(adjustedRandIndex(a, b)).toBeCloseTo(
      (both - chance) / ((inTruth + inFound) / 2 - chance),
      12,
    );
    const many = Int32Array.from({ length: 2_000_000 }, (_, i) => 1 + (i >> 1));
    const whole = raster(many, [1, many.length]);
    expect(adjustedRandIndex(whole, whole)).toBe(1);
  });

  it('refuses other sizes and kinds', () => {
    expect(() => adjustedRandIndex(row([1, 2]), row([1]))).toThrow(
      'found must have the size of truth, 2 × 1, got 1 × 1',
    );
    expect(() => adjustedRandIndex(row([-1]), row([1]))).toThrow(/^truth must hold ids >= 0/);
    expect(() => adjustedRandIndex(new Uint8Array(3) as never, row([1]))).toThrow(TypeError);
  });
});
