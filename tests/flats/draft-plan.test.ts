/**
 * Drafts on line art by many hands: openmoji (CC BY-SA 4.0, from npm), and brush drawings of the Open
 * Clip Art Library (public domain, Debian's openclipart-svg), whose artists' flats are the reference.
 */
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyPlan } from '../../src/flats/apply-plan.ts';
import { compareReference } from '../../src/flats/compare-reference.ts';
import { draftPlan } from '../../src/flats/draft-plan.ts';
import { layFlats } from '../../src/flats/lay-flats.ts';
import { listRegions } from '../../src/flats/list-regions.ts';
import type { Plan } from '../../src/flats/plan.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/index.ts';
import type { PixelsLike } from '../../src/raster/types.ts';
import { labels, pixelViews } from '../support/grids.ts';
import { seeded } from '../support/random.ts';
import { drawings } from './drawings.ts';

interface BrushDrawing {
  line: PixelsLike;
  colors: Int32Array;
  plan: Plan;
}
const BRUSH: string = new URL('../../examples/openmoji/brush.mjs', import.meta.url).href;
const FOLDER = '/usr/share/openclipart/svg';

/** Color by pixel, whatever the order of the palette. */
function painted({ indices, palette }: Flats): string[] {
  return Array.from(indices.data, (index) => `${palette[index]!.name} ${palette[index]!.color}`);
}

