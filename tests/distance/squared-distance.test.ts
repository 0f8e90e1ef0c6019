import fc from 'fast-check';
import type { NdArray } from 'ndarray';
import { beforeAll, describe, expect, it } from 'vitest';
import { FARTHEST, squaredDistance } from '../../src/distance/squared-distance.ts';
import { raster } from '../../src/raster/index.ts';
import { grid, literal, mask, symmetries, worstCases } from '../support/grids.ts';
import { loadOpenCV } from '../support/opencv.ts';

const FAR = FARTHEST * FARTHEST;

/** The least of the squared distances to all pixels that are not 0. */
function bruteForce(r: NdArray<Uint8Array>): number[] {
  const [w, h] = r.shape as [number, number];
  const set: [number, number][] = [];
  for (let y = 0; y < h; y++) for (let x = 0; x < w; x++) if (r.get(x, y) !== 0) set.push([x, y]);
  return Array.from({ length: w * h }, (_, i) => {
    const [x, y] = [i % w, Math.floor(i / w)];
    return set.reduce((best, [u, v]) => Math.min(best, (u - x) ** 2 + (v - y) ** 2), FAR);
  });
}

/** A view's pixels, row by row, with its sides. */
function flat(r: NdArray<Uint8Array>): [Uint8Array, number, number] {
  const [w, h] = r.shape as [number, number];
  return [Uint8Array.from({ length: w * h }, (_, i) => r.get(i % w, Math.floor(i / w))), w, h];
}

const sizes = [
  [1, 1],
  [1, 13],
  [17, 1],
  [31, 29],
  [53, 19],
] as const;

describe('squaredDistance', () => {
  it('measures between pixel centers', () => {
    const [data, w, h] = flat(
      mask(`
      . . . .
      . . . .
      . 1 . .`),
    );
    expect(grid(raster(squaredDistance(data, w, h), [w, h]))).toBe(
      literal(`
      5 4 5 8
      2 1 2 5
      1 . 1 4`),
    );
  });

  it('agrees with a search of all pixels on worst cases and their symmetries', () => {
    for (const [w, h] of sizes) {
      for (const [name, m] of Object.entries(worstCases(w, h))) {
        for (const view of symmetries(m)) {
          const found = squaredDistance(...flat(view));
          expect([...found], `${name} ${w} × ${h}`).toEqual(bruteForce(view));
        }
      }
    }
  });

  it('agrees with a search of all pixels on a few pixels anywhere', () => {
    const scene = fc
      .tuple(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 40 }))
      .chain(([w, h]) =>
        fc.tuple(
          fc.constant([w, h] as const),
          fc.array(fc.nat(w * h - 1), { minLength: 1, maxLength: 6 }),
        ),
      );
    fc.assert(
      fc.property(scene, ([[w, h], pixels]) => {
        const m = raster(new Uint8Array(w * h), [w, h]);
        for (const p of pixels) m.data[p] = 1;
        expect([...squaredDistance(m.data, w, h)]).toEqual(bruteForce(m));
      }),
    );
  });

  it('is exact up to the farthest distance in one row and one column, alike beyond', () => {
    const n = 100_003;
    const data = new Uint8Array(n);
    data[3] = 1;
    const wanted = Int32Array.from(data, (_, i) => Math.min((i - 3) ** 2, FAR));
    expect(squaredDistance(data, n, 1)).toEqual(wanted);
    expect(squaredDistance(data, 1, n)).toEqual(wanted);
    expect(squaredDistance(new Uint8Array(n), n, 1)).toEqual(new Int32Array(n).fill(FAR));
  });

  it('goes past 65,535 columns where both ends count', () => {
    const n = 70_001;
    const data = new Uint8Array(2 * n);
    data[0] = 1;
    data[2 * n - 1] = 1;
    const found = squaredDistance(data, n, 2);
    const wanted = Int32Array.from(data, (_, i) => {
      const [x, y] = [i % n, Math.floor(i / n)];
      return Math.min(x ** 2 + y ** 2, (n - 1 - x) ** 2 + (1 - y) ** 2);
    });
    expect(found).toEqual(wanted);
  });
});

// Source: OpenCV, `distanceTransform` with DIST_MASK_PRECISE (general-purpose computer vision
// library), via opencv-js. It gives 32 bit floats.
describe('beside OpenCV', () => {
  let cv: Awaited<ReturnType<typeof loadOpenCV>>['cv'];
  beforeAll(async () => {
    ({ cv } = await loadOpenCV());
  });

  it('measures the same', () => {
    for (const [w, h] of [...sizes, [211, 173]] as const) {
      const { noise, sparse, spiral } = worstCases(w, h);
      for (const m of [noise!, sparse!, spiral!]) {
        if (!m.data.includes(1)) continue;
        const source = cv.matFromArray(
          h,
          w,
          cv.CV_8UC1,
          [...m.data].map((v) => 1 - v),
        );
        const target = new cv.Mat();
        cv.distanceTransform(source, target, cv.DIST_L2, cv.DIST_MASK_PRECISE);
        const theirs = target.data32F;
        squaredDistance(m.data, w, h).forEach((square, i) => {
          const error = Math.abs(Math.sqrt(square) - theirs[i]!);
          expect(error).toBeLessThan(1e-5 * (1 + Math.sqrt(square)));
        });
        source.delete();
        target.delete();
      }
    }
  });
});
