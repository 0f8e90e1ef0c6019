import { expect, it } from 'vitest';
import { base64 } from '../../src/raster/base64.ts';
import { pixelCenter } from '../../src/raster/pixel-center.ts';
import { scatter, scatterPlace } from '../../src/raster/scatter.ts';
import { seeded } from '../support/random.ts';

it('base64 is that of Node, within a chunk, at its end and beyond', () => {
  const random = seeded(5);
  for (const length of [0, 1, 2, 3, 4, 6143, 6144, 6145, 6146, 20_000]) {
    const bytes = Uint8Array.from({ length }, () => 256 * random());
    expect(base64(bytes)).toBe(Buffer.from(bytes).toString('base64'));
  }
});

it('scatter is the finalizer of MurmurHash3: its hashes of no bytes by seed, values from memory', () => {
  expect(scatter(0)).toBe(0);
  expect(scatter(1)).toBe(0x514e28b7);
  expect(scatter(0xffff_ffff)).toBe(0x81f16f39);
  expect(scatter(-1)).toBe(0x81f16f39);
});

it('places of a picture scatter over all numbers of 32 bits, no two alike', () => {
  const side = 128;
  const drawn = Array.from({ length: side * side }, (_, i) =>
    scatterPlace(i % side, (i / side) | 0),
  );
  expect(new Set(drawn).size).toBe(side * side);
  expect(drawn.every((number) => number >= 0 && number < 2 ** 32)).toBe(true);
  for (let bit = 0; bit < 32; bit++) {
    const ones = drawn.filter((number) => (number >>> bit) & 1).length;
    // Five standard deviations of a fair coin, √(n / 4) each.
    expect(Math.abs(ones - drawn.length / 2)).toBeLessThan(5 * Math.sqrt(drawn.length / 4));
  }
});

it('the center of a pixel is half a pixel from its corner', () => {
  expect(pixelCenter(0, 3)).toEqual([0.5, 0.5]);
  expect(pixelCenter(2, 3)).toEqual([2.5, 0.5]);
  expect(pixelCenter(3, 3)).toEqual([0.5, 1.5]);
  expect(pixelCenter(7, 3)).toEqual([1.5, 2.5]);
});