describe('draftPlan', () => {
  it('lays the same flats on 50 drawings, on their labels and from the start', () => {
    for (const { name, pixels } of drawings(50, 160)) {
      const laid = layFlats(pixels);
      const plan = draftPlan(laid);
      expect(plan.marks.length, name).toBe(laid.report.regions);
      expect(plan.palette).toEqual(laid.flats.palette.slice(1));
      const applied = applyPlan(laid.labels, plan, { ink: laid.sealed });
      expect(applied.flats).toEqual(laid.flats);
      const again = layFlats(pixels, { plan });
      expect(again.flats, name).toEqual(laid.flats);
      expect(again.report.unnamed).toEqual([]);
      expect(again.report.conflicts).toEqual([]);
    }
  });

  it('is a plan that JSON holds', () => {
    const plan = draftPlan(layFlats(drawings(1, 96)[0]!.pixels));
    expect(JSON.parse(JSON.stringify(plan))).toEqual(plan);
  });

  it('gives back the names and colors of flats that it is held against', () => {
    for (const { name, pixels } of drawings(20, 160)) {
      const laid = layFlats(pixels);
      const named = ['coat', 'scarf', 'hat', 'fur'];
      const colors = ['#1d6f8c', '#d2603a', '#f4ead2', '#8a5d42'];
      const palette = named.map((swatch, k) => ({ name: swatch, color: colors[k]! }));
      const marks = laid.report.unnamed.map(({ id, inside }) => ({
        point: inside,
        swatch: named[id % 4]!,
      }));
      const size = laid.report.size;
      const wanted = applyPlan(laid.labels, { version: 1, size, palette, marks }).flats;
      const fromFlats = draftPlan(laid, { reference: wanted });
      expect(fromFlats.marks.map(({ note }) => note)).toEqual(
        fromFlats.marks.map(() => '100 % agrees'),
      );
      expect(painted(layFlats(pixels, { plan: fromFlats }).flats), name).toEqual(painted(wanted));
      // Of pixels only the colors are known; the ground keeps its name.
      const fromPixels = draftPlan(laid, { reference: paintFlats(wanted) });
      const { flats } = layFlats(pixels, { plan: fromPixels });
      const byColor = painted(wanted).map((text) => {
        const color = text.slice(-7);
        return text.startsWith('ground') ? text : `${color} ${color}`;
      });
      expect(painted(flats)).toEqual(byColor);
      expect(flats.ground).toBe('ground');
    }
  });

  it('reads pixels of any kind and layout alike', () => {
    const ids = labels(`
      1 1 1 2 2
      1 1 1 2 2
      1 1 1 2 2`);
    const laid = applyPlan(ids, { version: 1, size: [5, 3], palette: [], marks: [] });
    const rgba = new Uint8Array(60);
    ids.data.forEach((id, i) => {
      rgba.set(id === 1 ? [210, 96, 58, 255] : [29, 111, 140, 255], 4 * i);
    });
    const reference = raster(rgba, [5, 3, 4]);
    const wanted = draftPlan(laid, { reference });
    expect(wanted.palette.map(({ name }) => name)).toEqual(['#d2603a', '#1d6f8c']);
    const same = [...pixelViews(reference).slice(0, 1), ...pixelViews(reference).slice(8)];
    for (const view of same) expect(draftPlan(laid, { reference: view })).toEqual(wanted);
    const wide = raster(
      Uint16Array.from(rgba, (v) => 257 * v),
      [5, 3, 4],
    );
    expect(draftPlan(laid, { reference: wide })).toEqual(wanted);
    const gray = raster(
      Uint8Array.from(ids.data, (id) => 90 * id),
      [5, 3],
    );
    expect(draftPlan(laid, { reference: gray }).palette.map(({ name }) => name)).toEqual([
      '#5a5a5a',
      '#b4b4b4',
    ]);
  });

  it('keeps what is laid where the reference shows nothing', () => {
    const ids = labels(`
      1 1 1
      1 2 1
      1 1 1`);
    const laid = applyPlan(ids, { version: 1, size: [3, 3], palette: [], marks: [] });
    const plan = draftPlan(laid, { reference: raster(new Uint8Array(36), [3, 3, 4]) });
    expect(plan.marks.map((mark) => 'swatch' in mark && mark.swatch)).toEqual([
      'ground',
      'region 1,1',
    ]);
    expect(plan.marks[0]!.note).toBe('the reference shows nothing here');
  });

  it('leaves the ground its swatch where a part of the figure is open to it on clear paper', () => {
    const [w, h] = [24, 16];
    const ids = raster(new Int32Array(w * h).fill(1), [w, h]);
    const laid = applyPlan(ids, { version: 1, size: [w, h], palette: [], marks: [] });
    const draft = (columns: number) => {
      const rgba = new Uint8Array(4 * w * h);
      for (let y = 0; y < h; y++) {
        for (let x = 0; x < columns; x++) rgba.set([210, 96, 58, 255], 4 * (y * w + x));
      }
      return draftPlan(laid, { reference: raster(rgba, [w, h, 4]) }).marks[0]!;
    };
    expect(draft(6)).toMatchObject({
      swatch: 'ground',
      note: 'the reference shows nothing in 75 % of it; open to #d2603a, which it meets at 5,7',
    });
    expect(draft(0)).toMatchObject({ swatch: 'ground', note: 'the reference shows nothing here' });
    // Where most of it is shown, it is what is shown.
    expect(draft(18)).toMatchObject({ swatch: '#d2603a', note: '100 % agrees' });
    const [row] = compareReference(laid, raster(new Uint8Array(4 * w * h), [w, h, 4]));
    expect([row!.clear, row!.main]).toEqual([1, undefined]);
  });

  it('refuses what is not laid, and a reference of another size', () => {
    const ids = labels('1 1');
    const laid = applyPlan(ids, { version: 1, size: [2, 1], palette: [], marks: [] });
    expect(() => draftPlan({ labels: ids })).toThrow(
      /^laid must be what layFlats or applyPlan gives/,
    );
    expect(() => draftPlan(laid, { reference: raster(new Uint8Array(3), [3, 1]) })).toThrow(
      'reference must have the size of labels, 2 × 1, got 3 × 1',
    );
    expect(() => draftPlan(laid, { reference: 3 as never })).toThrow(/^reference must be/);
    expect(() => draftPlan(laid, { refrence: 1 } as never)).toThrow(/did you mean "reference"/);
  });
});

describe.skipIf(!existsSync(FOLDER))('draftPlan after artists’ flats', () => {
  it('lays the main color of each region, and the same when it is drafted again', async () => {
    const { brushDrawings, readBrushDrawing } = (await import(BRUSH)) as {
      brushDrawings(): string[];
      readBrushDrawing(path: string): BrushDrawing;
    };
    const paths = brushDrawings().filter((_, i) => i % 12 === 0);
    expect(paths.length).toBeGreaterThan(3);
    for (const path of paths) {
      const { line, colors } = readBrushDrawing(path);
      const laid = layFlats(line);
      const [width, height] = laid.labels.shape as [number, number];
      const rgb = new Uint8Array(3 * colors.length);
      colors.forEach((color, i) => {
        rgb.set([color >> 16, (color >> 8) & 255, color & 255], 3 * i);
      });
      const reference = raster(rgb, [width, height, 3]);
      const plan = draftPlan(laid, { reference });
      const { flats, report } = applyPlan(laid.labels, plan, { ink: laid.sealed });
      expect([report.unnamed, report.conflicts], path).toEqual([[], []]);
      const rows = compareReference(laid, reference);
      for (const { inside, main } of rows) {
        const index = flats.indices.get(Math.floor(inside[0]), Math.floor(inside[1]));
        if (main !== undefined) expect(flats.palette[index]!.color, path).toBe(main.color);
      }
      expect(painted(layFlats(line, { plan }).flats), path).toEqual(painted(flats));
    }
  });
});

