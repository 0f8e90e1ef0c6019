import { expect, describe as group, it } from 'vitest';
import { pixelsArgument } from '../../src/raster/arguments.ts';
import { describe as inWords } from '../../src/raster/errors.ts';
import { raster } from '../../src/raster/raster.ts';
import { pixelViews } from '../support/grids.ts';

group('the samples of any view', () => {
  const pixels = raster(
    Uint8Array.from({ length: 4 * 3 * 2 }, (_, i) => i),
    [4, 3, 2],
  );

  it('come row by row, channels turned round and planes too', () => {
    for (const view of [...pixelViews(pixels), pixels.step(1, 1, -1), pixels.step(-1, 1, -1)]) {
      const [w, h, c] = view.shape as [number, number, number];
      const expected = Array.from({ length: w * h * c }, (_, i) => {
        const p = Math.floor(i / c);
        return view.get(p % w, Math.floor(p / w), i % c);
      });
      const dense = pixelsArgument(view, 'pixels');
      expect([...dense.data]).toEqual(expected);
      expect([dense.width, dense.height, dense.channels]).toEqual([w, h, c]);
    }
  });

  it('are shared where they lie so already, and copied elsewhere', () => {
    expect(pixelsArgument(pixels, 'pixels').data).toBe(pixels.data);
    const part = pixels.lo(0, 1);
    expect(pixelsArgument(part, 'pixels').data.buffer).toBe(pixels.data.buffer);
    for (const view of [pixels.hi(3, 3), pixels.step(1, 1, -1), pixels.transpose(1, 0)]) {
      expect(pixelsArgument(view, 'pixels').data.buffer).not.toBe(pixels.data.buffer);
    }
  });
});

group('what came, in words', () => {
  it.each<[unknown, string]>([
    [/x/, 'a RegExp'],
    [new Map(), 'a Map'],
    [new Error('x'), 'an Error'],
    [Promise.resolve(), 'a Promise'],
    [{}, 'an empty object'],
    [{ a: 1, b: 2 }, 'an object { a, b }'],
    [{ a: 1, b: 2, c: 3, d: 4, e: 5, f: 6 }, 'an object { a, b, c, d, e }'],
    [Object.create(null), 'an empty object'],
    [[1, 2], '[1, 2]'],
    [[1, 2, 3, 4, 5, 6], '[1, 2, 3, 4, 5, 6]'],
    [[1, 2, 3, 4, 5, 6, 7], 'an array of 7'],
    [['a'], 'an array of 1'],
    [new Uint8Array(3), 'Uint8Array(3)'],
    [new DataView(new ArrayBuffer(3)), 'DataView'],
    [() => 1, 'a function'],
    ['x'.repeat(40), `"${'x'.repeat(40)}"`],
    ['x'.repeat(41), `"${'x'.repeat(40)}…"`],
    [null, 'null'],
    [-0.5, '-0.5'],
  ])('%o', (value, words) => {
    expect(inWords(value)).toBe(words);
  });
});
