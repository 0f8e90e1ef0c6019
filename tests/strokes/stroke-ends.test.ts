import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { raster } from '../../src/raster/index.ts';
import { type StrokeEnd, strokeEnds } from '../../src/strokes/stroke-ends.ts';
import { otherViews, symmetries, worstCases } from '../support/grids.ts';

type Bytes = NdArray<Uint8Array>;
type Segment = readonly [x0: number, y0: number, x1: number, y1: number];

/** Draws blunt strokes: pixels whose centers lie beside a segment, within half the width. */
function draw(r: Bytes, width: number, ...segments: Segment[]): Bytes {
  for (const [x0, y0, x1, y1] of segments) {
    const length = Math.hypot(x1 - x0, y1 - y0);
    const [c, s] = [(x1 - x0) / length, (y1 - y0) / length];
    for (let y = 0; y < r.shape[1]!; y++) {
      for (let x = 0; x < r.shape[0]!; x++) {
        const [dx, dy] = [x + 0.5 - x0, y + 0.5 - y0];
        const along = dx * c + dy * s;
        const across = Math.abs(dy * c - dx * s);
        if (along >= 0 && along <= length && across <= width / 2) r.set(x, y, 1);
      }
    }
  }
  return r;
}

const page = (w: number, h: number): Bytes => raster(new Uint8Array(w * h), [w, h]);

/** The end next to a place; it must lie within reach. */
function endAt(ends: readonly StrokeEnd[], x: number, y: number, reach: number): StrokeEnd {
  const near = ends.filter((e) => Math.hypot(e.x - x, e.y - y) <= reach);
  expect(near).toHaveLength(1);
  return near[0]!;
}

