import fc from 'fast-check';
import ndarray from 'ndarray';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { readChunks } from '../../src/png/chunks.ts';
import { readPng } from '../../src/png/read-png.ts';
import { writePng } from '../../src/png/write-png.ts';
import { raster } from '../../src/raster/raster.ts';
import type { PixelData } from '../../src/raster/types.ts';

const KINDS = [Uint8Array, Uint8ClampedArray, Uint16Array] as const;

describe('writePng', () => {
  it('gives back what readPng reads, for every sample type and number of channels', () => {
    const arbitrary = fc.record({
      kind: fc.constantFrom(...KINDS),
      width: fc.integer({ min: 1, max: 13 }),
      height: fc.integer({ min: 1, max: 13 }),
      channels: fc.integer({ min: 1, max: 4 }),
      factor: fc.nat(65_535),
    });
    fc.assert(
      fc.property(arbitrary, ({ kind, width, height, channels, factor }) => {
        const data: PixelData = new kind(width * height * channels);
        for (let i = 0; i < data.length; i++)
          data[i] = (i * factor) % (kind === Uint16Array ? 65_536 : 256);
        const { pixels, depth } = readPng(writePng(raster(data, [width, height, channels])));
        expect(pixels.shape).toEqual([width, height, channels]);
        expect([...pixels.data]).toEqual([...data]);
        expect(depth).toBe(kind === Uint16Array ? 16 : 8);
      }),
      { numRuns: 200, seed: 5 },
    );
  });

  it('takes every view and plain object', () => {
    const base = ndarray(
      Uint8Array.from({ length: 60 }, (_, i) => i * 4),
      [3, 5, 4],
      [20, 4, 1],
      0,
    );
    const views = [
      base,
      base.transpose(1, 0, 2),
      base.step(-1, -1, 1),
      base.hi(2, 4, 3).lo(1, 1, 0),
      base.pick(null, null, 2),
      base.step(1, 2, 3),
    ];
    for (const view of views) {
      const { pixels } = readPng(writePng(view));
      const [w, h, c] = pixels.shape as [number, number, number];
      expect([w, h]).toEqual(view.shape.slice(0, 2));
      for (let x = 0; x < w; x++) {
        for (let y = 0; y < h; y++) {
          for (let k = 0; k < c; k++) expect(pixels.get(x, y, k)).toBe(view.get(x, y, k));
        }
      }
    }
    const plain = { data: new Uint8ClampedArray([1, 2, 3, 4, 5, 6, 7, 8]), width: 2, height: 1 };
    expect([...readPng(writePng(plain)).pixels.data]).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    const shared = new Uint8Array(new SharedArrayBuffer(4)).fill(9);
    expect([...readPng(writePng(raster(shared, [2, 2]))).pixels.data]).toEqual([9, 9, 9, 9]);
  });

  it('writes files that pngjs reads', () => {
    const art = Uint8Array.from({ length: 7 * 5 * 4 }, (_, i) => (i * 89) & 255);
    const read = PNG.sync.read(Buffer.from(writePng(raster(art, [7, 5, 4]))));
    expect([read.width, read.height, ...read.data]).toEqual([7, 5, ...art]);
    const deep = Uint16Array.from({ length: 7 * 5 * 3 }, (_, i) => (i * 7919) & 65_535);
    const bytes = Buffer.from(writePng(raster(deep, [7, 5, 3])));
    const samples: ArrayLike<number> = PNG.sync.read(bytes, { skipRescale: true }).data;
    expect(Array.from(samples).filter((_, i) => i % 4 < 3)).toEqual([...deep]);
  });

  it('writes the resolution as pHYs before the image data', () => {
    const art = raster(new Uint8Array(4), [2, 2]);
    const resolution = { x: 11811, y: 5906, unit: 'meter' } as const;
    const bytes = writePng(art, { resolution });
    const chunks = [...readChunks(bytes)];
    expect(chunks.map(({ type }) => type)).toEqual(['IHDR', 'sRGB', 'pHYs', 'IDAT', 'IEND']);
    // 11811 = 0x2e23, 5906 = 0x1712
    expect([...chunks[2]!.data]).toEqual([0, 0, 0x2e, 0x23, 0, 0, 0x17, 0x12, 1]);
    expect(readPng(bytes).resolution).toEqual(resolution);
    const proportions = { x: 2, y: 1, unit: 'unknown' } as const;
    expect(readPng(writePng(art, { resolution: proportions })).resolution).toEqual(proportions);
    expect([...readChunks(writePng(art))]).toHaveLength(4);
  });

  it('refuses wrong arguments', () => {
    const art = raster(new Uint8Array(4), [2, 2]);
    const write = (resolution: unknown) => () => writePng(art, { resolution } as never);
    expect(() => writePng(raster(new Float32Array(4), [2, 2]) as never)).toThrow(TypeError);
    expect(() => writePng(raster(new Uint8Array(5), [1, 1, 5]))).toThrow(/got 5 channels/);
    expect(() => writePng(art, { dpi: 300 } as never)).toThrow(/It takes: resolution/);
    expect(write(300)).toThrow(
      new TypeError(
        "resolution must be { x, y, unit: 'meter' | 'unknown' } of whole pixels, got 300",
      ),
    );
    expect(write({ x: 0, y: 1, unit: 'meter' })).toThrow(
      'resolution.x must be a whole number of pixels per unit from 1 to 2147483647, got 0',
    );
    expect(write({ x: 1, y: 11811.02, unit: 'meter' })).toThrow(RangeError);
    expect(write({ x: 1, y: 1, unit: 'inch' })).toThrow(/one of "meter", "unknown", got "inch"/);
    expect(write({ x: 1, y: 1 })).toThrow(TypeError);
  });
});
