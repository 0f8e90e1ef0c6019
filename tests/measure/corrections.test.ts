import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { correctionsNeeded } from '../../src/measure/index.ts';
import { lists, plainCounts, renamed, row } from './partitions.ts';

function byRegions(
  truth: readonly number[],
  found: readonly number[],
  minArea: number,
  minShare: number,
) {
  const { trueAreas, cells } = plainCounts(truth, found);
  const holds = cells.filter(
    ({ t, f, n }) => f !== 0 && n >= minArea && n >= minShare * trueAreas.get(t)!,
  );
  const beyond = (key: 't' | 'f') => holds.length - new Set(holds.map((cell) => cell[key])).size;
  return { merges: beyond('f'), splits: beyond('t') };
}

const run = (id: number, n: number): number[] => Array<number>(n).fill(id);

describe('correctionsNeeded', () => {
  it('takes 12 pixels and 5 % as a piece, whichever is more', () => {
    const truth = row([...run(1, 200), ...run(2, 400)]);
    const found = (a: number, b: number) =>
      row([...run(1, a), ...run(2, 200 - a), ...run(3, b), ...run(4, 400 - b)]);
    expect(correctionsNeeded(truth, found(11, 19))).toEqual({ merges: 0, splits: 0 });
    expect(correctionsNeeded(truth, found(12, 19))).toEqual({ merges: 0, splits: 1 });
    expect(correctionsNeeded(truth, found(12, 20))).toEqual({ merges: 0, splits: 2 });
    expect(correctionsNeeded(truth, found(12, 20), { minShare: 0.5 })).toEqual({
      merges: 0,
      splits: 0,
    });
    expect(correctionsNeeded(truth, found(1, 1), { minArea: 1, minShare: 0 }).splits).toBe(2);
  });

  it('counts the true regions in a found one beyond the first', () => {
    const truth = row([...run(1, 20), ...run(2, 20), ...run(3, 20), ...run(0, 20)]);
    expect(correctionsNeeded(truth, row(run(5, 80)))).toEqual({ merges: 2, splits: 0 });
    expect(correctionsNeeded(truth, row(run(0, 80)))).toEqual({ merges: 0, splits: 0 });
    expect(correctionsNeeded(truth, truth)).toEqual({ merges: 0, splits: 0 });
  });

  it('agrees with a count over regions, whatever they are called', () => {
    const shares = fc.constantFrom(0, 0.05, 0.3, 1);
    fc.assert(
      fc.property(lists(2), fc.integer({ min: 0, max: 4 }), shares, ([a, b], minArea, minShare) => {
        const options = { minArea, minShare };
        const plain = byRegions(a!, b!, minArea, minShare);
        expect(correctionsNeeded(row(a!), row(b!), options)).toEqual(plain);
        expect(correctionsNeeded(row(renamed(a!)), row(renamed(b!)), options)).toEqual(plain);
      }),
    );
  });

  it('is 0 both ways exactly for the same partition, when single pixels count', () => {
    fc.assert(
      fc.property(lists(2, 1), ([a, b]) => {
        const { merges, splits } = correctionsNeeded(row(a!), row(b!), { minArea: 1, minShare: 0 });
        const pairs = new Set(a!.map((t, i) => `${t} ${b![i]}`)).size;
        expect(splits).toBe(pairs - new Set(a).size);
        expect(merges).toBe(pairs - new Set(b).size);
      }),
    );
  });

  it('refuses what is no number of pixels and no share', () => {
    const call = (options: object) => () => correctionsNeeded(row([1]), row([1]), options);
    expect(call({ minArea: -1 })).toThrow('minArea must be a finite number of pixels >= 0, got -1');
    expect(call({ minShare: 1.5 })).toThrow(
      'minShare must be a finite number from 0 to 1, got 1.5',
    );
    expect(call({ minshare: 0.5 })).toThrow(/did you mean "minShare"/);
  });
});