describe('strokeEnds', () => {
  for (const width of [1, 2, 3, 5, 8, 12]) {
    it(`finds both tips of strokes ${width} wide at 16 angles`, () => {
      for (let k = 0; k < 16; k++) {
        const angle = (k * Math.PI) / 16 + 0.01;
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        const ink = draw(page(130, 130), width, [
          65 - 50 * c,
          65 - 50 * s,
          65 + 50 * c,
          65 + 50 * s,
        ]);
        const ends = strokeEnds(ink);
        expect(ends).toHaveLength(2);
        for (const side of [1, -1]) {
          const end = endAt(ends, 65 + side * 50 * c, 65 + side * 50 * s, 2 + width / 4);
          expect(side * (end.direction[0] * c + end.direction[1] * s)).toBeGreaterThan(0.985);
          expect(Math.hypot(...end.direction)).toBeCloseTo(1, 12);
          expect(Math.abs(end.width - width)).toBeLessThanOrEqual(1.5);
          expect(ink.get(Math.floor(end.x), Math.floor(end.y))).toBe(1);
        }
      }
    });
  }

  it('finds none on closed lines, dots and worst cases without lines', () => {
    const ring = page(60, 60);
    for (let y = 0; y < 60; y++) {
      for (let x = 0; x < 60; x++) {
        const d = Math.hypot(x - 30, y - 30);
        if (d < 3 || (d > 16 && d < 22)) ring.set(x, y, 1);
      }
    }
    expect(strokeEnds(ring)).toEqual([]);
    expect(
      strokeEnds(
        draw(page(60, 60), 4, [10, 10, 50, 10], [50, 8, 50, 52], [52, 50, 8, 50], [10, 52, 10, 8]),
      ),
    ).toEqual([]);
    expect(strokeEnds(draw(page(30, 30), 8, [10, 15, 19, 15]))).toEqual([]);
    const worst = worstCases(50, 40);
    for (const name of ['empty', 'full', 'checkerboard'])
      expect(strokeEnds(worst[name]!)).toEqual([]);
  });

  it('counts the free ends of a T and a cross', () => {
    expect(strokeEnds(draw(page(90, 90), 5, [10, 40, 80, 40], [45, 40, 45, 80]))).toHaveLength(3);
    expect(strokeEnds(draw(page(90, 90), 5, [10, 45, 80, 45], [45, 10, 45, 80]))).toHaveLength(4);
  });

  it('takes bumps of a rough contour for no ends', () => {
    const ink = draw(page(120, 40), 9, [10, 20, 110, 20]);
    for (let x = 15; x < 105; x += 9) {
      for (let k = 0; k < (x > 30 && x < 90 ? 3 : 1); k++) {
        ink.set(x, 14 - k, 1);
        ink.set(x + 4, 25 + k, 1);
      }
    }
    const ends = strokeEnds(ink);
    expect(ends).toHaveLength(2);
    for (const x of [10, 110]) endAt(ends, x, 20, 2.5);
  });

  it('tells the direction of the last width where a stroke bends', () => {
    const ink = draw(page(90, 60), 5, [10, 20, 50, 20], [47.5, 17.5, 47.5, 36]);
    const end = endAt(strokeEnds(ink), 47.5, 36, 3);
    expect(end.direction[1]).toBeGreaterThan(0.9);
  });

  it('gives the length to the other end, of a loose stroke, or to the fork', () => {
    const loose = strokeEnds(draw(page(80, 30), 3, [10, 15, 60, 15]));
    expect(loose).toHaveLength(2);
    for (const end of loose) {
      expect(end.loose).toBe(true);
      expect(Math.abs(end.reach - 50)).toBeLessThanOrEqual(4);
    }
    const tee = strokeEnds(draw(page(120, 70), 3, [10, 20, 110, 20], [60, 20, 60, 50]));
    expect(tee).toHaveLength(3);
    for (const end of tee) {
      expect(end.loose).toBe(false);
      expect(Math.abs(end.reach - (end.y > 40 ? 30 : 50))).toBeLessThanOrEqual(4);
    }
  });

  it('counts diagonal steps as √2', () => {
    const ink = page(40, 40);
    for (let i = 5; i < 30; i++) ink.set(i, i, 1);
    for (const end of strokeEnds(ink)) {
      expect(end.reach).toBeCloseTo(24 * Math.SQRT2, 9);
      expect(end.loose).toBe(true);
    }
  });

  it('follows a stroke for 24 widths at most', () => {
    const ends = strokeEnds(draw(page(400, 20), 3, [10, 9.5, 390, 9.5]));
    expect(ends).toHaveLength(2);
    for (const end of ends) {
      expect(end.loose).toBe(false);
      expect(end.reach).toBeCloseTo(24 * end.width, 9);
    }
  });

  /** A stroke 11 wide whose left end grows by two pixels in width every `steps` columns. */
  const tapered = (steps: number): Bytes => {
    const ink = page(140, 40);
    for (let x = 10; x < 130; x++) {
      const half = Math.min(5, (x - 9) / steps);
      for (let y = 0; y < 40; y++) if (Math.abs(y - 20) <= half) ink.set(x, y, 1);
    }
    return ink;
  };

  it('tells a tapered end from a blunt one', () => {
    for (const steps of [1.5, 2, 3, 4]) {
      const [pointed, blunt] = strokeEnds(tapered(steps)).sort((a, b) => a.x - b.x);
      expect(pointed!.taper).toBeGreaterThan(0);
      expect(pointed!.taper).toBeLessThan(0.6);
      expect(blunt!.taper).toBe(1);
    }
  });

  it('takes the tip of a long taper for an even stroke of the width there', () => {
    const [pointed] = strokeEnds(tapered(8)).sort((a, b) => a.x - b.x);
    expect(pointed!.taper).toBe(1);
    expect(pointed!.width).toBeLessThan(3);
  });

  it('finds the same ends within a pixel or so in all symmetries, and exactly the same in any view', () => {
    const ink = draw(page(100, 70), 6, [12, 15, 60, 33], [20, 60, 80, 48], [80, 48, 80, 10]);
    const place = page(100, 70);
    for (const e of strokeEnds(ink)) place.set(Math.floor(e.x), Math.floor(e.y), 1);
    const places = symmetries(place);
    symmetries(ink).forEach((turned, i) => {
      const ends = strokeEnds(turned);
      expect(ends).toHaveLength(4);
      for (const e of ends) {
        let near = 0;
        for (let k = 0; k < 25; k++) {
          near +=
            places[i]!.get(
              Math.floor(e.x) + (k % 5) - 2,
              Math.floor(e.y) + Math.floor(k / 5) - 2,
            ) ?? 0;
        }
        expect(near).toBe(1);
      }
    });
    for (const view of otherViews(ink)) expect(strokeEnds(view)).toEqual(strokeEnds(ink));
  });

  // The skeleton of a stroke an even number of pixels wide lies on one of its two middles, see
  // thin.test.ts, and the direction is that of the skeleton.
  it.fails('finds exactly the same ends in all eight symmetries', () => {
    const ink = draw(page(100, 70), 6, [12, 15, 60, 33], [20, 60, 80, 48], [80, 48, 80, 10]);
    const widths = (mask: NdArray<Uint8Array>) =>
      strokeEnds(mask)
        .map((e) => e.width.toFixed(9))
        .sort();
    for (const turned of symmetries(ink)) expect(widths(turned)).toEqual(widths(ink));
  });

  it('holds for the smallest and the longest rasters', () => {
    expect(strokeEnds(raster(Uint8Array.of(1), [1, 1]))).toEqual([]);
    const long = new Uint8Array(70000);
    long.fill(1, 10, 69990);
    expect(strokeEnds(raster(long, [70000, 1])).map((e) => [e.x, e.direction[0]])).toEqual([
      [10.5, -1],
      [69989.5, 1],
    ]);
    expect(strokeEnds(raster(long, [1, 70000])).map((e) => [e.y, e.direction[1]])).toEqual([
      [10.5, -1],
      [69989.5, 1],
    ]);
  });

  it('names what is wrong with its argument', () => {
    expect(() => strokeEnds(raster(Uint8Array.of(2), [1, 1]))).toThrow(
      /mask must hold 0 or 1, got 2/,
    );
    expect(() => strokeEnds('ink' as never)).toThrow(TypeError);
  });
});
