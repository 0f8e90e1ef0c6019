import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { floodFill } from '../../src/fill/flood-fill.ts';
import { floodRegion } from '../../src/fill/flood-region.ts';
import { raster } from '../../src/raster/raster.ts';
import type { RasterData } from '../../src/raster/types.ts';
import { labelEqual } from '../../src/regions/label-equal.ts';
import {
  grid,
  labels,
  literal,
  mask,
  otherViews,
  symmetries,
  worstCases,
} from '../support/grids.ts';
import { KINDS } from '../support/kinds.ts';
import { loadOpenCV } from '../support/opencv.ts';
import { seeded } from '../support/random.ts';

const BOTH = [4, 8] as const;

/** Flood by a plain queue of pixels. */
function oracle(
  data: ArrayLike<number>,
  [w, h, channels]: readonly [number, number, number],
  [x, y]: readonly [number, number],
  connectivity: 4 | 8,
  tolerance: readonly number[],
  may: (p: number) => boolean,
): Uint8Array {
  const found = new Uint8Array(w * h);
  const seed = y * w + x;
  const fits = (p: number): boolean =>
    may(p) &&
    tolerance.every((t, c) => Math.abs(data[p * channels + c]! - data[seed * channels + c]!) <= t);
  const queue = fits(seed) ? [seed] : [];
  for (const p of queue) found[p] = 1;
  for (const p of queue) {
    for (let dy = -1; dy <= 1; dy++) {
      for (let dx = -1; dx <= 1; dx++) {
        if (connectivity === 4 && dx !== 0 && dy !== 0) continue;
        const [u, v] = [(p % w) + dx, Math.floor(p / w) + dy];
        if (u < 0 || v < 0 || u >= w || v >= h) continue;
        const q = v * w + u;
        if (found[q] === 1 || !fits(q)) continue;
        found[q] = 1;
        queue.push(q);
      }
    }
  }
  return found;
}

const boundsOf = (data: Uint8Array, w: number): number[] | null => {
  const places = [...data.keys()].filter((i) => data[i] === 1);
  if (places.length === 0) return null;
  const xs = places.map((i) => i % w);
  const ys = places.map((i) => Math.floor(i / w));
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs) + 1, Math.max(...ys) + 1];
};

