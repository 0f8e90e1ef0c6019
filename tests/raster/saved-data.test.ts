import { describe, expect, it } from 'vitest';
import { checkHead, checkInts, checkSum, withSum } from '../../src/raster/saved-data.ts';

describe('checkHead', () => {
  const check = (data: unknown) =>
    checkHead(data as never, 'data', 'harbour', 3, 'what page.save() gave');

  it('takes data of its kind and version', () => {
    expect(check({ kind: 'harbour', version: 3 })).toBeUndefined();
  });

  it.each([[undefined], [null], ['harbour'], [{ kind: 'gaps', version: 3 }], [{ version: 3 }]])(
    'refuses %j as another kind',
    (data) => {
      expect(() => check(data)).toThrow(TypeError);
      expect(() => check(data)).toThrow(/^data must be what page\.save\(\) gave, got /);
    },
  );

  it('refuses another version', () => {
    expect(() => check({ kind: 'harbour', version: 2 })).toThrow(
      new RangeError('data.version must be 3, the format of this release, got 2'),
    );
  });
});

describe('checkSum', () => {
  const saved = () => withSum({ kind: 'harbour', ids: Int32Array.of(4, 0, 7) });

  it('knows again what was saved, and is itself left out of the sum', () => {
    expect(saved()).toMatchObject({ kind: 'harbour', ids: Int32Array.of(4, 0, 7) });
    expect(checkSum(saved(), 'page')).toBeUndefined();
    expect(checkSum(structuredClone(saved()), 'page')).toBeUndefined();
  });

  it('refuses what was changed since', () => {
    const data = saved();
    data.ids[1] = 1;
    expect(() => checkSum(data, 'page')).toThrow(
      `page.sum must be the sum of what it holds, got ${data.sum}; the data was changed since it was saved`,
    );
    expect(() => checkSum({ ...saved(), sum: saved().sum + 1 }, 'page')).toThrow(RangeError);
  });
});

describe('checkInts', () => {
  it('gives back numbers within the range, both ends included', () => {
    const ids = Int32Array.of(0, 5, 9);
    expect(checkInts(ids, 'ids', { max: 9 })).toBe(ids);
    expect(checkInts(ids, 'ids', { length: 3, max: 9 })).toBe(ids);
    const below = Int32Array.of(-1, 2);
    expect(checkInts(below, 'ids', { min: -1, max: 2 })).toBe(below);
    expect(checkInts(new Int32Array(0), 'ids', { length: 0, max: 0 })).toHaveLength(0);
  });

  it('refuses the first number outside, by its place', () => {
    expect(() => checkInts(Int32Array.of(0, 10, 11), 'ids', { max: 9 })).toThrow(
      new RangeError('ids[1] must be a finite number from 0 to 9, got 10'),
    );
    expect(() => checkInts(Int32Array.of(3, -1), 'ids', { max: 9 })).toThrow(
      new RangeError('ids[1] must be a finite number from 0 to 9, got -1'),
    );
    expect(() => checkInts(Int32Array.of(-2), 'ids', { min: -1, max: 9 })).toThrow(RangeError);
  });

  it('refuses another length and another kind', () => {
    expect(() => checkInts(Int32Array.of(1, 2), 'ids', { length: 3, max: 9 })).toThrow(
      new TypeError('ids must be an Int32Array of 3 numbers, got Int32Array(2)'),
    );
    expect(() => checkInts([1] as never, 'ids', { max: 9 })).toThrow(
      new TypeError('ids must be an Int32Array, got [1]'),
    );
  });
});
