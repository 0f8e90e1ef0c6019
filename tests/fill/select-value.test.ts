import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { replaceValue } from '../../src/fill/replace-value.ts';
import { selectValue } from '../../src/fill/select-value.ts';
import { raster } from '../../src/raster/raster.ts';
import { grid, labels, literal, mask, otherViews } from '../support/grids.ts';

describe('selectValue', () => {
  const image = labels(`
    3 0 4
    3 3 0`);

  it('takes pixels wherever they are, within tolerance and off the barrier', () => {
    expect(grid(selectValue(image, 3).mask)).toBe(literal('1 . .\n1 1 .'));
    const barrier = mask('1 . .\n. . .');
    const near = selectValue(image, 3, { tolerance: 1, barrier });
    expect(grid(near.mask)).toBe(literal('. . 1\n1 1 .'));
    expect([near.area, near.bounds]).toEqual([3, [0, 0, 3, 2]]);
    expect(selectValue(image, 9)).toMatchObject({ area: 0, bounds: null });
  });

  it('equals a comparison pixel by pixel, whatever the width and the offset', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 130 }),
        fc.integer({ min: 1, max: 5 }),
        fc.integer({ min: 0, max: 7 }),
        fc.nat(),
        (w, h, offset, seed) => {
          const memory = Uint8Array.from(
            { length: w * h + offset },
            (_, i) => (i * (seed % 97)) % 3,
          );
          const data = memory.subarray(offset);
          const { mask: found, area } = selectValue(raster(data, [w, h]), 1);
          expect(found.data).toEqual(data.map((v) => (v === 1 ? 1 : 0)));
          expect(area).toBe(data.filter((v) => v === 1).length);
        },
      ),
      { numRuns: 400 },
    );
  });
});

describe('replaceValue', () => {
  it('replaces every pixel of a value, in any view', () => {
    const image = labels(`
      3 0 4
      3 3 0`);
    for (const view of otherViews(image)) {
      expect(replaceValue(view, 3, 7)).toEqual({ changed: 3, bounds: [0, 0, 2, 2] });
      expect(grid(view)).toBe(literal('7 . 4\n7 7 .'));
    }
    expect(replaceValue(image, 3, 3)).toEqual({ changed: 0, bounds: null });
  });

  it('takes colors channel by channel', () => {
    const pixels = raster(Uint8Array.from([1, 2, 3, 1, 2, 4, 1, 2, 3]), [3, 1, 3]);
    expect(replaceValue(pixels, [1, 2, 3], [9, 9, 9])).toEqual({
      changed: 2,
      bounds: [0, 0, 3, 1],
    });
    expect([...pixels.data]).toEqual([9, 9, 9, 1, 2, 4, 9, 9, 9]);
    expect(() => replaceValue(pixels, [1, 2], 0)).toThrow(
      'value must be a number or 3 of them, got [1, 2]',
    );
  });
});

describe('only', () => {
  it('bounds what selectValue and replaceValue take, as in floods', () => {
    const raster = labels('3 4 5 4');
    const found = selectValue(raster, 4, { tolerance: 1, only: [3, 4] });
    expect(grid(found.mask)).toBe(literal('1 1 . 1'));
    expect([found.area, found.bounds]).toEqual([3, [0, 0, 4, 1]]);
    expect(replaceValue(raster, 4, 9, { tolerance: 1, only: 5 })).toEqual({
      changed: 1,
      bounds: [2, 0, 3, 1],
    });
    expect(grid(raster)).toBe(literal('3 4 9 4'));
  });
});
