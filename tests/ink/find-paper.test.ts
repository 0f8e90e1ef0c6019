import { describe, expect, it } from 'vitest';
import { inkCoverage } from '../../src/ink/coverage.ts';
import { findPaper, type Paper } from '../../src/ink/find-paper.ts';
import { pixelsArgument } from '../../src/raster/arguments.ts';
import { raster } from '../../src/raster/index.ts';
import { pixelViews } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

/** Pixels of the given colors, each so many times. */
const picture = (...parts: (readonly [count: number, ...samples: number[]])[]) => {
  const samples = parts.flatMap(([n, ...color]) => Array.from({ length: n }, () => color));
  const data = Uint8Array.from(samples.flat());
  return { data, width: samples.length, height: 1, channels: samples[0]!.length };
};

describe('paper', () => {
  it.each([
    ['white', [255, 255, 255]],
    ['tinted', [243, 228, 192]],
    ['gray', [128, 128, 128]],
  ] as const)('is found where it is %s', (_, color) => {
    const page = picture([70, ...color], [30, 0, 0, 0]);
    expect(findPaper(page)).toEqual(color);
    const wide = { ...page, data: Uint16Array.from(page.data, (v) => 257 * v) };
    expect(findPaper(wide)).toEqual(color);
    const found = inkCoverage(raster(page.data, [100, 1, 3])).data;
    expect([found[0], found[99]]).toEqual([0, 255]);
  });

  it('is the most frequent tone of noisy paper', () => {
    const random = seeded(3);
    const noisy = (v: number) => v + Math.floor(3 * (random() + random() + random())) - 4;
    const parts = Array.from(
      { length: 4000 },
      () => [1, noisy(240), noisy(230), noisy(210)] as const,
    );
    const [r, g, b] = findPaper(picture(...parts, [900, 20, 20, 20])) as Exclude<Paper, string>;
    for (const off of [r! - 240, g! - 230, b! - 210]) expect(Math.abs(off)).toBeLessThanOrEqual(1);
  });

  it('is white where no light color is frequent', () => {
    expect(findPaper(picture([9, 0, 0, 0]))).toEqual([255, 255, 255]);
    expect(findPaper(picture([9, 0], [1, 140]))).toEqual([255, 255, 255]);
  });

  it('is transparent where alpha carries the drawing', () => {
    for (const ink of [0, 90, 255]) {
      expect(findPaper(picture([60, 0, 0, 0, 0], [40, ink, ink, ink, 255]))).toBe('transparent');
      expect(findPaper(picture([60, 255, 0], [40, ink, 255]))).toBe('transparent');
    }
    expect(findPaper(picture([9, 255, 0]))).toBe('transparent');
  });

  it('is the color of a cut-out piece', () => {
    const piece = picture([60, 0, 0, 0, 0], [30, 240, 230, 210, 255], [10, 0, 0, 0, 255]);
    expect(findPaper(piece)).toEqual([240, 230, 210]);
  });

  it('is the same in every symmetry and view', () => {
    const random = seeded(21);
    const seen = new Set<string>();
    for (const channels of [1, 2, 3, 4]) {
      for (let round = 0; round < 12; round++) {
        // Tones near few middles, so that counts tie; every third picture is mostly transparent.
        const data = Uint8Array.from({ length: 7 * 5 * channels }, (_, i) => {
          const alpha = channels % 2 === 0 && i % channels === channels - 1;
          if (alpha) return random() < (round % 3) / 3 ? 0 : 255;
          return [20, 130, 231, 243][Math.floor(4 * random() ** 0.5)]! + Math.floor(2 * random());
        });
        for (const pixels of [data, Uint16Array.from(data, (v) => 257 * v)]) {
          const whole = raster(pixels, [7, 5, channels]);
          const paper = findPaper(pixelsArgument(whole, 'pixels'));
          seen.add(
            typeof paper === 'string' ? paper : paper.every((v) => v === 255) ? 'white' : 'found',
          );
          for (const view of pixelViews(whole)) {
            expect(findPaper(pixelsArgument(view, 'pixels'))).toEqual(paper);
          }
        }
      }
    }
    expect([...seen].sort()).toEqual(['found', 'transparent', 'white']);
  });
});
