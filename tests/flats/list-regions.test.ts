import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { applyPlan } from '../../src/flats/apply-plan.ts';
import { layFlats } from '../../src/flats/lay-flats.ts';
import { listRegions, type Region } from '../../src/flats/list-regions.ts';
import { raster } from '../../src/raster/index.ts';
import { regionAt } from '../../src/regions/region-at.ts';
import { labels, mask, otherViews, symmetries, worstCases } from '../support/grids.ts';
import { seeded } from '../support/random.ts';
import { drawings } from './drawings.ts';

/** Every row from the pixels alone, one region after the other. */
function bruteForce(ids: NdArray<Int32Array>, ink: NdArray<Uint8Array>): Region[] {
  const [w, h] = ids.shape as [number, number];
  const all = Array.from({ length: w * h }, (_, i) => [i % w, Math.floor(i / w)] as const);
  const known = [...new Set(all.map(([x, y]) => ids.get(x, y)))].sort((a, b) => a - b);
  return known.flatMap((id) => {
    if (id === 0) return [];
    const own = all.filter(([x, y]) => ids.get(x, y) === id);
    const onPaper = own.filter(([x, y]) => ink.get(x, y) === 0);
    const disc = onPaper.length > 0 ? onPaper : own;
    const within = new Set(disc.map(([x, y]) => y * w + x));
    let [best, inside] = [-1, disc[0]!];
    for (const [x, y] of disc) {
      let square = Math.min(x + 1, y + 1, w - x, h - y) ** 2;
      for (const [u, v] of all) {
        if (!within.has(v * w + u)) square = Math.min(square, (u - x) ** 2 + (v - y) ** 2);
      }
      if (square > best) [best, inside] = [square, [x, y]];
    }
    const edges = new Map<number, number>();
    for (const [x, y] of own) {
      for (const [u, v] of [
        [x - 1, y],
        [x + 1, y],
        [x, y - 1],
        [x, y + 1],
      ] as const) {
        if (u < 0 || v < 0 || u >= w || v >= h) continue;
        const other = ids.get(u, v);
        if (other !== id && other !== 0) edges.set(other, (edges.get(other) ?? 0) + 1);
      }
    }
    const [xs, ys] = [own.map(([x]) => x), own.map(([, y]) => y)];
    return {
      id,
      inside: [inside[0] + 0.5, inside[1] + 0.5],
      radius: Math.sqrt(best),
      area: own.length,
      bounds: [Math.min(...xs), Math.min(...ys), Math.max(...xs) + 1, Math.max(...ys) + 1],
      named: false,
      border: onPaper.some(([x, y]) => x === 0 || y === 0 || x === w - 1 || y === h - 1),
      neighbors: [...edges]
        .map(([other, length]) => ({ id: other, length }))
        .sort((p, q) => q.length - p.length || p.id - q.id),
    };
  });
}

