import { describe, expect, it } from 'vitest';
import { raster } from '../../src/raster/index.ts';
import {
  absorbRegions,
  labelRegions,
  measureRegions,
  regionAdjacency,
  relabel,
} from '../../src/regions/index.ts';
import { grid, labels, literal, symmetries, worstCases } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

describe('measureRegions', () => {
  it('measures a ring and a dot', () => {
    const m = measureRegions(
      labels(`
      1 1 1 .
      1 2 1 .
      1 1 1 .`),
    );
    expect([...m.area]).toEqual([0, 8, 1]);
    expect([...m.bounds.slice(4)]).toEqual([0, 0, 3, 3, 1, 1, 2, 2]);
    expect([...m.centroid.slice(2)]).toEqual([1.5, 1.5, 1.5, 1.5]);
    expect([...m.perimeter]).toEqual([0, 16, 4]);
    expect([...m.eulerNumber]).toEqual([0, 0, 1]);
  });

  it('counts components minus holes, as two labelings do', () => {
    for (const m of Object.values(worstCases(43, 31))) {
      const shape = m.shape as [number, number];
      const components = labelRegions(m).count;
      // Holes: 8-connected paper components of a padded picture, but for the outside.
      const padded = new Uint8Array((shape[0] + 2) * (shape[1] + 2));
      for (let y = 0; y < shape[1]; y++) {
        for (let x = 0; x < shape[0]; x++) padded[(y + 1) * (shape[0] + 2) + x + 1] = m.get(x, y);
      }
      const holes =
        labelRegions(raster(padded, [shape[0] + 2, shape[1] + 2]), { of: 0, connectivity: 8 })
          .count - 1;
      const one = raster(Int32Array.from(m.data), shape);
      expect(measureRegions(one).eulerNumber[1] ?? 0).toBe(components - holes);
    }
  });

  it('is the same for every symmetry', () => {
    const one = raster(Int32Array.from(worstCases(20, 33).noise!.data), [20, 33]);
    const truth = measureRegions(one);
    for (const view of symmetries(one)) {
      const found = measureRegions(view);
      expect(found.area[1]).toBe(truth.area[1]);
      expect(found.perimeter[1]).toBe(truth.perimeter[1]);
      expect(found.eulerNumber[1]).toBe(truth.eulerNumber[1]);
    }
  });

  it('refuses ids far above the number of pixels', () => {
    expect(() => measureRegions(labels('2000000000'))).toThrow(/relabel/);
  });
});

describe('regionAdjacency', () => {
  it('agrees with counting every edge', () => {
    const random = seeded(11);
    const [w, h] = [31, 27];
    const r = raster(
      Int32Array.from({ length: w * h }, () => Math.floor(random() * 6)),
      [w, h],
    );
    const truth = new Map<string, number>();
    const count = (p: number, q: number) => {
      if (p === q || p === 0 || q === 0) return;
      const key = `${Math.min(p, q)} ${Math.max(p, q)}`;
      truth.set(key, (truth.get(key) ?? 0) + 1);
    };
    for (let y = 0; y < h; y++) {
      for (let x = 0; x < w; x++) {
        if (x + 1 < w) count(r.get(x, y), r.get(x + 1, y));
        if (y + 1 < h) count(r.get(x, y), r.get(x, y + 1));
      }
    }
    const { a, b, borderLength: length } = regionAdjacency(r);
    const found = Array.from(a, (id, k) => [`${id} ${b[k]}`, length[k]] as const);
    expect(found).toEqual([...truth].sort(([p], [q]) => (p < q ? -1 : 1)));
  });

  it('takes many pairs', () => {
    const r = raster(
      Int32Array.from({ length: 40_000 }, (_, i) => i + 1),
      [200, 200],
    );
    expect(regionAdjacency(r).a.length).toBe(2 * 200 * 199);
  });
});

describe('absorbRegions', () => {
  it('gives to the longest border, smallest first, ties to the lower id', () => {
    expect(
      grid(
        absorbRegions(
          labels(`
      1 1 1 2
      1 3 2 2
      1 2 2 2`),
          { maxArea: 1 },
        ),
      ),
    ).toBe(
      literal(`
      1 1 1 2
      1 1 2 2
      1 2 2 2`),
    );
    expect(grid(absorbRegions(labels('1 1 1 3 4 4 2 2 2'), { maxArea: 2 }))).toBe(
      '1 1 1 1 1 1 2 2 2',
    );
  });

  it('never gives to 0, and leaves a region that stands alone', () => {
    expect(grid(absorbRegions(labels('. 1 . 2 2'), { maxArea: 5 }))).toBe('. 1 . 2 2');
  });

  it('counts what a region has taken in', () => {
    expect(grid(absorbRegions(labels('1 2 2 3 3 3 3 3'), { maxArea: 2 }))).toBe('2 2 2 3 3 3 3 3');
    expect(grid(absorbRegions(labels('2 3 3 1 1 1 1 1'), { maxArea: 3 }))).toBe('1 1 1 1 1 1 1 1');
  });

  it('leaves no small region that has a neighbor, and moves no pixel of a large one', () => {
    const random = seeded(3);
    const r = raster(
      Int32Array.from({ length: 3600 }, () => 1 + Math.floor(random() * 3)),
      [60, 60],
    );
    const parts = labelRegions(
      raster(
        Uint8Array.from(r.data, (v) => (v === 1 ? 1 : 0)),
        [60, 60],
      ),
    );
    const from = relabel(
      raster(
        Int32Array.from(r.data, (v, i) => v * 10_000 + parts.labels.data[i]!),
        [60, 60],
      ),
    ).labels;
    const before = measureRegions(from).area;
    const after = absorbRegions(from, { maxArea: 12 });
    const areas = measureRegions(after).area;
    for (const area of areas) if (area > 0) expect(area).toBeGreaterThan(12);
    for (const [i, id] of from.data.entries()) if (before[id]! > 12) expect(after.data[i]).toBe(id);
  });

  it('refuses a bad option', () => {
    expect(() => absorbRegions(labels('1'), { maxArea: Number.NaN })).toThrow(
      'maxArea must be a finite number of pixels >= 0, got NaN',
    );
  });
});

describe('relabel', () => {
  it('renumbers by first pixel', () => {
    const { labels: found, count } = relabel(labels('9 . 4 9'));
    expect(grid(found)).toBe('1 . 2 1');
    expect(count).toBe(2);
  });
});
