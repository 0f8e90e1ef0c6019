import { describe, expect, it } from 'vitest';
import { mergeRegions, regionAt } from '../../src/regions/index.ts';
import { grid, labels, literal, otherViews, symmetries } from '../support/grids.ts';

const four = () =>
  labels(`
  1 1 . 2
  3 1 2 2
  3 4 4 .`);

describe('mergeRegions', () => {
  it('gives the first id to all of them, touching or not', () => {
    expect(grid(mergeRegions(four(), [4, 1, 2]))).toBe(
      literal(`
      4 4 . 4
      3 4 4 4
      3 4 4 .`),
    );
    expect(grid(mergeRegions(four(), [3, 3]))).toBe(grid(four()));
    const from = four();
    mergeRegions(from, [1, 2]);
    expect(grid(from)).toBe(grid(four()));
  });

  it('does so through every view', () => {
    const expected = symmetries(mergeRegions(four(), [2, 3]));
    symmetries(four()).forEach((view, s) => {
      expect(grid(mergeRegions(view, [2, 3]))).toBe(grid(expected[s]!));
    });
    for (const view of otherViews(four())) {
      expect(grid(mergeRegions(view, [2, 3]))).toBe(grid(expected[0]!));
    }
  });

  it('refuses an id that is none', () => {
    expect(() => mergeRegions(four(), [1, 5])).toThrow(
      new RangeError('ids[1] must occur in labels, got 5'),
    );
    expect(() => mergeRegions(four(), [5, 1])).toThrow(/^ids\[0\] must occur/);
    expect(() => mergeRegions(four(), [])).toThrow(RangeError);
    expect(() => mergeRegions(four(), [0])).toThrow(/^ids\[0\] must be a whole number >= 1/);
    expect(() => mergeRegions(four(), [1.5])).toThrow(RangeError);
    expect(() => mergeRegions(four(), 1 as never)).toThrow(TypeError);
  });
});

describe('regionAt', () => {
  it('is the id of the pixel that a point lies in, 0 outside, through every view', () => {
    for (const view of [...symmetries(four()), ...otherViews(four())]) {
      const [w, h] = view.shape as [number, number];
      for (let y = -1; y <= h; y++) {
        for (let x = -1; x <= w; x++) {
          const inside = x >= 0 && y >= 0 && x < w && y < h;
          const id = inside ? view.get(x, y) : 0;
          for (const [u, v] of [
            [x, y],
            [x + 0.5, y + 0.99],
          ] as const) {
            expect(regionAt(view, [u, v])).toBe(id);
          }
        }
      }
    }
  });

  it('refuses what is no point', () => {
    expect(() => regionAt(four(), [Number.NaN, 0])).toThrow(RangeError);
    expect(() => regionAt(four(), 3 as never)).toThrow(TypeError);
  });
});
