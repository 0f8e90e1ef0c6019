import fc from 'fast-check';
import type { NdArray } from 'ndarray';
import { beforeAll, describe, expect, it } from 'vitest';
import { raster } from '../../src/raster/index.ts';
import { labelEqual, labelRegions, relabel } from '../../src/regions/index.ts';
import {
  grid,
  labels,
  literal,
  mask,
  otherViews,
  symmetries,
  worstCases,
} from '../support/grids.ts';
import { loadOpenCV } from '../support/opencv.ts';

/** Flood by an explicit stack, the plainest labeling there is. */
function flood(r: NdArray<Uint8Array>, of: number, connectivity: number): number[] {
  const [w, h] = r.shape as [number, number];
  const found = new Array<number>(w * h).fill(0);
  let count = 0;
  for (let i = 0; i < w * h; i++) {
    if (found[i] !== 0 || r.get(i % w, Math.floor(i / w)) !== of) continue;
    const stack = [i];
    found[i] = ++count;
    while (stack.length > 0) {
      const at = stack.pop()!;
      const [x, y] = [at % w, Math.floor(at / w)];
      for (let dy = -1; dy <= 1; dy++) {
        for (let dx = -1; dx <= 1; dx++) {
          const [u, v] = [x + dx, y + dy];
          if (u < 0 || v < 0 || u >= w || v >= h) continue;
          if (connectivity === 4 && dx !== 0 && dy !== 0) continue;
          if (found[v * w + u] !== 0 || r.get(u, v) !== of) continue;
          found[v * w + u] = count;
          stack.push(v * w + u);
        }
      }
    }
  }
  return found;
}

const sizes = [
  [1, 1],
  [1, 7],
  [31, 5],
  [32, 6],
  [33, 9],
  [97, 61],
] as const;

describe('labelRegions', () => {
  it('tells the two connectivities apart', () => {
    const m = mask(`
      1 1 . .
      . . 1 .
      1 . . 1`);
    expect(grid(labelRegions(m).labels)).toBe(
      literal(`
      1 1 . .
      . . 2 .
      3 . . 4`),
    );
    expect(grid(labelRegions(m, { connectivity: 8 }).labels)).toBe(
      literal(`
      1 1 . .
      . . 1 .
      2 . . 1`),
    );
    expect(labelRegions(m, { of: 0 }).count).toBe(2);
  });

  it('agrees with a flood on worst cases, both values, both connectivities', () => {
    for (const [w, h] of sizes) {
      for (const [name, m] of Object.entries(worstCases(w, h))) {
        for (const of of [0, 1] as const) {
          for (const connectivity of [4, 8] as const) {
            const { labels: found, count } = labelRegions(m, { of, connectivity });
            const truth = flood(m, of, connectivity);
            expect([...found.data], `${name} ${w} × ${h}`).toEqual(truth);
            expect(count).toBe(truth.reduce((a, b) => Math.max(a, b), 0));
          }
        }
      }
    }
  });

  it('gives the same for every symmetry and view', () => {
    const m = worstCases(37, 23).noise!;
    for (const view of [...symmetries(m), ...otherViews(m)]) {
      expect([...labelRegions(view).labels.data]).toEqual(flood(view, 1, 4));
    }
  });

  it('goes past 65,535 columns and rows', () => {
    const n = 70_001;
    const data = Uint8Array.from({ length: n }, (_, i) => (i + 1) & 1);
    expect(labelRegions(raster(data, [n, 1])).count).toBe(35_001);
    expect(labelRegions(raster(data, [1, n])).count).toBe(35_001);
    expect(labelRegions(raster(data, [1, n]), { of: 0 }).count).toBe(35_000);
  });

  it('writes into a given raster', () => {
    const m = mask('1 . 1');
    const out = labels('9 9 9');
    expect(labelRegions(m, { out }).labels).toBe(out);
    expect(grid(out)).toBe('1 . 2');
  });

  it('refuses what is no mask, naming what came', () => {
    const coverage = raster(new Uint8Array([0, 90, 255]), [3, 1]);
    expect(() => labelRegions(coverage)).toThrow(
      /^mask must hold 0 or 1, got 90 at \[1, 0\]; .*coverage/,
    );
    const scaled = raster(new Uint8Array([0, 255]), [2, 1]);
    expect(() => labelRegions(scaled)).toThrow(/mask of 0 and 255/);
    expect(() => labelRegions(labels('1 2') as never)).toThrow(TypeError);
    expect(() => labelRegions(raster(new Uint8Array(12), [2, 2, 3]))).toThrow(/3 channels/);
    expect(() => labelRegions(mask('1'), { conectivity: 8 } as never)).toThrow(
      /did you mean "connectivity"/,
    );
    expect(() => labelRegions(mask('1'), { connectivity: 6 as never })).toThrow(
      /connectivity must be one of 4, 8, got 6/,
    );
    expect(() => labelRegions({ data: new Uint8Array(0), width: 0, height: 4 })).toThrow(
      RangeError,
    );
  });
});

