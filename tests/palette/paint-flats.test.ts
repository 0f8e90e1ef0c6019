import { describe, expect, it } from 'vitest';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import type { FlatsLike } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';

const flats: FlatsLike = {
  indices: raster(new Uint8Array([0, 1, 2]), [3, 1]),
  palette: [
    { name: 'bare', color: '#010203' },
    { name: 'sky', color: '#0A0B0C' },
    { name: 'fur', color: '#fffefd' },
  ],
  ground: 'sky',
};

describe('paintFlats', () => {
  it('gives each pixel the color of its swatch, and bare alpha 0', () => {
    const painted = paintFlats(flats);
    expect([...painted.data]).toEqual([1, 2, 3, 0, 10, 11, 12, 255, 255, 254, 253, 255]);
    expect(painted.shape).toEqual([3, 1, 4]);
    expect(painted.stride).toEqual([4, 12, 1]);
  });

  it('makes the ground transparent where that is asked for', () => {
    const alphas = (f: FlatsLike) =>
      [...paintFlats(f, { transparentGround: true }).data].filter((_, i) => i % 4 === 3);
    expect(alphas(flats)).toEqual([0, 0, 255]);
    expect(alphas({ indices: flats.indices, palette: flats.palette })).toEqual([0, 255, 255]);
  });

  it('paints more than 256 swatches', () => {
    const palette = Array.from({ length: 1000 }, (_, i) => ({
      name: i === 0 ? 'bare' : `${i}`,
      color: `#${i.toString(16).padStart(6, '0')}`,
    }));
    const indices = raster(
      Uint16Array.from({ length: 1000 }, (_, i) => i),
      [10, 100],
    );
    const { data } = paintFlats({ indices, palette });
    for (let i = 1; i < 1000; i++) {
      expect([...data.subarray(4 * i, 4 * i + 4)]).toEqual([0, i >> 8, i & 255, 255]);
    }
  });

  it('refuses an option that is none', () => {
    expect(() => paintFlats(flats, { transparent: true } as object)).toThrow(TypeError);
    expect(() => paintFlats(flats, { transparentGround: 1 as unknown as boolean })).toThrow(
      new TypeError('transparentGround must be true or false, got 1'),
    );
  });
});
