import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { raster } from '../../src/raster/index.ts';
import { growUnderInk, labelRegions } from '../../src/regions/index.ts';
import {
  grid,
  labels,
  literal,
  mask,
  otherViews,
  symmetries,
  worstCases,
} from '../support/grids.ts';
import { seeded } from '../support/random.ts';

/** Nearest labeled pixel by trying all; ties to the lowest label. */
function nearest(r: NdArray<Int32Array>): number[] {
  const [w, h] = r.shape as [number, number];
  const sites: [number, number, number][] = [];
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) if (r.get(x, y) > 0) sites.push([x, y, r.get(x, y)]);
  }
  return Array.from({ length: w * h }, (_, i) => {
    const [x, y] = [i % w, Math.floor(i / w)];
    let best = [Number.POSITIVE_INFINITY, 0] as [number, number];
    for (const [u, v, label] of sites) {
      const d = (u - x) ** 2 + (v - y) ** 2;
      if (d < best[0] || (d === best[0] && label < best[1])) best = [d, label];
    }
    return best[1];
  });
}

describe('growUnderInk', () => {
  it('meets in the middle of the ink, ties to the lower label', () => {
    const ink = mask('. 1 1 1 .');
    expect(grid(growUnderInk(labels('1 . . . 2'), ink))).toBe('1 1 1 2 2');
    expect(grid(growUnderInk(labels('2 . . . 1'), ink))).toBe('2 2 1 1 1');
  });

  it('grows labels on ink anew, but keeps a region that has no paper', () => {
    const ink = mask('. 1 1 1 1 .');
    expect(grid(growUnderInk(labels('1 1 1 1 1 2'), ink))).toBe('1 1 1 2 2 2');
    expect(grid(growUnderInk(labels('1 . 3 . . 2'), ink))).toBe('1 1 3 3 2 2');
  });

  it('leaves labels without a region as they are', () => {
    expect(grid(growUnderInk(labels('. . .'), mask('1 1 1')))).toBe('. . .');
  });

  it('agrees with trying every pixel, on random, sparse and worst cases', () => {
    const random = seeded(5);
    for (const [w, h] of [
      [1, 1],
      [1, 19],
      [19, 1],
      [23, 17],
      [41, 29],
    ] as const) {
      for (const m of Object.values(worstCases(w, h))) {
        const r = raster(
          Int32Array.from(m.data, (v) => (v === 0 ? 1 + Math.floor(random() * 5) : 0)),
          [w, h],
        );
        expect([...growUnderInk(r, m).data]).toEqual(nearest(r));
        const few = raster(
          Int32Array.from(r.data, (v) => (random() < 0.05 ? v : 0)),
          [w, h],
        );
        const rest = raster(
          Uint8Array.from(few.data, (v) => (v === 0 ? 1 : 0)),
          [w, h],
        );
        expect([...growUnderInk(few, rest).data]).toEqual(nearest(few));
      }
    }
  });

  it('holds for every symmetry and view', () => {
    const ink = worstCases(29, 23).noise!;
    const from = labelRegions(ink, { of: 0 }).labels;
    const views = symmetries(from).map((v, i) => [v, symmetries(ink)[i]!] as const);
    const others = otherViews(from).map((v, i) => [v, otherViews(ink)[i]!] as const);
    for (const [l, m] of [...views, ...others])
      expect([...growUnderInk(l, m).data]).toEqual(nearest(l));
  });

  it('goes past 65,535 columns and rows', () => {
    const n = 140_001;
    const data = new Int32Array(n);
    data[0] = 1;
    data[n - 1] = 2;
    const ink = Uint8Array.from(data, (v) => (v === 0 ? 1 : 0));
    for (const shape of [
      [n, 1],
      [1, n],
    ] as const) {
      const grown = growUnderInk(raster(data, shape), raster(ink, shape)).data;
      expect(grown.lastIndexOf(1)).toBe(70_000);
      expect(grown.indexOf(2)).toBe(70_001);
    }
  });

  it('keeps the seam within a pixel of the center line, strokes of 1 to 15 px at 16 angles', () => {
    const size = 81;
    const center = size / 2;
    for (let width = 1; width <= 15; width++) {
      for (let k = 0; k < 16; k++) {
        const [nx, ny] = [-Math.sin((k * Math.PI) / 16), Math.cos((k * Math.PI) / 16)];
        const side = (x: number, y: number) => (x + 0.5 - center) * nx + (y + 0.5 - center) * ny;
        // Thin strokes are drawn wide enough to part 4-connected paper at every angle.
        const half = Math.max(width / 2, 0.71);
        const ink = raster(new Uint8Array(size * size), [size, size]);
        for (let y = 0; y < size; y++) {
          for (let x = 0; x < size; x++) ink.set(x, y, Math.abs(side(x, y)) <= half ? 1 : 0);
        }
        const { labels: paper, count } = labelRegions(ink, { of: 0 });
        expect(count).toBe(2);
        const grown = growUnderInk(paper, ink);
        for (let y = 20; y < 60; y++) {
          for (let x = 20; x < 60; x++) {
            if (grown.get(x, y) !== grown.get(x + 1, y)) {
              expect(Math.abs(side(x + 0.5, y))).toBeLessThanOrEqual(1);
              if (width >= 3) expect(ink.get(x, y) & ink.get(x + 1, y)).toBe(1);
            }
            if (grown.get(x, y) !== grown.get(x, y + 1)) {
              expect(Math.abs(side(x, y + 0.5))).toBeLessThanOrEqual(1);
              if (width >= 3) expect(ink.get(x, y) & ink.get(x, y + 1)).toBe(1);
            }
          }
        }
      }
    }
  });

  it('follows the darkest ridge where coverage is given', () => {
    const ink = mask('. 1 1 1 1 1 .');
    const coverage = raster(new Uint8Array([0, 40, 60, 90, 255, 80, 0]), [7, 1]);
    expect(grid(growUnderInk(labels('1 . . . . . 2'), ink))).toBe('1 1 1 1 2 2 2');
    const ridge = growUnderInk(labels('1 . . . . . 2'), ink, { coverage });
    expect([1, 2]).toContain(ridge.get(4, 0));
    expect(ridge.data.slice(0, 4).join()).toBe('1,1,1,1');
    expect(ridge.data.slice(5).join()).toBe('2,2');
  });

  it('refuses rasters that do not fit', () => {
    expect(() => growUnderInk(labels('1 .'), mask('1'))).toThrow(
      /ink must have the size of labels, 2 × 1, got 1 × 1/,
    );
    expect(() => growUnderInk(labels('1 -1'), mask('. 1'))).toThrow(
      /labels must hold ids >= 0.*got -1 at \[1, 0\]/,
    );
    const own = labels('1 .');
    expect(() => growUnderInk(own, mask('. 1'), { out: own })).toThrow(/share no memory/);
  });
});

describe('a grid', () => {
  it('shows a corner', () => {
    const ink = mask(`
      . 1 .
      1 1 .
      . . .`);
    expect(grid(growUnderInk(labelRegions(ink, { of: 0 }).labels, ink))).toBe(
      literal(`
      1 1 2
      1 2 2
      2 2 2`),
    );
  });
});
