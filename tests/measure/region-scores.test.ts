import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { regionScores } from '../../src/measure/index.ts';
import { lists, plainCounts, renamed, row } from './partitions.ts';

/** Every true region beside every found one. */
function byRegions(truth: readonly number[], found: readonly number[], iou: number) {
  const { trueAreas, foundAreas, cells } = plainCounts(truth, found);
  foundAreas.delete(0);
  let pairs = 0;
  for (const [t, trueArea] of trueAreas) {
    for (const [f, foundArea] of foundAreas) {
      const n = cells.find((cell) => cell.t === t && cell.f === f)?.n ?? 0;
      if (n / (trueArea + foundArea - n) >= iou) pairs++;
    }
  }
  const [all, seen] = [trueAreas.size, foundAreas.size];
  return {
    precision: seen === 0 ? 1 : pairs / seen,
    recall: all === 0 ? 1 : pairs / all,
    f1: all + seen === 0 ? 1 : (2 * pairs) / (all + seen),
  };
}

describe('regionScores', () => {
  it('counts regions that are nearly the same', () => {
    const truth = [...Array(10).fill(1), ...Array(10).fill(2)];
    const nine = [...Array(9).fill(1), ...Array(11).fill(2)];
    expect(regionScores(row(truth), row(nine))).toEqual({ precision: 1, recall: 1, f1: 1 });
    expect(regionScores(row(truth), row(nine), { iou: 0.905 }).f1).toBe(0.5);
    expect(regionScores(row(truth), row(Array(20).fill(1)))).toEqual({
      precision: 0,
      recall: 0,
      f1: 0,
    });
  });

  it('agrees with all pairs of regions', () => {
    fc.assert(
      fc.property(lists(2), fc.constantFrom(0.51, 0.75, 0.9, 1), ([a, b], iou) => {
        const plain = byRegions(a!, b!, iou);
        expect(regionScores(row(a!), row(b!), { iou })).toEqual(plain);
        expect(regionScores(row(renamed(a!)), row(renamed(b!)), { iou })).toEqual(plain);
      }),
    );
  });

  it('counts found areas within the truth only', () => {
    expect(regionScores(row([1, 1, 0, 0]), row([1, 1, 1, 1])).f1).toBe(1);
    expect(regionScores(row([1, 1, 0, 0]), row([1, 1, 2, 3])).precision).toBe(1);
    expect(regionScores(row([1, 1]), row([0, 0]))).toEqual({ precision: 1, recall: 0, f1: 0 });
    expect(regionScores(row([0, 0]), row([0, 0]))).toEqual({ precision: 1, recall: 1, f1: 1 });
  });

  it('refuses a share that lets a region have two partners', () => {
    for (const iou of [0.5, 0.2, 0]) {
      expect(() => regionScores(row([1]), row([1]), { iou })).toThrow(
        `iou must be a share above 0.5, up to 1, got ${iou}`,
      );
    }
    expect(() => regionScores(row([1]), row([1]), { iou: 2 })).toThrow(RangeError);
    expect(() => regionScores(row([1]), row([1]), { iuo: 0.9 } as never)).toThrow(
      'regionScores has no option "iuo". It takes: iou',
    );
  });
});
