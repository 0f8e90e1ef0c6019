import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fillNearest } from '../../src/distance/nearest-label.ts';
import { raster } from '../../src/raster/raster.ts';
import { grid, labels, literal } from '../support/grids.ts';

/** The nearest of all labeled pixels, among equally near ones the lowest label. */
function bruteForce(data: Int32Array, w: number): number[] {
  const sites = [...data.keys()].filter((i) => data[i] !== 0);
  return Array.from(data, (_, i) => {
    let [best, least] = [0, Number.POSITIVE_INFINITY];
    for (const s of sites) {
      const square = ((s % w) - (i % w)) ** 2 + (Math.floor(s / w) - Math.floor(i / w)) ** 2;
      if (square > least || (square === least && data[s]! >= best)) continue;
      [best, least] = [data[s]!, square];
    }
    return best;
  });
}

const filled = (text: string) => {
  const r = labels(text);
  fillNearest(r.data, r.shape[0]!, r.shape[1]!);
  return grid(r);
};

describe('fillNearest', () => {
  it('gives ties to the lowest label, from whichever side it comes', () => {
    expect(filled('1 . 2 . . 3 . 1')).toBe('1 1 2 2 3 3 1 1');
    expect(filled('2\n.\n1\n.\n.\n.\n3')).toBe('2\n1\n1\n1\n1\n3\n3');
    expect(
      filled(`
      . . 4
      . . .
      5 . .`),
    ).toBe(
      literal(`
      4 4 4
      5 4 4
      5 5 4`),
    );
  });

  it('changes nothing without a label or without a gap', () => {
    expect(filled('. .\n. .')).toBe('. .\n. .');
    expect(filled('1 2\n3 1')).toBe('1 2\n3 1');
  });

  it('agrees with a search of all pixels on a few labels anywhere, and on nearly full rasters', () => {
    const side = fc.integer({ min: 1, max: 24 });
    const scene = fc
      .tuple(side, side, fc.constantFrom(0.02, 0.1, 0.5, 0.9))
      .chain(([w, h, share]) =>
        fc.tuple(
          fc.constant(w),
          fc.array(
            fc
              .double({ min: 0, max: 1, noNaN: true })
              .chain((draw) => (draw < share ? fc.integer({ min: 1, max: 5 }) : fc.constant(0))),
            { minLength: w * h, maxLength: w * h },
          ),
        ),
      );
    fc.assert(
      fc.property(scene, ([w, ids]) => {
        const data = Int32Array.from(ids);
        const expected = bruteForce(data, w);
        fillNearest(data, w, data.length / w);
        expect([...data]).toEqual(expected);
      }),
      { numRuns: 150 },
    );
  });

  it('goes past 65,535 columns and rows', () => {
    const n = 140_001;
    for (const [w, h] of [
      [n, 1],
      [1, n],
    ] as const) {
      const r = raster(new Int32Array(n), [w, h]);
      r.data[0] = 2;
      r.data[n - 1] = 1;
      fillNearest(r.data, w, h);
      expect([r.data[69_999], r.data[70_000], r.data[70_001]]).toEqual([2, 1, 1]);
    }
  });
});