describe('compareReference', () => {
  it('tells where a second color meets the main one', () => {
    const ids = new Int32Array(40 * 20).fill(1);
    const one = raster(ids, [40, 20]);
    const split = raster(
      Uint8Array.from(ids, (_, i) => (i % 40 < 29 ? 90 : i % 40 === 29 ? 140 : 200)),
      [40, 20],
    );
    const [row] = compareReference({ labels: one }, split);
    expect(row!.main).toEqual({ name: '#5a5a5a', color: '#5a5a5a' });
    // 29 columns of the one, 10 of the other; the blended one between counts for neither.
    expect(row!.share).toBeCloseTo(29 / 39, 12);
    expect(row!.shared).toEqual([
      { name: '#c8c8c8', color: '#c8c8c8', share: 10 / 39, at: expect.anything() },
    ]);
    const [x, y] = row!.shared[0]!.at;
    expect(Math.abs(x - 29.5)).toBeLessThanOrEqual(1);
    expect(Math.abs(y - 10)).toBeLessThanOrEqual(1);
  });

  it('counts what a plain search counts, with blends and slips left out', () => {
    const random = seeded(21);
    for (let round = 0; round < 30; round++) {
      const [w, h] = [24, 18];
      const cut = 6 + Math.floor(random() * 12);
      const ids = raster(
        Int32Array.from({ length: w * h }, (_, i) => (i % w < 12 ? 1 : 2)),
        [w, h],
      );
      const value = raster(
        Uint8Array.from({ length: w * h }, (_, i) =>
          random() < 0.05 ? Math.floor(random() * 256) : i % w < cut ? 40 : 220,
        ),
        [w, h],
      );
      const rows = compareReference({ labels: ids }, value);
      for (const { id, main, share, shared } of rows) {
        const counts = new Map<number, number>();
        const solid = new Set<number>();
        for (let y = 0; y < h; y++) {
          for (let x = 0; x < w; x++) {
            if (ids.get(x, y) !== id) continue;
            const v = value.get(x, y);
            counts.set(v, (counts.get(v) ?? 0) + 1);
            const around = [
              [x - 1, y],
              [x + 1, y],
              [x, y - 1],
              [x, y + 1],
            ].filter(([u, t]) => u! >= 0 && t! >= 0 && u! < w && t! < h);
            if (around.every(([u, t]) => value.get(u!, t!) === v)) solid.add(v);
          }
        }
        const sure = [...counts].filter(([v]) => solid.has(v));
        const list = (sure.length > 0 ? sure : [...counts]).sort(
          (a, b) => b[1] - a[1] || a[0] - b[0],
        );
        const total = list.reduce((sum, [, n]) => sum + n, 0);
        const name = (v: number) => `#${v.toString(16).padStart(2, '0').repeat(3)}`;
        expect(main!.name).toBe(name(list[0]![0]));
        expect(share).toBe(list[0]![1] / total);
        const others = list.slice(1).filter(([, n]) => n >= 40 || n >= 0.1 * total);
        expect(shared.map((other) => [other.name, other.share])).toEqual(
          others.map(([v, n]) => [name(v), n / total]),
        );
        for (const { at } of shared) {
          expect(ids.get(Math.floor(at[0]), Math.floor(at[1]))).toBe(id);
        }
      }
    }
  });

  it('is a row of the table with more in it', () => {
    const ids = labels('1 1 1 2');
    const reference = raster(new Uint8Array([9, 9, 9, 9]), [4, 1]);
    const rows = compareReference({ labels: ids }, reference);
    expect(rows.map(({ main, share, shared, clear, ...row }) => row)).toEqual(
      listRegions({ labels: ids }),
    );
  });
});
