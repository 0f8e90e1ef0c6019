import { describe, expect, it } from 'vitest';
import { composeSheet } from '../../src/flats/compose-sheet.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';

const flats: Flats = {
  indices: raster(new Uint8Array([0, 1, 2, 2]), [4, 1]),
  palette: [
    { name: 'bare', color: '#000000' },
    { name: 'paper', color: '#ffffff' },
    { name: 'fur', color: '#8a5d42' },
  ],
  ground: 'paper',
};
const pixels = (r: { data: Uint8Array }): string =>
  Array.from({ length: r.data.length / 4 }, (_, i) =>
    r.data.slice(4 * i, 4 * i + 4).join(' '),
  ).join(' | ');

describe('composeSheet', () => {
  it('shows the backdrop where bare and on the ground', () => {
    const sheet = composeSheet(flats);
    expect(sheet.shape).toEqual([4, 1, 4]);
    expect(pixels(sheet)).toBe('128 128 128 255 | 128 128 128 255 | 138 93 66 255 | 138 93 66 255');
    expect(pixels(composeSheet(flats, { backdrop: '#0A0B0C' }))).toBe(
      '10 11 12 255 | 10 11 12 255 | 138 93 66 255 | 138 93 66 255',
    );
    const { ground, ...without } = flats;
    expect(ground).toBe('paper');
    expect(pixels(composeSheet(without)).split(' | ')[1]).toBe('255 255 255 255');
  });

  it('lays a floating line over it, rounded half up', () => {
    const line = new Uint8Array(16);
    line.set([0, 0, 0, 255], 0); // solid black on bare
    line.set([200, 10, 0, 51], 4); // a fifth of a red on the backdrop
    line.set([0, 0, 0, 128], 8); // 128/255 of black on 138 93 66
    line.set([9, 9, 9, 0], 12); // nothing
    const sheet = composeSheet(flats, { line: raster(line, [4, 1, 4]) });
    // (200·51 + 128·204)/255 = 142.4; (10·51 + 128·204)/255 = 104.4; 128·204/255 = 102.4
    // 138·127/255 = 68.73; 93·127/255 = 46.3; 66·127/255 = 32.87
    expect(pixels(sheet)).toBe('0 0 0 255 | 142 104 102 255 | 69 46 33 255 | 138 93 66 255');
  });

  it.each([
    ['gray', raster(new Uint8Array([0, 255, 127, 255]), [4, 1])],
    ['RGB', raster(new Uint8Array([0, 255, 127, 255].flatMap((v) => [v, v, v])), [4, 1, 3])],
    ['16 bit', raster(new Uint16Array([0, 65_535, 127 * 257, 65_535]), [4, 1])],
    [
      'opaque RGBA',
      raster(new Uint8Array([0, 255, 127, 255].flatMap((v) => [v, v, v, 255])), [4, 1, 4]),
    ],
  ])('takes the white paper out of a scan, %s', (_, line) => {
    const sheet = composeSheet(flats, { line });
    expect(pixels(sheet)).toBe('0 0 0 255 | 128 128 128 255 | 69 46 33 255 | 138 93 66 255');
  });

  it('takes gray with alpha as a floating line', () => {
    const line = raster(new Uint8Array([0, 255, 80, 51, 0, 128, 0, 0]), [4, 1, 2]);
    // (80·51 + 128·204)/255 = 118.4
    expect(pixels(composeSheet(flats, { line }))).toBe(
      '0 0 0 255 | 118 118 118 255 | 69 46 33 255 | 138 93 66 255',
    );
  });

  it('refuses what is no flats, no color, no line of that size', () => {
    const line = raster(new Uint8Array(3), [3, 1]);
    expect(() => composeSheet(flats, { line })).toThrow(
      new RangeError('line must have the size of flats, 4 × 1, got 3 × 1'),
    );
    expect(() => composeSheet(flats, { backdrop: 'gray' })).toThrow(/^backdrop must be a color/);
    const past = { ...flats, indices: raster(new Uint8Array([0, 1, 2, 3]), [4, 1]) };
    expect(() => composeSheet(past)).toThrow(
      /^flats\.indices must be below the 3 swatches .*\[3, 0\]/,
    );
    expect(() => composeSheet(flats, { lines: line } as object)).toThrow(/did you mean "line"\?/);
  });
});
