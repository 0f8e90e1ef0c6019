import { describe, expect, it } from 'vitest';
import { inkCoverage } from '../../src/ink/coverage.ts';
import { raster } from '../../src/raster/raster.ts';
import type { PixelData } from '../../src/raster/types.ts';
import { otherViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

/** The coverage of one pixel by its definition, each step rounded half up. */
function plain(samples: number[], wide: boolean, paper: string): number {
  const eight = samples.map((v) => (wide ? Math.round(v / 257) : v));
  const alpha = eight.length % 2 === 0 ? eight.at(-1)! : 255;
  if (paper === 'transparent') return alpha;
  const [r, g, b] = eight.length < 3 ? [eight[0]!, eight[0]!, eight[0]!] : eight;
  const luma = Math.floor((299 * r! + 587 * g! + 114 * b! + 500) / 1000);
  const [pr, pg, pb] = [1, 3, 5].map((i) =>
    paper === 'white' ? 255 : Number.parseInt(paper.slice(i, i + 2), 16),
  );
  const full = Math.floor((299 * pr! + 587 * pg! + 114 * pb! + 500) / 1000);
  const dark = Math.max(0, Math.floor((255 * (full - luma)) / full + 0.5));
  return Math.round((dark * alpha) / 255);
}

function checkAgainstPlain(data: PixelData, channels: number): void {
  const count = data.length / channels;
  const pixels = raster(data, [count, 1, channels]);
  for (const paper of ['white', 'transparent', '#f3e4c0', '#777777'] as const) {
    const found = inkCoverage(pixels, { paper });
    expect(found.shape).toEqual([count, 1]);
    const expected = Array.from({ length: count }, (_, i) =>
      plain([...data.slice(i * channels, (i + 1) * channels)], data instanceof Uint16Array, paper),
    );
    expect([...found.data]).toEqual(expected);
  }
}

describe('inkCoverage', () => {
  it('is 255 minus gray, for every gray of 8 and of 16 bits', () => {
    const gray8 = Uint8Array.from({ length: 256 }, (_, v) => v);
    expect([...inkCoverage(raster(gray8, [256, 1])).data]).toEqual([...gray8].map((v) => 255 - v));
    checkAgainstPlain(gray8, 1);
    checkAgainstPlain(
      Uint16Array.from({ length: 65536 }, (_, v) => v),
      1,
    );
  });

  it('is darkness times alpha, for every gray and alpha', () => {
    const all = Uint8Array.from({ length: 2 * 65536 }, (_, i) => (i & 1 ? i >> 9 : (i >> 1) & 255));
    checkAgainstPlain(all, 2);
  });

  it('takes gray as color of three equal samples', () => {
    const colors = Uint8Array.from({ length: 3 * 256 }, (_, i) => Math.floor(i / 3));
    expect([...inkCoverage(raster(colors, [256, 1, 3])).data]).toEqual(
      Array.from({ length: 256 }, (_, v) => 255 - v),
    );
  });

  it.each([
    [[255, 0, 0], 179],
    [[0, 255, 0], 105],
    [[0, 0, 255], 226],
    [[255, 255, 0], 29],
  ])('of %j is %d (weights of ITU-R BT.601: .299, .587, .114)', (color, expected) => {
    expect(
      inkCoverage(raster(Uint8Array.from(color), [1, 1, 3]), { paper: 'white' }).get(0, 0),
    ).toBe(expected);
  });

  it.each([1, 2, 3, 4])('follows the definition with %d channels', (channels) => {
    const random = seeded(channels);
    const bytes = Uint8Array.from({ length: 3000 * channels }, () => random() * 256);
    checkAgainstPlain(bytes, channels);
    checkAgainstPlain(new Uint8ClampedArray(bytes), channels);
    checkAgainstPlain(
      Uint16Array.from({ length: 3000 * channels }, () => random() * 65536),
      channels,
    );
  });

  it('is alpha alone on transparent paper, solid where there is no alpha', () => {
    const rgba = raster(new Uint8Array([255, 0, 0, 40, 255, 255, 255, 200]), [2, 1, 4]);
    expect([...inkCoverage(rgba, { paper: 'transparent' }).data]).toEqual([40, 200]);
    const rgb = raster(new Uint8Array(6), [2, 1, 3]);
    expect([...inkCoverage(rgb, { paper: 'transparent' }).data]).toEqual([255, 255]);
  });

  it('takes [w, h] as gray, an ImageData and other dense rasters alike', () => {
    const rgba = new Uint8ClampedArray([0, 0, 0, 255, 255, 255, 255, 255]);
    expect([...inkCoverage({ data: rgba, width: 2, height: 1 }).data]).toEqual([255, 0]);
    const gray = { data: new Uint8Array([3, 4]), width: 1, height: 2, channels: 1 };
    expect([...inkCoverage(gray).data]).toEqual([252, 251]);
  });

  it('is the same through every view', () => {
    const random = seeded(5);
    const gray = raster(
      Uint8Array.from({ length: 35 }, () => random() * 256),
      [7, 5],
    );
    for (const view of [...symmetries(gray), ...otherViews(gray)]) {
      const [w, h] = view.shape as [number, number];
      const found = inkCoverage(view);
      for (let y = 0; y < h; y++) {
        for (let x = 0; x < w; x++) expect(found.get(x, y)).toBe(255 - view.get(x, y)!);
      }
    }
    const rgba = raster(
      Uint8Array.from({ length: 7 * 5 * 4 }, () => random() * 256),
      [7, 5, 4],
    );
    const plainly = inkCoverage(rgba);
    const flipped = inkCoverage(rgba.step(-1, 1, 1).transpose(1, 0, 2));
    for (let y = 0; y < 5; y++) {
      for (let x = 0; x < 7; x++) expect(flipped.get(y, x)).toBe(plainly.get(6 - x, y));
    }
  });

  it('covers rows past the first block of a tick, and past 65,535 columns', () => {
    const tall = inkCoverage(raster(new Uint8Array(3 * 1000).fill(9), [3, 1000]));
    expect(tall.data.every((v) => v === 246)).toBe(true);
    const wide = inkCoverage(raster(new Uint8Array(70_001).fill(200), [70_001, 1]), {
      paper: 'white',
    });
    expect(wide.data.every((v) => v === 55)).toBe(true);
  });

  it('writes into `out` and returns it', () => {
    const out = raster(new Uint8Array(2), [2, 1]);
    expect(inkCoverage(raster(new Uint8Array([0, 250]), [2, 1]), { paper: 'white', out })).toBe(
      out,
    );
    expect([...out.data]).toEqual([255, 5]);
  });

  it('refuses what it cannot take, word for word', () => {
    const pixels = raster(new Uint8Array(4), [2, 2]);
    expect(() => inkCoverage(pixels, { paper: 'clear' as never })).toThrow(
      new RangeError('paper must be one of "auto", "white", "transparent", "#rrggbb", got "clear"'),
    );
    expect(() => inkCoverage(pixels, { paper: '#000000' })).toThrow(
      new RangeError('paper must be lighter than black, got "#000000"'),
    );
    expect(() => inkCoverage(pixels, { paper: '#fff' })).toThrow(
      new RangeError(`paper must be a color '#rrggbb', got "#fff"; write #ffffff`),
    );
    expect(() => inkCoverage(pixels, { papre: 'white' } as never)).toThrow(
      /^inkCoverage has no option "papre"; did you mean "paper"\?/,
    );
    expect(() => inkCoverage(raster(new Int32Array(4), [2, 2]) as never)).toThrow(
      new TypeError(
        'pixels must be Uint8, Uint8Clamped or Uint16 pixels of shape [width, height] or [width, height, 1 to 4], got Int32Array(4)',
      ),
    );
  });
});
