import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fillPolygon } from '../../src/polygon/fill.ts';
import { rasterizePolygon } from '../../src/polygon/rasterize.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Point, RasterData } from '../../src/raster/types.ts';
import { grid, labels, literal, mask, otherViews } from '../support/grids.ts';
import { KINDS } from '../support/kinds.ts';
import { seeded } from '../support/random.ts';

const square: Point[] = [
  [1, 0],
  [3, 0],
  [3, 2],
  [1, 2],
];

describe('fillPolygon', () => {
  it('gives the pixels inside a value and says what changed', () => {
    const target = labels(`
      7 7 9 7
      7 7 7 7
      7 7 7 7`);
    expect(fillPolygon(target, [square], 9)).toEqual({ changed: 3, bounds: [1, 0, 3, 2] });
    expect(grid(target)).toBe(
      literal(`
        7 9 9 7
        7 9 9 7
        7 7 7 7`),
    );
    expect(fillPolygon(target, [square], 9)).toEqual({ changed: 0, bounds: null });
  });

  // common practice, no source: what is laid already is protected from an outline drawn across it.
  it('dragged across two finished areas, with only the bare swatch, changes none of their pixels', () => {
    const indices = raster(Uint8Array.from([1, 1, 0, 0, 2, 2, 1, 0, 0, 0, 0, 2]), [6, 2]);
    const careless: Point[] = [
      [-3, -3],
      [9, -3],
      [9, 9],
      [-3, 9],
    ];
    const { changed, bounds } = fillPolygon(indices, [careless], 3, { only: 0 });
    expect([...indices.data]).toEqual([1, 1, 3, 3, 2, 2, 1, 3, 3, 3, 3, 2]);
    expect([changed, bounds]).toEqual([6, [1, 0, 5, 2]]);
  });

  it('equals the mask of the polygon, whatever the kind, the channels, the offset and `only`', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...KINDS),
        fc.integer({ min: 1, max: 140 }),
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: 1, max: 4 }),
        fc.integer({ min: 0, max: 5 }),
        fc.boolean(),
        fc.constantFrom('evenodd' as const, 'nonzero' as const),
        fc.nat(),
        (Kind, w, h, channels, offset, useOnly, rule, seed) => {
          const random = seeded(seed);
          const memory: RasterData = new Kind(offset + w * h * channels);
          for (let i = 0; i < memory.length; i++) memory[i] = Math.floor(random() * 3);
          const before = memory.slice();
          const data = memory.subarray(offset);
          const ring = Array.from(
            { length: 3 + (seed % 7) },
            (): Point => [(random() * 1.4 - 0.2) * w, (random() * 1.4 - 0.2) * h],
          );
          const value = Array.from({ length: channels }, (_, c) => 1 + (c % 2));
          const only = [1, new Array<number>(channels).fill(2)];
          const inside = rasterizePolygon([ring], [w, h], { rule }).data;
          const expected = before.slice();
          let [changed, x0, y0, x1, y1] = [0, w, h, 0, 0];
          inside.forEach((v, p) => {
            const at = offset + p * channels;
            const own = before.subarray(at, at + channels);
            const may = !useOnly || own.every((s) => s === 1) || own.every((s) => s === 2);
            if (v === 0 || !may || own.every((s, c) => s === value[c])) return;
            for (let c = 0; c < channels; c++) expected[at + c] = value[c]!;
            changed++;
            const [x, y] = [p % w, Math.floor(p / w)];
            [x0, y0] = [Math.min(x0, x), Math.min(y0, y)];
            [x1, y1] = [Math.max(x1, x + 1), Math.max(y1, y + 1)];
          });
          const target = raster(data, channels === 1 ? [w, h] : [w, h, channels]);
          const found = fillPolygon(target, [ring], value, useOnly ? { rule, only } : { rule });
          expect(memory).toEqual(expected);
          expect(found).toEqual({ changed, bounds: changed === 0 ? null : [x0, y0, x1, y1] });
        },
      ),
      { numRuns: 600 },
    );
  });

  it('changes views in place and nothing beside them', () => {
    const image = labels(`
      1 1 2 1
      2 1 2 2`);
    for (const view of otherViews(image)) {
      const before = Int32Array.from(view.data);
      expect(fillPolygon(view, [square], 9, { only: [1] })).toEqual({
        changed: 2,
        bounds: [1, 0, 2, 2],
      });
      expect(grid(view)).toBe(literal('1 9 2 1\n2 9 2 2'));
      expect([...view.data.filter((v, i) => v !== before[i])]).toEqual([9, 9]);
    }
  });

  it('refuses bad arguments before anything is changed', () => {
    const target = raster(new Uint8Array(8), [2, 2, 2]);
    const call =
      (...rest: unknown[]) =>
      () =>
        (fillPolygon as (...all: unknown[]) => unknown)(target, ...rest);
    expect(call([square], -1)).toThrow(
      new RangeError('value must be a whole number from 0 to 255, as Uint8Array holds, got -1'),
    );
    expect(call([square], [1, 2, 3])).toThrow('value must be a number or 2 of them, got [1, 2, 3]');
    expect(call([square], 1, { only: [[1, 2, 3]] })).toThrow(
      'only[0] must be a number or 2 of them',
    );
    expect(call([[[0, 0], [1]]], 1)).toThrow('rings[0][1] must be a point [x, y], got [1]');
    expect(call([square], 1, { onyl: 0 })).toThrow('did you mean "only"');
    expect(target.data.every((v) => v === 0)).toBe(true);
  });
});