describe('floodRegion', () => {
  const image = labels(`
    1 1 2 2
    2 1 2 1
    1 2 1 1`);

  it('takes what is connected by 4 or 8 neighbors', () => {
    const four = floodRegion(image, [0.5, 0.5]);
    expect(grid(four.mask)).toBe(
      literal(`
        1 1 . .
        . 1 . .
        . . . .`),
    );
    expect([four.area, four.bounds]).toEqual([3, [0, 0, 2, 2]]);
    expect(grid(floodRegion(image, [0, 0], { connectivity: 8 }).mask)).toBe(
      literal(`
        1 1 . .
        . 1 . 1
        1 . 1 1`),
    );
  });

  it('stops at a barrier and at what is not in `only`, and finds nothing from there', () => {
    const barrier = mask(`
      . 1 . .
      . . . .
      . . . .`);
    expect(floodRegion(image, [0, 0], { barrier }).area).toBe(1);
    expect(floodRegion(image, [1, 0], { barrier })).toMatchObject({ area: 0, bounds: null });
    expect(floodRegion(image, [0, 0], { tolerance: 1, only: 1 }).area).toBe(3);
    expect(floodRegion(image, [0, 0], { tolerance: Number.POSITIVE_INFINITY }).area).toBe(12);
    expect(floodRegion(image, [0, 0], { only: [2] }).area).toBe(0);
  });

  it('measures tolerance from the seed, channel by channel', () => {
    const ramp = raster(Uint8Array.from([0, 9, 3, 9, 6, 9, 3, 8]), [4, 1, 2]);
    expect(floodRegion(ramp, [0, 0], { tolerance: [3, 0] }).area).toBe(2);
    expect(floodRegion(ramp, [2, 0], { tolerance: 3 }).area).toBe(3);
    expect(
      floodRegion(ramp, [0, 0], {
        tolerance: 9,
        only: [
          [0, 9],
          [3, 9],
        ],
      }).area,
    ).toBe(2);
  });

  it('finds nothing like a value that is not a number', () => {
    const floats = raster(Float32Array.from([Number.NaN, Number.NaN, 1, 1]), [2, 2]);
    expect(floodRegion(floats, [0, 0], { tolerance: Number.POSITIVE_INFINITY }).area).toBe(0);
    expect(floodRegion(floats, [0, 1]).area).toBe(2);
  });

  it('equals the labeled component of any pixel, in the eight symmetries and all views', () => {
    const random = seeded(3);
    const noise = raster(
      Uint8Array.from({ length: 35 * 11 }, () => Math.floor(random() * 2)),
      [35, 11],
    );
    for (const turned of symmetries(noise)) {
      const [w, h] = turned.shape as [number, number];
      for (const view of [turned, ...otherViews(turned)]) {
        for (const connectivity of BOTH) {
          const components = labelEqual(view, { connectivity }).labels;
          for (let k = 0; k < 12; k++) {
            const [x, y] = [Math.floor(random() * w), Math.floor(random() * h)];
            const id = components.get(x, y);
            const expected = Uint8Array.from(components.data, (v) => (v === id ? 1 : 0));
            const { mask: found, area } = floodRegion(view, [x, y], { connectivity });
            expect(found.data).toEqual(expected);
            expect(area).toBe(expected.reduce((a, b) => a + b));
          }
        }
      }
    }
  });

  it('equals the labeled component on worst cases', () => {
    for (const [name, worst] of Object.entries(worstCases(67, 41))) {
      for (const connectivity of BOTH) {
        const components = labelEqual(worst, { connectivity }).labels;
        for (const [x, y] of [
          [0, 0],
          [33, 20],
          [66, 40],
          [1, 0],
        ] as const) {
          const id = components.get(x, y);
          const { mask: found } = floodRegion(worst, [x, y], { connectivity });
          expect(found.data, name).toEqual(
            Uint8Array.from(components.data, (v) => (v === id ? 1 : 0)),
          );
        }
      }
    }
  });

  it('takes rasters past 65,535 either way', () => {
    const wide = raster(new Uint8Array(70_000 * 2), [70_000, 2]);
    wide.set(69_999, 0, 1);
    expect(floodRegion(wide, [0, 0])).toMatchObject({ area: 139_999, bounds: [0, 0, 70_000, 2] });
    const tall = raster(new Uint16Array(70_000 * 2), [2, 70_000]);
    expect(floodRegion(tall, [1, 69_999]).area).toBe(140_000);
  });
});

