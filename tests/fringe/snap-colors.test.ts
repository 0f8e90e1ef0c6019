import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { snapColors } from '../../src/fringe/snap-colors.ts';
import { raster } from '../../src/raster/raster.ts';

const palette = [
  { name: 'paper', color: '#f4f0e6' },
  { name: 'line', color: '#000000' },
  { name: 'fur', color: '#8a5d42' },
  { name: 'scarf', color: '#c86400' },
];
const [w, h] = [120, 80];
/** Discs of fur and scarf with a black rim on paper; `patch` is the color of a square on the scarf. */
const indexAt = (x: number, y: number, patch: boolean): number => {
  if (patch && x >= 85 && x < 95 && y >= 35 && y < 45) return 5;
  for (const [cx, swatch] of [
    [35, 3],
    [88, 4],
  ] as const) {
    const d = Math.hypot(x + 0.5 - cx, y + 0.5 - 40);
    if (d < 24) return swatch;
    if (d < 28) return 2;
  }
  return 1;
};
const truth = (patch = false): Uint8Array =>
  Uint8Array.from({ length: w * h }, (_, i) => indexAt(i % w, Math.floor(i / w), patch));
const colors = ['#000000', ...palette.map(({ color }) => color), '#30a060'].map((color) =>
  Number.parseInt(color.slice(1), 16),
);
const paint = (indices: Uint8Array): Uint8Array =>
  Uint8Array.from(
    { length: 3 * w * h },
    (_, k) => (colors[indices[Math.floor(k / 3)]!]! >> (16 - 8 * (k % 3))) & 255,
  );
const jpeg = async (rgb: Uint8Array, quality: number, chromaSubsampling: string) => {
  const raw = { width: w, height: h, channels: 3 } as const;
  const file = await sharp(rgb, { raw }).jpeg({ quality, chromaSubsampling }).toBuffer();
  return raster(new Uint8Array(await sharp(file).raw().toBuffer()), [w, h, 3]);
};
const wrong = (found: Uint8Array | Uint16Array, expected: Uint8Array): number =>
  expected.reduce((sum, index, i) => sum + (found[i] === index ? 0 : 1), 0);

describe('snapColors', () => {
  it('gives flats in the palette back as they were', () => {
    const { flats, off } = snapColors(raster(paint(truth()), [w, h, 3]), palette);
    expect(wrong(flats.indices.data, truth())).toBe(0);
    expect(flats.palette.map(({ name }) => name)).toEqual([
      'bare',
      'paper',
      'line',
      'fur',
      'scarf',
    ]);
    expect(off.data.some((value) => value > 0)).toBe(false);
  });

  it.each([
    [95, '4:4:4', 0],
    [85, '4:4:4', 4],
    [75, '4:2:0', 40],
  ])('brings back what JPEG of quality %d, %s, has moved', async (quality, chroma, most) => {
    const { flats } = snapColors(await jpeg(paint(truth()), quality, chroma), palette);
    expect(wrong(flats.indices.data, truth())).toBeLessThanOrEqual(most);
  });

  it('takes no noise of JPEG of quality 85 for off', async () => {
    const { off } = snapColors(await jpeg(paint(truth()), 85, '4:4:4'), palette);
    expect(off.data.some((value) => value > 0)).toBe(false);
  });

  // Half of the color beside the ink is spread over 2 × 2 pixels there: no mix of two swatches near it.
  it.fails('takes no more than ten pixels of JPEG of quality 75, 4:2:0, for off', async () => {
    const { off } = snapColors(await jpeg(paint(truth()), 75, '4:2:0'), palette);
    expect(off.data.reduce((sum, value) => sum + value, 0)).toBeLessThanOrEqual(10);
  });

  it('tells a color that the palette lacks, whole and nothing else', async () => {
    const expected = truth(true);
    const { off, flats } = snapColors(raster(paint(expected), [w, h, 3]), palette);
    expect([...off.data]).toEqual([...expected].map((index) => (index === 5 ? 1 : 0)));
    expect(flats.indices.get(90, 40)).toBe(0);
    const after = snapColors(await jpeg(paint(expected), 85, '4:4:4'), palette);
    for (const [x, y] of [
      [86, 36],
      [90, 40],
      [93, 43],
    ] as const)
      expect(after.off.get(x, y)).toBe(1);
    const far = after.off.data.reduce((sum, value, i) => {
      const [x, y] = [i % w, Math.floor(i / w)];
      return sum + (x >= 84 && x < 96 && y >= 34 && y < 46 ? 0 : value);
    }, 0);
    expect(far).toBe(0);
  });

  it('goes by its neighbors where two swatches are near', () => {
    const near = [
      { name: 'coat', color: '#406080' },
      { name: 'coat in shade', color: '#3c5c7c' },
    ];
    // Left exactly the first, right exactly the second, with one pixel between them on the right.
    const row = [0x406080, 0x406080, 0x406080, 0x3c5c7c, 0x3e5e7e, 0x3c5c7c];
    const art = Uint8Array.from(
      { length: 54 },
      (_, k) => (row[Math.floor(k / 3) % 6]! >> (16 - 8 * (k % 3))) & 255,
    );
    const { flats } = snapColors(raster(art, [6, 3, 3]), near);
    expect([...flats.indices.data.subarray(0, 6)]).toEqual([1, 1, 1, 2, 2, 2]);
  });

  it('takes what is transparent for bare, and partly transparent for off', () => {
    const art = raster(new Uint8Array([1, 2, 3, 0, 200, 100, 0, 255, 200, 100, 0, 90]), [3, 1, 4]);
    const { flats, off } = snapColors(art, palette);
    expect(flats.indices.get(0, 0)).toBe(0);
    expect(flats.indices.get(1, 0)).toBe(4);
    expect(off.get(0, 0)).toBe(0);
  });

  it('reaches as far as it is told', () => {
    const art = raster(new Uint8Array(27).fill(12), [3, 3, 3]);
    const black = [{ name: 'line', color: '#000000' }];
    expect(snapColors(art, black).off.get(1, 1)).toBe(0);
    expect(snapColors(art, black, { within: 0 }).off.get(1, 1)).toBe(1);
    expect(() => snapColors(art, black, { within: -1 })).toThrow(RangeError);
    expect(() => snapColors(art, [{ name: 'a', color: 'red' }])).toThrow(/palette\[0\].color/);
    expect(() => snapColors(art, black, { below: 1 } as never)).toThrow(TypeError);
  });
});