describe('listRegions', () => {
  it('agrees with a search of all pixels on every symmetry and view', () => {
    const random = seeded(12);
    for (const [w, h] of [
      [1, 1],
      [9, 1],
      [14, 11],
    ] as const) {
      for (const m of Object.values(worstCases(w, h))) {
        const block = (_: number, i: number) =>
          m.data[i] === 1 ? 0 : 2 + Math.floor((i % w) / 5) + 4 * Math.floor(i / w / 5);
        const ids = raster(Int32Array.from(m.data).map(block), [w, h]);
        const ink = raster(
          m.data.map(() => (random() < 0.25 ? 1 : 0)),
          [w, h],
        );
        const views = [...symmetries(ids), ...otherViews(ids)];
        const inks = [...symmetries(ink), ...otherViews(ink)];
        views.forEach((view, k) => {
          const found = listRegions({ labels: view, ink: inks[k]! });
          expect(found).toEqual(bruteForce(view, inks[k]!));
        });
      }
    }
  });

  it('takes the sealed ink before the ink', () => {
    const one = labels(`
      1 1 1 1 1
      1 1 1 1 1
      1 1 1 1 1`);
    const ink = mask(`
      . . . . .
      . . . . .
      . . . . .`);
    const sealed = mask(`
      . . . . 1
      . . . . 1
      . . . . 1`);
    expect(listRegions({ labels: one, ink })[0]!.inside).toEqual([1.5, 1.5]);
    expect(
      listRegions({ labels: one, ink, sealed: mask('. . . 1 .\n. . . 1 .\n. . . 1 .') })[0]!.inside,
    ).toEqual([1.5, 1.5]);
    expect(listRegions({ labels: one, ink, sealed })[0]!.radius).toBe(2);
  });

  it('tells what a mark names, with the report and without', () => {
    const ids = labels(`
      1 1 1 1 1
      1 2 1 3 1
      1 1 1 1 1`);
    const palette = [{ name: 'fur', color: '#8a5d42' }];
    const marks = [{ point: [3.5, 1.5], swatch: 'fur' }] as const;
    const laid = applyPlan(ids, { version: 1, size: [5, 3], palette, marks });
    const rows = (found: Region[]) =>
      found.map(({ swatch, named, border }) => [swatch, named, border]);
    const wanted = [
      ['ground', false, true],
      ['region 1,1', false, false],
      ['fur', true, false],
    ];
    expect(rows(listRegions(laid))).toEqual(wanted);
    const { flats } = laid;
    expect(rows(listRegions({ labels: laid.labels, flats }))).toEqual(wanted);
    expect(rows(listRegions({ labels: ids }))).toEqual([
      [undefined, false, true],
      [undefined, false, false],
      [undefined, false, false],
    ]);
    const ground = [{ name: 'ground', color: '#ffffff' }];
    const asked = [{ point: [0, 0], swatch: 'ground' }] as const;
    const named = applyPlan(ids, { version: 1, size: [5, 3], palette: ground, marks: asked });
    expect(rows(listRegions(named))[0]).toEqual(['ground', true, true]);
  });

  it('gives points that are in their regions, on paper, and name all when a plan uses them', () => {
    for (const { pixels } of drawings(12, 160)) {
      const laid = layFlats(pixels);
      const rows = listRegions(laid);
      expect(rows.length).toBe(laid.report.regions);
      const palette = rows.map(({ id }) => ({ name: `s${id}`, color: '#123456' }));
      const marks = rows.map(({ id, inside }) => ({ point: inside, swatch: `s${id}` }));
      for (const { id, inside } of rows) {
        expect(regionAt(laid.labels, inside)).toBe(id);
        expect(laid.sealed.get(...(inside.map(Math.floor) as [number, number]))).toBe(0);
      }
      const { report } = applyPlan(laid.labels, { version: 1, size: [160, 160], palette, marks });
      expect([report.named, report.conflicts.length]).toEqual([rows.length, 0]);
      const listed = rows.filter(({ named, border }) => !named && !border);
      const sorted = listed.sort((a, b) => b.area - a.area || a.id - b.id);
      expect(laid.report.unnamed).toEqual(
        sorted.map(({ id, inside, area, bounds }) => ({ id, inside, area, bounds })),
      );
    }
  });

  it('refuses what is none, and sizes that differ', () => {
    const ids = labels('1 1');
    expect(() => listRegions(undefined as never)).toThrow(
      new TypeError('laid must be what layFlats gives, or { labels, flats?, ink? }, got undefined'),
    );
    expect(() => listRegions({ labels: ids, ink: mask('. . .') })).toThrow(
      'ink must have the size of labels, 2 × 1, got 3 × 1',
    );
    expect(() => listRegions({ labels: raster(new Int32Array([1, -1]), [2, 1]) })).toThrow(
      'labels must hold ids >= 0',
    );
  });
});

describe('regionAt', () => {
  const ids = labels(`
    1 1 2
    3 . 2`);

  it('reads the pixel of a point, 0 outside', () => {
    const at = (x: number, y: number) => regionAt(ids, [x, y]);
    expect([at(0, 0), at(1.99, 0.5), at(2, 1.9), at(0.5, 1), at(1.5, 1.5)]).toEqual([
      1, 1, 2, 3, 0,
    ]);
    expect([at(-0.01, 0), at(3, 0), at(0, 2), at(0, -1), at(1e9, 1e9)]).toEqual([0, 0, 0, 0, 0]);
  });

  it('reads every symmetry and view', () => {
    for (const view of [...symmetries(ids), ...otherViews(ids)]) {
      const [w, h] = view.shape as [number, number];
      for (let y = 0; y < h; y++) {
        for (let x = 0; x < w; x++) {
          expect(regionAt(view, [x + 0.5, y + 0.5])).toBe(view.get(x, y));
        }
      }
    }
  });

  it('refuses a point that is none', () => {
    expect(() => regionAt(ids, [Number.NaN, 0])).toThrow('point must be a point of finite numbers');
    expect(() => regionAt(ids, [1] as never)).toThrow('point must be a point [x, y]');
    expect(() => regionAt(new Uint8Array(4) as never, [0, 0])).toThrow('labels must be an Int32');
  });
});
