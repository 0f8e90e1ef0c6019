import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { chooseThreshold } from '../../src/ink/choose-threshold.ts';
import { clearPaper } from '../../src/ink/clear-paper.ts';
import { inkCoverage } from '../../src/ink/coverage.ts';
import { normalizePaper } from '../../src/ink/normalize-paper.ts';
import { otsuLevel } from '../../src/ink/otsu.ts';
import { sauvolaDefaults } from '../../src/ink/sauvola-defaults.ts';
import { fillPinholes, removeSpecks } from '../../src/ink/specks.ts';
import { type ThresholdOptions, thresholdInk } from '../../src/ink/threshold.ts';
import { coverageArgument } from '../../src/raster/arguments.ts';
import { raster } from '../../src/raster/index.ts';
import { symmetries } from '../support/grids.ts';
import { expectMirrored } from '../support/mirrored.ts';
import { seeded } from '../support/random.ts';

/**
 * A page photographed in light that falls off to one corner, of sides that are no whole number of
 * the 64 pixels that paper is measured in: noise, strokes that touch the left and the upper border,
 * blue pencil, and a patch of solid ink wider than 64 pixels.
 */
function page(width: number, height: number, fall: number): NdArray<Uint8Array> {
  const random = seeded(width + height);
  const rgb = new Uint8Array(3 * width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const light = 1 - (fall * x) / width - (fall * y) / (2 * height);
      const line = y % 41 < 4 || Math.abs(x - 2 * y) < 5 || (x > 97 && x < 190 && y > 60);
      const tint = !line && x % 37 < 3 ? [164, 221, 237] : [250, 244, 230];
      for (let c = 0; c < 3; c++) {
        rgb[3 * (y * width + x) + c] = light * (line ? 40 : tint[c]!) + 6 * random();
      }
    }
  }
  return raster(rgb, [width, height, 3]);
}

const METHODS: (ThresholdOptions | undefined)[] = [
  undefined,
  { method: 'fixed', normalize: true },
  { method: 'otsu', normalize: true },
  { method: 'sauvola' },
  { method: 'sauvola', normalize: true },
  { method: 'hysteresis' },
  { method: 'hysteresis', normalize: true },
];

describe.each([
  [227, 141, 0.5],
  [200, 97, 0.04],
  [129, 320, 0.3],
])('the eight symmetries of a page of %d × %d whose light falls by %d', (w, h, fall) => {
  const pixels = page(w, h, fall);
  const coverage = inkCoverage(pixels);

  it('have the same coverage, with under-drawing or without', () => {
    for (const dropHue of [false, true]) {
      expectMirrored(pixels, (view) => inkCoverage(view, { dropHue }));
    }
  });

  it('are cleared of their paper alike', () => {
    expectMirrored(pixels, (view) => clearPaper(view, { clear: 12 }));
  });

  it('have the same paper', () => {
    expectMirrored(pixels, (view) => normalizePaper(view));
    expectMirrored(
      raster(
        Uint16Array.from(pixels.data, (v) => 257 * v),
        [w, h, 3],
      ),
      (view) => normalizePaper(view),
    );
  });

  it('have the same levels', () => {
    for (const view of symmetries(coverage)) {
      expect(chooseThreshold(view)).toEqual(chooseThreshold(coverage));
      expect(otsuLevel(view)).toBe(otsuLevel(coverage));
    }
  });

  it("have the same default window and k of Sauvola's threshold", () => {
    const { data } = coverage;
    const found = sauvolaDefaults(data, w, h);
    for (const view of symmetries(coverage)) {
      const dense = coverageArgument(view, 'coverage');
      expect(sauvolaDefaults(dense.data, dense.width, dense.height)).toEqual(found);
    }
  });

  it.each(METHODS)('have the same ink with %j', (options) => {
    expectMirrored(coverage, (view) => thresholdInk(view, options));
  });

  it('lose the same specks and pinholes', () => {
    const ink = thresholdInk(coverage, { level: 8 });
    for (const connectivity of [4, 8] as const) {
      expectMirrored(ink, (view) => removeSpecks(view, { connectivity }));
      expectMirrored(ink, (view) => fillPinholes(view, { connectivity }));
    }
  });
});

describe('one stroke along the left or along the upper border', () => {
  it.each([
    [2, 'columns'],
    [5, 'columns'],
    [9, 'rows'],
  ])("of %d %s gives one window and k of Sauvola's threshold in all symmetries", (n, along) => {
    const coverage = raster(new Uint8Array(60 * 40), [60, 40]);
    for (let y = 0; y < 40; y++)
      for (let x = 0; x < 60; x++) if ((along === 'rows' ? y : x) < n) coverage.set(x, y, 220);
    const of = (view: NdArray<Uint8Array>) => {
      const { data, width, height } = coverageArgument(view, 'coverage');
      return sauvolaDefaults(data, width, height);
    };
    for (const view of symmetries(coverage)) expect(of(view)).toEqual(of(coverage));
  });
});
