import { describe, expect, it } from 'vitest';
import { checkMaskValues } from '../../src/raster/mask-values.ts';
import { packMask } from '../../src/raster/pack.ts';

describe('checkMaskValues', () => {
  const dense = (values: number[], width: number) => {
    const data = Uint8Array.from(values);
    return { data, width, height: data.length / width, channels: 1 };
  };

  it('takes 0 and 1', () => {
    expect(() => checkMaskValues(dense([0, 1, 1, 0], 2), 'ink')).not.toThrow();
  });

  it.each([
    [[0, 1, 255, 0], 'ink must hold 0 or 1, got 255 at [0, 1]; this looks like a coverage'],
    [[0, 0, 255, 0], 'this looks like a mask of 0 and 255: divide it by 255'],
    [[0, 2, 0, 0], 'ink must hold 0 or 1, got 2 at [1, 0]'],
  ])('refuses %j as packing does', (values, text) => {
    expect(() => checkMaskValues(dense(values, 2), 'ink')).toThrow(text);
    expect(() => packMask(dense(values, 2), 'ink')).toThrow(text);
  });
});
