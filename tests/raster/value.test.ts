import { describe, expect, it } from 'vitest';
import type { RasterData } from '../../src/raster/types.ts';
import { checkValue, checkValues, isOneOf } from '../../src/raster/value.ts';
import { KINDS } from '../support/kinds.ts';

const dense = (data: RasterData, channels: number) => ({
  data,
  width: data.length / channels,
  height: 1,
  channels,
});

describe('checkValue', () => {
  it('is one number for each channel', () => {
    expect(checkValue(7, 'value', dense(new Uint8Array(3), 1))).toEqual([7]);
    expect(checkValue(7, 'value', dense(new Uint8Array(3), 3))).toEqual([7, 7, 7]);
    expect(checkValue([1, 2, 3], 'value', dense(new Uint8Array(3), 3))).toEqual([1, 2, 3]);
    expect(checkValue([9], 'value', dense(new Uint8Array(3), 1))).toEqual([9]);
  });

  it.each(KINDS)('is what %o holds unchanged, and nothing else', (Kind) => {
    const samples = [-(2 ** 31), -(2 ** 15), -128, 0, 127, 255, 65_535, 2 ** 31 - 1, 2 ** 32 - 1];
    const near = samples.flatMap((sample) => [sample - 1, sample, sample + 1, sample + 0.5]);
    for (const sample of [...near, 0.1, 1e300, Number.NaN, Number.POSITIVE_INFINITY]) {
      const held = Number.isFinite(sample) && Kind.of(sample)[0] === sample;
      const check = () => checkValue(sample, 'value', dense(new Kind(1), 1));
      if (held) expect(check()).toEqual([sample]);
      else expect(check).toThrow(RangeError);
    }
  });

  it.each<[unknown, number, Error]>([
    ['7', 1, new TypeError('value must be a number, got "7"')],
    ['7', 3, new TypeError('value must be a number or 3 of them, got "7"')],
    [[1, 2], 3, new RangeError('value must be a number or 3 of them, got [1, 2]')],
    [[1, '2', 3], 3, new TypeError('value[1] must be a number, got "2"')],
    [
      [1, 2, 256],
      3,
      new RangeError('value[2] must be a whole number from 0 to 255, as Uint8Array holds, got 256'),
    ],
  ])('refuses %j for %d channels', (value, channels, error) => {
    expect(() => checkValue(value, 'value', dense(new Uint8Array(6), channels))).toThrow(error);
  });

  it('names the kind that does not hold a number', () => {
    expect(() => checkValue(0.1, 'value', dense(new Float32Array(1), 1))).toThrow(
      new RangeError('value must be a finite number that Float32Array holds, got 0.1'),
    );
  });
});

describe('checkValues', () => {
  const rgb = dense(new Uint8Array(3), 3);

  it('is a list of values, of one where it is a number', () => {
    expect(checkValues(4, 'only', rgb)).toEqual([[4, 4, 4]]);
    expect(checkValues([4, [1, 2, 3]], 'only', rgb)).toEqual([
      [4, 4, 4],
      [1, 2, 3],
    ]);
    expect(checkValues([], 'only', rgb)).toEqual([]);
  });

  it('refuses the rest, by its place', () => {
    expect(() => checkValues('4', 'only', rgb)).toThrow(
      'only must be a number or a list of values, each a number or one per channel, got "4"',
    );
    expect(() => checkValues([4, 'x'], 'only', rgb)).toThrow(/^only\[1\] must be /);
    expect(() => checkValues([4, -1], 'only', rgb)).toThrow(/^only\[1\] must be /);
  });
});

describe('isOneOf', () => {
  it('is true of the pixels whose samples are all those of one value', () => {
    const gray = isOneOf(dense(Uint8Array.of(3, 4, 5), 1), [[3], [5]]);
    expect([0, 1, 2].map(gray)).toEqual([true, false, true]);
    const rgb = dense(Uint8Array.of(1, 2, 3, 1, 2, 4, 9, 2, 3, 7, 7, 7), 3);
    const isOne = isOneOf(rgb, [
      [1, 2, 3],
      [7, 7, 7],
    ]);
    expect([0, 1, 2, 3].map(isOne)).toEqual([true, false, false, true]);
    expect([0, 1, 2, 3].map(isOneOf(rgb, []))).toEqual([false, false, false, false]);
  });
});