describe('a barrier', () => {
  it('keeps its pixels, with only and without', () => {
    const barrier = mask('. 1 . .\n. . . .');
    const target = labels('0 0 2 0\n0 0 2 0');
    expect(fillPolygon(target, [square], 5, { barrier, only: 0 })).toEqual({
      changed: 1,
      bounds: [1, 1, 2, 2],
    });
    expect(grid(target)).toBe(literal('. . 2 .\n. 5 2 .'));
    expect(fillPolygon(target, [square], 7, { barrier }).changed).toBe(3);
    expect(grid(target)).toBe(literal('. . 7 .\n. 7 7 .'));
  });

  it('equals a polygon that is cut by the mask, whatever the width', () => {
    const random = seeded(7);
    for (const width of [1, 31, 32, 33, 70]) {
      const barrier = raster(
        Uint8Array.from({ length: 3 * width }, () => random() & 1),
        [width, 3],
      );
      const rings = [
        [
          [0, 0],
          [width, 0],
          [width, 3],
          [0, 3],
        ] as const,
      ];
      const target = raster(new Uint8Array(3 * width), [width, 3]);
      fillPolygon(target, rings, 1, { barrier });
      expect([...target.data]).toEqual([...barrier.data].map((v) => 1 - v));
    }
  });

  it('must not share memory with the target', () => {
    const target = mask('0 0 0');
    expect(() => fillPolygon(target, [square], 1, { barrier: target })).toThrow(
      new RangeError('barrier must share no memory with target'),
    );
    expect(() => fillPolygon(target, [square], 1, { barrier: mask('0 0') })).toThrow(RangeError);
  });
});

describe('rings', () => {
  it('of 150,000 points are filled and rasterized', () => {
    const ring = Array.from({ length: 150_000 }, (_, i): Point => [i / 1000, i % 2 === 0 ? 0 : 8]);
    const target = raster(new Uint8Array(150 * 8), [150, 8]);
    const { changed } = fillPolygon(target, [ring], 1, { only: [0, 2] });
    expect(changed).toBeGreaterThan(0);
    expect(rasterizePolygon([ring], [150, 8]).data).toEqual(target.data);
  });

  it('with holes in the list are named', () => {
    const ring = square.slice();
    delete ring[2];
    const sparse = [square, ring];
    expect(() => rasterizePolygon(sparse, [4, 4])).toThrow(
      new TypeError('rings[1][2] must be a point [x, y], got undefined'),
    );
    delete sparse[0];
    expect(() => rasterizePolygon(sparse, [4, 4])).toThrow(
      new TypeError('rings[0] must be a ring, a list of points [x, y], got undefined'),
    );
  });

  it('are not rasterized into more pixels than Int32 counts', () => {
    expect(() => rasterizePolygon([square], [65_536, 32_768])).toThrow(
      new RangeError('size must have at most 2147483647 pixels, got 65536 × 32768'),
    );
  });
});
