import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { over255, sampleOffsets, toEight } from '../../src/raster/samples.ts';

describe('samples', () => {
  it('of 16 bits become the nearest of 8', () => {
    for (let v = 0; v < 65536; v++)
      if (toEight(v, true) !== Math.round(v / 257)) expect(v).toBe(-1);
    for (let v = 0; v < 256; v++) expect(toEight(v, false)).toBe(v);
    for (let v = 0; v < 256; v++) expect(toEight(257 * v, true)).toBe(v);
  });

  it('are divided by 255 to the nearest', () => {
    fc.assert(
      fc.property(fc.nat(255 * 255), (v) => {
        expect(over255(v)).toBe(Math.round(v / 255));
      }),
      { numRuns: 5000, seed: 4 },
    );
  });

  it.each([
    [1, { green: 0, blue: 0, alpha: -1 }],
    [2, { green: 0, blue: 0, alpha: 1 }],
    [3, { green: 1, blue: 2, alpha: -1 }],
    [4, { green: 1, blue: 2, alpha: 3 }],
  ])('of %d channels lie where they are looked for', (channels, places) => {
    const dense = { width: 1, height: 1, channels };
    expect(sampleOffsets({ data: new Uint8Array(channels), ...dense })).toEqual({
      ...places,
      wide: false,
      full: 255,
    });
    expect(sampleOffsets({ data: new Uint16Array(channels), ...dense })).toEqual({
      ...places,
      wide: true,
      full: 65_535,
    });
  });
});
