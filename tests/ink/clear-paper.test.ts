import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clearPaper } from '../../src/ink/clear-paper.ts';
import { inkCoverage } from '../../src/ink/coverage.ts';
import { findPaper } from '../../src/ink/find-paper.ts';
import { pixelsArgument } from '../../src/raster/arguments.ts';
import { raster } from '../../src/raster/raster.ts';
import type { PixelData } from '../../src/raster/types.ts';
import { otherViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';
import { samplePicture } from './sample-pictures.ts';

/** RGB of RGBA laid over white, not rounded. */
function overWhite(rgba: ArrayLike<number>, i: number): number[] {
  const alpha = rgba[4 * i + 3]! / 255;
  return [0, 1, 2].map((c) => rgba[4 * i + c]! * alpha + 255 * (1 - alpha));
}

/** Largest distance between what is asked for and the cleared line over white, in 8-bit levels. */
function worstOf(data: PixelData, channels: number, expected: (i: number) => number[]): number {
  const count = data.length / channels;
  const line = clearPaper(raster(data, [count, 1, channels]));
  expect(line.shape).toEqual([count, 1, 4]);
  let worst = 0;
  for (let i = 0; i < count; i++) {
    const wanted = expected(i);
    const got = overWhite(line.data, i).map(Math.round);
    for (let c = 0; c < 3; c++) worst = Math.max(worst, Math.abs(got[c]! - wanted[c]!));
  }
  return worst;
}

describe('clearPaper', () => {
  it('gives back every gray exactly, as black ink with alpha 255 - gray', () => {
    const gray = Uint8Array.from({ length: 256 }, (_, v) => v);
    expect(worstOf(gray, 1, (i) => [i, i, i])).toBe(0);
    const line = clearPaper(raster(gray, [256, 1])).data;
    for (let v = 0; v < 256; v++) {
      expect([...line.slice(4 * v, 4 * v + 4)]).toEqual([0, 0, 0, 255 - v]);
    }
  });

  it('gives back colors over white, at most 1 level off, with the least alpha', () => {
    const random = seeded(11);
    const rgb = Uint8Array.from({ length: 3 * 100_000 }, () => random() * 256);
    const pixel = (i: number) => [...rgb.subarray(3 * i, 3 * i + 3)];
    expect(worstOf(rgb, 3, pixel)).toBeLessThanOrEqual(1);
    const line = clearPaper(raster(rgb, [100_000, 1, 3])).data;
    for (let i = 0; i < 1000; i++) {
      expect(line[4 * i + 3]).toBe(255 - Math.min(...pixel(i)));
    }
  });

  it('gives back light tints, where alpha is low, at most 1 level off', () => {
    const random = seeded(12);
    const rgb = Uint8Array.from({ length: 3 * 30_000 }, () => 255 - random() ** 3 * 32);
    expect(worstOf(rgb, 3, (i) => [...rgb.subarray(3 * i, 3 * i + 3)])).toBeLessThanOrEqual(1);
  });

  it('multiplies alpha that is there already', () => {
    const all = Uint8Array.from({ length: 2 * 65536 }, (_, i) => (i & 1 ? i >> 9 : (i >> 1) & 255));
    const expected = (i: number) => {
      const [gray, alpha] = [all[2 * i]!, all[2 * i + 1]! / 255];
      const over = gray * alpha + 255 * (1 - alpha);
      return [over, over, over];
    };
    expect(worstOf(all, 2, expected)).toBeLessThanOrEqual(1);

    const random = seeded(13);
    const rgba = Uint8Array.from({ length: 4 * 50_000 }, () => random() * 256);
    // One level for the color, half of one for the rounding of alpha.
    expect(worstOf(rgba, 4, (i) => overWhite(rgba, i))).toBeLessThanOrEqual(1.5);
  });

  it('clears white and what is transparent', () => {
    const rgba = raster(new Uint8Array([255, 255, 255, 255, 10, 20, 30, 0]), [2, 1, 4]);
    const line = clearPaper(rgba, { paper: 'white' }).data;
    expect([...line.subarray(0, 4)]).toEqual([0, 0, 0, 0]);
    expect(line[7]).toBe(0);
  });

  it('scales 16 bits to 8 first', () => {
    const wide = Uint16Array.from([0, 257 * 100, 65535, 12345, 12345, 12345]);
    const narrow = Uint8Array.from([0, 100, 255, 48, 48, 48]);
    expect(clearPaper(raster(wide, [2, 1, 3])).data).toEqual(
      clearPaper(raster(narrow, [2, 1, 3])).data,
    );
  });

  it('is the same through every view', () => {
    const random = seeded(14);
    const gray = raster(
      Uint8Array.from({ length: 24 }, () => random() * 256),
      [6, 4],
    );
    for (const view of [...symmetries(gray), ...otherViews(gray)]) {
      const [w, h] = view.shape as [number, number];
      const line = clearPaper(view, { paper: 'white' });
      for (let y = 0; y < h; y++) {
        for (let x = 0; x < w; x++) expect(line.get(x, y, 3)).toBe(255 - view.get(x, y)!);
      }
    }
  });

  it('leaves its argument as it was, and refuses what holds no pixels', () => {
    const pixels = raster(new Uint8Array([1, 2, 3, 4]), [1, 1, 4]);
    clearPaper(pixels);
    expect([...pixels.data]).toEqual([1, 2, 3, 4]);
    expect(() => clearPaper(raster(new Float64Array(4), [2, 2]) as never)).toThrow(
      new TypeError(
        'pixels must be Uint8, Uint8Clamped or Uint16 pixels of shape [width, height] or [width, height, 1 to 4], got Float64Array(4)',
      ),
    );
  });

  it('gives back any pixels over paper of any color, at most 1 level off, or clear + 1', () => {
    const hex = (v: number) => v.toString(16).padStart(2, '0');
    const byte = fc.oneof(fc.nat(255), fc.constantFrom(0, 1, 127, 128, 254, 255));
    const any = fc.tuple(
      fc.tuple(byte, byte, byte),
      fc.oneof(fc.constant(0), fc.nat(254)),
      fc.uint8Array({ minLength: 3, maxLength: 120 }),
      fc.boolean(),
    );
    fc.assert(
      fc.property(any, ([paper, clear, samples, near]) => {
        const count = Math.floor(samples.length / 3);
        const rgb = samples.slice(0, 3 * count);
        // Colors close to the paper too, where alpha is low.
        for (let i = 0; near && i < rgb.length; i++) {
          rgb[i] = clamp(paper[i % 3]! + (rgb[i]! % 17) - 8);
        }
        const color = `#${paper.map(hex).join('')}` as const;
        const line = clearPaper(raster(rgb, [count, 1, 3]), { paper: color, clear }).data;
        for (let i = 0; i < count; i++) {
          const alpha = line[4 * i + 3]! / 255;
          const off = paper.map((p, c) => Math.abs(rgb[3 * i + c]! - p));
          const cleared = Math.max(...off) <= clear;
          expect(alpha === 0).toBe(cleared);
          for (let c = 0; c < 3; c++) {
            const back = Math.round(line[4 * i + c]! * alpha + paper[c]! * (1 - alpha));
            const error = Math.abs(back - rgb[3 * i + c]!);
            expect(error).toBeLessThanOrEqual(cleared ? clear + 1 : 1);
          }
        }
      }),
      { numRuns: 3000 },
    );
  });

  for (const name of ['page', 'text', 'coins'] as const) {
    it(`gives back "${name}" over its paper, gray and tinted, at most 1 level off, or clear + 1`, () => {
      const tones = samplePicture(name);
      const [w, h] = tones.shape as [number, number];
      const tinted = Uint8Array.from({ length: 3 * w * h }, (_, i) =>
        Math.round((tones.data[Math.floor(i / 3)]! * [255, 243, 214][i % 3]!) / 255),
      );
      for (const scan of [raster(tones.data, [w, h, 1]), raster(tinted, [w, h, 3])]) {
        const channels = scan.shape[2]!;
        const found = findPaper(pixelsArgument(scan, 'pixels')) as readonly number[];
        const given = [200, 180, 90];
        for (const clear of [0, 1, 6, 40]) {
          for (const [option, paper] of [
            ['auto', found],
            ['white', [255, 255, 255]],
            ['#c8b45a', given],
          ] as const) {
            const line = clearPaper(scan, { paper: option, clear }).data;
            let [worstKept, worstCleared, cleared, mistaken] = [0, 0, 0, 0];
            for (let i = 0; i < w * h; i++) {
              const alpha = line[4 * i + 3]! / 255;
              let [error, off] = [0, 0];
              for (let c = 0; c < 3; c++) {
                const sample = scan.data[channels * i + (channels === 3 ? c : 0)]!;
                const back = Math.round(line[4 * i + c]! * alpha + paper[c]! * (1 - alpha));
                error = Math.max(error, Math.abs(back - sample));
                off = Math.max(off, Math.abs(paper[c]! - sample));
              }
              if ((alpha === 0) !== off <= clear) mistaken++;
              if (alpha === 0) cleared++;
              if (alpha === 0) worstCleared = Math.max(worstCleared, error);
              else worstKept = Math.max(worstKept, error);
            }
            expect(mistaken).toBe(0);
            expect(worstKept).toBeLessThanOrEqual(1);
            expect(worstCleared).toBeLessThanOrEqual(clear === 0 ? 0 : clear + 1);
            // The ground of the coins is dark, so that their paper counts as white.
            if (option === 'auto' && clear >= 6 && name !== 'coins') {
              expect(cleared).toBeGreaterThan(0);
            }
          }
        }
      }
    });
  }

  it('keeps the samples of a picture on transparent paper', () => {
    const rgba = raster(new Uint8Array([9, 8, 7, 6, 5, 4, 3, 2, 255, 255, 255, 255]), [3, 1, 4]);
    expect([...clearPaper(rgba, { paper: 'transparent', clear: 2 }).data]).toEqual([
      9, 8, 7, 6, 0, 0, 0, 0, 255, 255, 255, 255,
    ]);
    const gray = raster(new Uint16Array([257 * 7]), [1, 1]);
    expect([...clearPaper(gray, { paper: 'transparent' }).data]).toEqual([7, 7, 7, 255]);
  });

  it('drops under-drawing with the alpha that inkCoverage has there', () => {
    const [w, h] = [64, 40];
    const paper = [240, 230, 210];
    // Levels of black ink along rows over levels of the pencil's along columns.
    const rgb = Uint8Array.from({ length: 3 * w * h }, (_, k) => {
      const [x, y] = [Math.floor(k / 3) % w, Math.floor(k / 3 / w)];
      const under = paper[k % 3]! + (([150, 200, 205][k % 3]! - paper[k % 3]!) * (x >> 3)) / 7;
      return Math.round(under * (1 - Math.min(1, y / 30)));
    });
    const pixels = raster(rgb, [w, h, 3]);
    const color = '#f0e6d2';
    const [plain, dropped] = [false, true].map((dropHue) => ({
      line: clearPaper(pixels, { paper: color, dropHue }).data,
      coverage: inkCoverage(pixels, { paper: color, dropHue }).data,
    }));
    let changed = 0;
    for (let i = 0; i < w * h; i++) {
      const found = [...dropped!.line.subarray(4 * i, 4 * i + 4)];
      if (dropped!.coverage[i] === plain!.coverage[i]) continue;
      changed++;
      expect(found).toEqual([0, 0, 0, dropped!.coverage[i]]);
    }
    expect(changed).toBeGreaterThan((w * h) / 3);
    // Nothing is left of the pencil alone; ink without pencil is as it was, but for dark pixels whose
    // rounding gives them a hue, which are a level off at most.
    for (let x = 0; x < w; x++) expect(dropped!.line[4 * x + 3]).toBeLessThanOrEqual(1);
    for (let y = 0; y < h; y++) {
      const alpha = 4 * y * w + 3;
      expect(Math.abs(dropped!.line[alpha]! - plain!.line[alpha]!)).toBeLessThanOrEqual(1);
    }
    const faint = clearPaper(pixels, { paper: color, dropHue: true, clear: 40 }).data;
    const low = dropped!.coverage.findIndex((v, i) => v < 40 && v !== plain!.coverage[i]);
    expect(faint[4 * low + 3]).toBe(0);
    const gray = raster(new Uint8Array([0, 100, 255]), [3, 1]);
    expect(clearPaper(gray, { dropHue: true }).data).toEqual(clearPaper(gray).data);
  });

  it('refuses a paper or clearance that it cannot take', () => {
    const pixels = raster(new Uint8Array(4), [2, 2]);
    expect(() => clearPaper(pixels, { paper: 'gray' as never })).toThrow(/^paper must be one of/);
    expect(() => clearPaper(pixels, { clear: 255 })).toThrow(
      new RangeError('clear must be a whole number of levels from 0 to 254, got 255'),
    );
    expect(() => clearPaper(pixels, { dropHue: 'red' as never })).toThrow(
      new RangeError(
        'dropHue must be true, false, "blue" or { hue, tolerance, minChroma }, got "red"',
      ),
    );
  });
});

const clamp = (v: number): number => Math.min(255, Math.max(0, v));
