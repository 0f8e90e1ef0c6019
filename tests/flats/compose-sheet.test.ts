import { describe, expect, it } from 'vitest';
import { composeSheet } from '../../src/flats/compose-sheet.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import { seeded } from '../support/random.ts';

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

  it('lays a line on transparent paper over it, rounded half up', () => {
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

  it('takes gray with alpha as a line on transparent paper', () => {
    const line = raster(new Uint8Array([0, 255, 80, 51, 0, 128, 0, 0]), [4, 1, 2]);
    // (80·51 + 128·204)/255 = 118.4
    expect(pixels(composeSheet(flats, { line }))).toBe(
      '0 0 0 255 | 118 118 118 255 | 69 46 33 255 | 138 93 66 255',
    );
  });

  it('takes tinted paper and blue pencil out of a scan', () => {
    const rgb = [0, 0, 0, 240, 230, 210, 150, 200, 205, 240, 230, 210];
    const line = raster(
      new Uint8Array([...rgb, ...rgb.slice(3, 6), ...rgb.slice(3, 6)]),
      [6, 1, 3],
    );
    const fur = { ...flats, indices: raster(new Uint8Array(6).fill(2), [6, 1]) };
    expect(pixels(composeSheet(fur, { line }))).toBe(`0 0 0 255${' | 138 93 66 255'.repeat(5)}`);
  });

  it('paints a part as it is on the whole sheet, whatever the line', () => {
    const [w, h] = [23, 17];
    const random = seeded(3);
    const bytes = (n: number) => Uint8Array.from({ length: n }, () => 256 * random());
    const drawn = {
      ...flats,
      indices: raster(
        bytes(w * h).map((v) => v % 3),
        [w, h],
      ),
    };
    // A page of white with strokes and blue pencil, opaque; then noise with alpha.
    const scan = Uint8Array.from({ length: 3 * w * h }, (_, k) => {
      const column = Math.floor(k / 3) % w;
      return column % 7 === 0 ? 20 + (k % 3) : column % 7 === 3 ? [164, 221, 237][k % 3]! : 255;
    });
    const lines = [
      undefined,
      raster(scan, [w, h, 3]),
      raster(bytes(2 * w * h), [w, h, 2]),
      raster(bytes(4 * w * h), [w, h, 4]),
      raster(
        Uint16Array.from(bytes(4 * w * h), (v) => 257 * v),
        [w, h, 4],
      ),
    ];
    for (const line of lines) {
      const whole = composeSheet(drawn, { line });
      for (const [x0, y0, x1, y1] of [
        [0, 0, w, h],
        [3, 5, 4, 6],
        [0, 9, w, 11],
        [20, 0, 23, h],
      ] as const) {
        const part = composeSheet(drawn, { line, within: [x0, y0, x1, y1] });
        expect(part.shape).toEqual([x1 - x0, y1 - y0, 4]);
        for (let y = y0; y < y1; y++)
          for (let x = x0; x < x1; x++)
            for (let c = 0; c < 4; c++)
              expect(part.get(x - x0, y - y0, c)).toBe(whole.get(x, y, c));
      }
    }
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
    const bounds = 'within must be bounds [x0, y0, x1, y1] in whole pixels inside 4 × 1, got';
    for (const within of [
      [0, 0, 5, 1],
      [-1, 0, 2, 1],
      [2, 0, 2, 1],
      [0, 0, 1.5, 1],
    ] as const) {
      expect(() => composeSheet(flats, { within: [...within] })).toThrow(
        new RangeError(`${bounds} [${within.join(', ')}]`),
      );
    }
    expect(() => composeSheet(flats, { within: 'all' as never })).toThrow(
      new TypeError(`${bounds} "all"`),
    );
  });
});
