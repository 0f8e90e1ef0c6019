import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { raster } from '../../src/raster/index.ts';
import { strokeWidth } from '../../src/strokes/stroke-width.ts';
import { thinInk } from '../../src/strokes/thin.ts';
import { otherViews, symmetries, worstCases } from '../support/grids.ts';

/** A straight stroke: the pixels whose centers lie within half its width of the middle line. */
function bar(width: number, angle: number): NdArray<Uint8Array> {
  const side = 120;
  const r = raster(new Uint8Array(side * side), [side, side]);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      const [dx, dy] = [x - 60.2, y - 59.7];
      if (Math.abs(dx * c + dy * s) < 45 && Math.abs(dy * c - dx * s) <= width / 2) r.set(x, y, 1);
    }
  }
  return r;
}

/** Percentiles of 2·d − ¼ over the skeleton, every distance by looking at every pixel. */
function bruteForce(ink: NdArray<Uint8Array>): { median: number; p10: number; p90: number } {
  const [w, h] = ink.shape as [number, number];
  const skeleton = thinInk(ink);
  const widths: number[] = [];
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      if (skeleton.get(x, y) === 0) continue;
      let best = Number.POSITIVE_INFINITY;
      for (let v = -1; v <= h; v++) {
        for (let u = -1; u <= w; u++) {
          const inside = u >= 0 && v >= 0 && u < w && v < h;
          if (!inside || ink.get(u, v) === 0) best = Math.min(best, (u - x) ** 2 + (v - y) ** 2);
        }
      }
      widths.push(2 * Math.sqrt(best) - 0.25);
    }
  }
  widths.sort((a, b) => a - b);
  const rank = (share: number) => widths[Math.max(1, Math.ceil(share * widths.length)) - 1] ?? 0;
  return { median: rank(0.5), p10: rank(0.1), p90: rank(0.9) };
}

describe('strokeWidth', () => {
  for (let width = 1; width <= 15; width++) {
    it(`measures bars ${width} wide at 16 angles to within 1¼ pixels`, () => {
      for (let k = 0; k < 16; k++) {
        const { median } = strokeWidth(bar(width, (k * Math.PI) / 16));
        expect(Math.abs(median - width)).toBeLessThanOrEqual(1.25);
      }
    });
  }

  it('measures upright bars as n + ¾ or n − ¼', () => {
    for (let n = 1; n <= 9; n++) {
      const r = raster(new Uint8Array(60 * 20), [60, 20]);
      for (let y = 4; y < 4 + n; y++) for (let x = 5; x < 55; x++) r.set(x, y, 1);
      expect(strokeWidth(r).median).toBe(n % 2 === 1 ? n + 0.75 : n - 0.25);
    }
  });

  it('agrees with distances found by looking everywhere', () => {
    for (const [w, h] of [
      [1, 1],
      [1, 9],
      [23, 19],
      [40, 31],
    ] as const) {
      for (const ink of Object.values(worstCases(w, h))) {
        expect(strokeWidth(ink)).toEqual(bruteForce(ink));
      }
    }
    for (const k of [0, 3, 5]) {
      const ink = bar(11, k).hi(90, 80).lo(30, 30);
      expect(strokeWidth(ink)).toEqual(bruteForce(ink));
    }
  });

  it('tells thin from thick strokes', () => {
    const r = raster(new Uint8Array(100 * 60), [100, 60]);
    for (let x = 5; x < 95; x++) {
      for (let y = 5; y < 8; y++) r.set(x, y, 1);
      if (x >= 70) for (let y = 30; y < 41; y++) r.set(x, y, 1);
    }
    expect(strokeWidth(r)).toEqual({ median: 3.75, p10: 3.75, p90: 11.75 });
  });

  it('is 0 without ink and holds for long thin rasters', () => {
    expect(strokeWidth(raster(new Uint8Array(6), [3, 2]))).toEqual({ median: 0, p10: 0, p90: 0 });
    const long = new Uint8Array(70000).fill(1);
    expect(strokeWidth(raster(long, [70000, 1])).median).toBe(1.75);
    expect(strokeWidth(raster(long, [1, 70000])).median).toBe(1.75);
  });

  it('measures the same to within a pixel in all symmetries, and exactly the same in any view', () => {
    const ink = bar(6, 0.4);
    const { median } = strokeWidth(ink);
    for (const turned of symmetries(ink)) {
      expect(Math.abs(strokeWidth(turned).median - median)).toBeLessThanOrEqual(1);
    }
    for (const view of otherViews(ink)) expect(strokeWidth(view)).toEqual(strokeWidth(ink));
  });

  it('measures exactly the same in all eight symmetries of even and of slanted strokes', () => {
    const ink = raster(new Uint8Array(40 * 30), [40, 30]);
    for (let y = 3; y < 27; y++)
      for (let x = 3; x < 37; x++) if (y < 8 || (x > 18 && x < 22)) ink.set(x, y, 1);
    for (const mask of [ink, bar(6, 0.4)]) {
      for (const turned of symmetries(mask)) expect(strokeWidth(turned)).toEqual(strokeWidth(mask));
    }
  });

  it('names what is wrong with its argument', () => {
    expect(() => strokeWidth(raster(Uint8Array.of(7), [1, 1]))).toThrow(
      /mask must hold 0 or 1, got 7/,
    );
    expect(() => strokeWidth(null as never)).toThrow(TypeError);
  });
});