describe('floodFill', () => {
  it('equals a flood by a plain queue: all kinds, channels, tolerances, barriers', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...KINDS),
        fc.integer({ min: 1, max: 70 }),
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: 1, max: 3 }),
        fc.constantFrom(...BOTH),
        fc.constantFrom(0, 1, 2),
        fc.constantFrom('none', 'barrier', 'only', 'both'),
        fc.nat(),
        (Kind, w, h, channels, connectivity, limit, limits, seed) => {
          const random = seeded(seed);
          const data: RasterData = new Kind(w * h * channels);
          for (let i = 0; i < data.length; i++) data[i] = Math.floor(random() ** 2 * 4);
          const barrier = raster(
            Uint8Array.from({ length: w * h }, () => (random() < 0.1 ? 1 : 0)),
            [w, h],
          );
          const seedAt = [Math.floor(random() * w), Math.floor(random() * h)] as const;
          const tolerance = Array.from({ length: channels }, (_, c) =>
            c === 0 ? limit : limit + 1,
          );
          const only =
            channels === 1 ? [0, 1, 2] : [0, 1, 2].map((v) => new Array(channels).fill(v));
          const [useBarrier, useOnly] = [/barrier|both/.test(limits), /only|both/.test(limits)];
          const may = (p: number): boolean =>
            (!useBarrier || barrier.data[p] === 0) &&
            (!useOnly ||
              [0, 1, 2].some((v) => tolerance.every((_, c) => data[p * channels + c] === v)));
          const found = oracle(data, [w, h, channels], seedAt, connectivity, tolerance, may);
          const expected = data.slice() as RasterData;
          const changedMask = new Uint8Array(w * h);
          found.forEach((v, p) => {
            for (let c = 0; v === 1 && c < channels; c++) {
              if (expected[p * channels + c] !== 2 + c) changedMask[p] = 1;
              expected[p * channels + c] = 2 + c;
            }
          });
          const target = raster(data, channels === 1 ? [w, h] : [w, h, channels]);
          const value = Array.from({ length: channels }, (_, c) => 2 + c);
          const options = {
            connectivity,
            tolerance,
            ...(useBarrier ? { barrier } : {}),
            ...(useOnly ? { only } : {}),
          };
          const { mask: region, area } = floodRegion(target, seedAt, options);
          expect(region.data).toEqual(found);
          expect(area).toBe(found.reduce((a, b) => a + b, 0));
          const { changed, bounds } = floodFill(target, seedAt, value, options);
          expect(target.data).toEqual(expected);
          expect(changed).toBe(changedMask.reduce((a, b) => a + b, 0));
          expect(bounds).toEqual(boundsOf(changedMask, w));
        },
      ),
      { numRuns: 400 },
    );
  });

  it('changes views in place and nothing beside them', () => {
    const image = labels(`
      1 1 2
      2 1 2`);
    for (const view of otherViews(image)) {
      const before = Int32Array.from(view.data);
      expect(floodFill(view, [0, 0], 9)).toEqual({ changed: 3, bounds: [0, 0, 2, 2] });
      expect(grid(view)).toBe(literal('9 9 2\n2 9 2'));
      const differing = view.data.filter((v, i) => v !== before[i]);
      expect([...differing]).toEqual([9, 9, 9]);
    }
  });

  it('changes nothing where the value is there already', () => {
    const image = labels('3 3 3');
    expect(floodFill(image, [1, 0], 3)).toEqual({ changed: 0, bounds: null });
  });

  it('refuses bad arguments before anything is changed', () => {
    const image = raster(new Uint8Array(6), [3, 2]);
    const call =
      (...rest: unknown[]) =>
      () =>
        (floodFill as (...all: unknown[]) => unknown)(image, ...rest);
    expect(call([3, 0], 1)).toThrow(
      new RangeError('seed must be inside the raster of 3 × 2, got [3, 0]'),
    );
    expect(call([0, 0], 256)).toThrow(
      'value must be a whole number from 0 to 255, as Uint8Array holds, got 256',
    );
    expect(call([0, 0], 1, { tolerance: -1 })).toThrow('tolerance must be a number >= 0, got -1');
    expect(call([0, 0], 1, { tolerance: [1, 1] })).toThrow('tolerance must be a number >= 0');
    expect(call([0, 0], 1, { connectivity: 6 })).toThrow('connectivity must be one of 4, 8, got 6');
    expect(call([0, 0], 1, { barrier: image })).toThrow('barrier must share no memory with target');
    expect(call([0, 0], 1, { barier: image })).toThrow('did you mean "barrier"');
    expect(call([0, 0], 1, { only: ['a'] })).toThrow('only[0] must be a number, got "a"');
    expect(image.data.every((v) => v === 0)).toBe(true);
  });

  // OpenCV floodFill with FLOODFILL_FIXED_RANGE: differences to the seed, limits on both sides.
  it('equals OpenCV floodFill with a fixed range', async () => {
    const { cv } = await loadOpenCV();
    for (let seed = 0; seed < 80; seed++) {
      const random = seeded(seed);
      const [w, h] = [20 + (seed % 50), 37];
      const data = Uint8Array.from({ length: w * h }, () => Math.floor(random() ** 2 * 6));
      const tolerance = seed % 3;
      const [x, y] = [Math.floor(random() * w), Math.floor(random() * h)];
      for (const connectivity of BOTH) {
        const mat = cv.matFromArray(h, w, cv.CV_8UC1, [...data]);
        const border = cv.Mat.zeros(h + 2, w + 2, cv.CV_8UC1);
        const limit = new cv.Scalar(tolerance);
        const flags = connectivity | cv.FLOODFILL_FIXED_RANGE;
        const rect = new cv.Rect();
        cv.floodFill(
          mat,
          border,
          new cv.Point(x, y),
          new cv.Scalar(200),
          rect,
          limit,
          limit,
          flags,
        );
        const ours = raster(data.slice(), [w, h]);
        floodFill(ours, [x, y], 200, { tolerance, connectivity });
        expect(ours.data).toEqual(Uint8Array.from(mat.data));
        mat.delete();
        border.delete();
      }
    }
  });
});