// Source: OpenCV, `connectedComponents` (general-purpose computer vision library), via opencv-js.
describe('beside OpenCV', () => {
  let cv: Awaited<ReturnType<typeof loadOpenCV>>['cv'];
  beforeAll(async () => {
    ({ cv } = await loadOpenCV());
  });

  it('finds the same components', () => {
    for (const [w, h] of sizes) {
      for (const m of Object.values(worstCases(w, h))) {
        for (const connectivity of [4, 8] as const) {
          const source = cv.matFromArray(h, w, cv.CV_8UC1, [...m.data]);
          const target = new cv.Mat();
          const count = cv.connectedComponents(source, target, connectivity, cv.CV_32S) - 1;
          const found = labelRegions(m, { connectivity });
          expect(found.count).toBe(count);
          const theirs = raster(Int32Array.from(target.data32S), [w, h]);
          expect([...found.labels.data]).toEqual([...relabel(theirs).labels.data]);
          source.delete();
          target.delete();
        }
      }
    }
  });
});

describe('labelEqual', () => {
  it('labels every value', () => {
    const { labels: found, count } = labelEqual(
      labels(`
      7 7 .
      . 7 7`),
    );
    expect(count).toBe(3);
    expect(grid(found)).toBe(
      literal(`
      1 1 2
      3 1 1`),
    );
    expect(labelEqual(labels('5 5 0 5'), { background: 5 }).labels.data.join()).toBe('0,0,1,0');
  });

  it('compares all channels', () => {
    const pixels = raster(new Uint8Array([1, 2, 3, 1, 2, 3, 1, 2, 4]), [3, 1, 3]);
    expect(labelEqual(pixels).labels.data.join()).toBe('1,1,2');
  });

  it('splits a random picture as the masks of its values do', () => {
    const picture = fc.tuple(
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 20 }),
      fc.nat(),
    );
    fc.assert(
      fc.property(
        picture,
        fc.constantFrom(4 as const, 8 as const),
        ([w, h, seed], connectivity) => {
          const noise = worstCases(w, h + (seed % 3)).noise!;
          const values = raster(
            Uint8Array.from(noise.data, (v, i) => v + ((i * 31 + seed) % 5 === 0 ? 1 : 0)),
            noise.shape,
          );
          const { labels: found, count } = labelEqual(values, { connectivity });
          let total = 0;
          for (const value of [0, 1, 2]) {
            const m = raster(
              Uint8Array.from(values.data, (v) => (v === value ? 1 : 0)),
              values.shape,
            );
            const part = labelRegions(m, { connectivity });
            total += part.count;
            const seen = Int32Array.from(found.data, (id, i) =>
              values.data[i] === value ? id : 0,
            );
            expect([...relabel(raster(seen, values.shape)).labels.data]).toEqual([
              ...part.labels.data,
            ]);
          }
          expect(count).toBe(total);
        },
      ),
    );
  });
});
