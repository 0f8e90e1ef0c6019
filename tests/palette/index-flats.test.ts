import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indexFlats } from '../../src/palette/index-flats.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import type { PixelData } from '../../src/raster/types.ts';
import { otherViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

/** RGBA of each pixel by name of color, from the definition. */
function named({ indices, palette }: Flats): string[] {
  return [...indices.data].map((index) => palette[index]!.name);
}

const RED = [255, 0, 0, 255];
const BLUE = [0, 0, 255, 255];
const CLEAR = [9, 9, 9, 0];

describe('indexFlats', () => {
  it('names swatches by color in the order of their first pixel', () => {
    const art = raster(Uint8Array.from([BLUE, CLEAR, RED, BLUE].flat()), [2, 2, 4]);
    const { indices, palette } = indexFlats(art);
    expect([...indices.data]).toEqual([1, 0, 2, 1]);
    expect(palette).toEqual([
      { name: 'bare', color: '#000000' },
      { name: '#0000ff', color: '#0000ff' },
      { name: '#ff0000', color: '#ff0000' },
    ]);
    expect(indices.shape).toEqual([2, 2]);
    expect(indices.data).toBeInstanceOf(Uint8Array);
  });

  it('reads gray, gray with alpha, RGB and RGBA', () => {
    const wanted = ['#050505', '#ffffff'];
    expect(named(indexFlats(raster(new Uint8Array([5, 255]), [2, 1])))).toEqual(wanted);
    expect(named(indexFlats(raster(new Uint8Array([5, 255]), [2, 1, 1])))).toEqual(wanted);
    const two = new Uint8Array([5, 255, 255, 255]);
    expect(named(indexFlats(raster(two, [2, 1, 2])))).toEqual(wanted);
    const three = new Uint8Array([5, 5, 5, 255, 255, 255]);
    expect(named(indexFlats(raster(three, [2, 1, 3])))).toEqual(wanted);
    const image = { data: Uint8ClampedArray.from([...RED, ...CLEAR]), width: 2, height: 1 };
    expect(named(indexFlats(image))).toEqual(['#ff0000', 'bare']);
  });

  it('reads 16 bit samples that stand for 8 bit ones', () => {
    const art = raster(Uint16Array.from([0x0a0a, 0xffff, 0x8080, 0xffff]), [1, 1, 4]);
    expect(named(indexFlats(art))).toEqual(['#0aff80']);
    const clear = raster(Uint16Array.from([1, 2, 3, 0]), [1, 1, 4]);
    expect(named(indexFlats(clear))).toEqual(['bare']);
    const odd = raster(Uint16Array.from([257, 257, 257, 257, 257, 258]), [2, 1, 3]);
    expect(() => indexFlats(odd)).toThrow(
      new RangeError(
        'pixels must hold 16 bit samples that are 257 times an 8 bit one, got [257, 257, 258] at [1, 0]',
      ),
    );
  });

  it('refuses partial alpha, naming the pixel', () => {
    const art = raster(Uint8Array.from([RED, RED, [1, 2, 3, 128], RED].flat()), [2, 2, 4]);
    expect(() => indexFlats(art)).toThrow(
      new RangeError('pixels must be opaque or fully transparent, got alpha 128 at [0, 1]'),
    );
    const deep = raster(Uint16Array.from([0, 0, 0, 65_534]), [1, 1, 4]);
    expect(() => indexFlats(deep)).toThrow(/got alpha 65534 at \[0, 0\]$/);
  });

  it('takes 65,535 colors and refuses one more', () => {
    const of = (count: number) => {
      const data = new Uint8Array(3 * count);
      for (let i = 0; i < count; i++) data.set([i & 255, (i >> 8) & 255, i >> 16], 3 * i);
      return raster(data, [count, 1, 3]);
    };
    const { indices, palette } = indexFlats(of(65_535));
    expect(palette).toHaveLength(65_536);
    expect(indices.data[65_534]).toBe(65_535);
    expect(indexFlats(of(255)).indices.data).toBeInstanceOf(Uint8Array);
    expect(indexFlats(of(256)).indices.data).toBeInstanceOf(Uint16Array);
    expect(() => indexFlats(of(65_536))).toThrow(
      new RangeError('pixels must hold at most 65535 colors, got color 65536 at [65535, 0]'),
    );
  });

  it('is undone by paintFlats, in any channels and from any view', () => {
    const channels = fc.constantFrom(1, 2, 3, 4);
    const size = fc.constantFrom(1, 2, 7, 13);
    fc.assert(
      fc.property(channels, size, size, fc.integer(), (c, w, h, seed) => {
        const random = seeded(seed);
        const data = Uint8Array.from({ length: w * h * c }, () => 85 * Math.floor(random() * 4));
        if (c === 2 || c === 4)
          for (let i = c - 1; i < data.length; i += c) data[i] = data[i]! & 1 ? 255 : 0;
        const art = raster<PixelData>(data, [w, h, c]);
        const painted = paintFlats(indexFlats(art));
        for (let y = 0; y < h; y++) {
          for (let x = 0; x < w; x++) {
            const [r, g, b] = c < 3 ? [0, 0, 0] : [0, 1, 2];
            const alpha = c === 2 || c === 4 ? art.get(x, y, c - 1) : 255;
            expect(painted.get(x, y, 3)).toBe(alpha);
            if (alpha === 0) continue;
            for (const [k, s] of [r, g, b].entries()) {
              expect(painted.get(x, y, k!)).toBe(art.get(x, y, s!));
            }
          }
        }
      }),
      { seed: 21, numRuns: 100 },
    );
  });

  it('sees a view as what it shows', () => {
    const random = seeded(5);
    const gray = raster(
      Uint8Array.from({ length: 35 }, () => Math.floor(random() * 3)),
      [5, 7],
    );
    for (const view of [...symmetries(gray), ...otherViews(gray)]) {
      const [w, h] = view.shape as [number, number];
      const wanted: string[] = [];
      for (let y = 0; y < h; y++) {
        for (let x = 0; x < w; x++) wanted.push(`#${`0${view.get(x, y)}`.repeat(3)}`);
      }
      expect(named(indexFlats(view))).toEqual(wanted);
    }
  });

  it('goes past 65,535 pixels a side', () => {
    const data = new Uint8Array(70_000);
    data[69_999] = 1;
    for (const shape of [
      [70_000, 1],
      [1, 70_000],
    ]) {
      const { indices, palette } = indexFlats(raster(data, shape));
      expect(palette).toHaveLength(3);
      expect(indices.data[69_999]).toBe(2);
    }
  });
});
