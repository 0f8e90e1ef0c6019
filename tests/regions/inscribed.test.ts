import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { raster } from '../../src/raster/index.ts';
import { inscribedDiscs } from '../../src/regions/inscribed.ts';
import { labels, mask, symmetries, worstCases } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

type Found = Map<number, { center: number; square: number }>;

function flat<D extends Uint8Array | Int32Array>(r: NdArray<D>): number[] {
  const [w, h] = r.shape as [number, number];
  return Array.from({ length: w * h }, (_, i) => r.get(i % w, Math.floor(i / w)) as number);
}

/** The pixel of each region, off the ink where it has such pixels, farthest from all others. */
function bruteForce(ids: number[], w: number, h: number, ink?: number[]): Found {
  const paper = new Set(ids.filter((_, i) => ink?.[i] !== 1));
  const value = ids.map((id, i) => (ink?.[i] === 1 && paper.has(id) ? 0 : id));
  const found: Found = new Map();
  for (let p = 0; p < ids.length; p++) {
    const id = value[p]!;
    if (id === 0) continue;
    const [x, y] = [p % w, Math.floor(p / w)];
    let square = Math.min(x + 1, y + 1, w - x, h - y) ** 2;
    for (let q = 0; q < ids.length; q++) {
      if (value[q] === id) continue;
      square = Math.min(square, ((q % w) - x) ** 2 + (Math.floor(q / w) - y) ** 2);
    }
    if (square > (found.get(id)?.square ?? 0)) found.set(id, { center: p, square });
  }
  return found;
}

function discs(ids: number[], w: number, h: number, ink?: number[]): Found {
  const length = 1 + ids.reduce((a, b) => Math.max(a, b), 0);
  const given = ink === undefined ? undefined : Uint8Array.from(ink);
  const { center, square } = inscribedDiscs(Int32Array.from(ids), w, h, length, given);
  const found: Found = new Map();
  for (let id = 1; id < length; id++) {
    if (center[id]! >= 0) found.set(id, { center: center[id]!, square: square[id]! });
    else expect(square[id]).toBe(0);
  }
  return found;
}

const byId = (found: Found) => [...found].sort(([a], [b]) => a - b);

describe('inscribedDiscs', () => {
  it('takes the farthest pixel of each region, the first of equal ones', () => {
    const ids = flat(
      labels(`
      1 1 1 2 2
      1 1 1 2 2
      1 1 1 2 2`),
    );
    expect(byId(discs(ids, 5, 3))).toEqual([
      [1, { center: 6, square: 4 }],
      [2, { center: 3, square: 1 }],
    ]);
  });

  it('keeps to the paper, and to the ink where a region has nothing else', () => {
    const ids = flat(
      labels(`
      1 1 1 1 1 3
      1 1 1 1 1 3
      1 1 1 1 1 3`),
    );
    const ink = flat(
      mask(`
      . . 1 . . 1
      . . 1 . . 1
      . . 1 1 1 1`),
    );
    expect(byId(discs(ids, 6, 3, ink))).toEqual([
      [1, { center: 0, square: 1 }],
      [3, { center: 5, square: 1 }],
    ]);
  });

  it('agrees with a search of all pixels on worst cases and their symmetries', () => {
    const random = seeded(5);
    for (const [w, h] of [
      [1, 1],
      [1, 13],
      [17, 1],
      [23, 19],
      [31, 12],
    ] as const) {
      for (const [name, m] of Object.entries(worstCases(w, h))) {
        const ink = raster(
          Uint8Array.from(m.data, () => (random() < 0.2 ? 1 : 0)),
          [w, h],
        );
        // Ids in blocks of 6 with holes of none, so that regions meet, touch and lie apart.
        const ids = raster(
          Int32Array.from(m.data, (v, i) =>
            v === 1 ? 0 : 1 + Math.floor((i % w) / 6) + 3 * Math.floor(Math.floor(i / w) / 6),
          ),
          [w, h],
        );
        const inks = symmetries(ink);
        symmetries(ids).forEach((view, k) => {
          const [vw, vh] = view.shape as [number, number];
          const at = flat(view);
          const under = flat(inks[k]!);
          expect(byId(discs(at, vw, vh)), name).toEqual(byId(bruteForce(at, vw, vh)));
          const found = byId(discs(at, vw, vh, under));
          expect(found, name).toEqual(byId(bruteForce(at, vw, vh, under)));
        });
      }
    }
  });

  it('agrees on regions with ids at random', () => {
    const random = seeded(77);
    for (let round = 0; round < 60; round++) {
      const [w, h] = [1 + Math.floor(random() * 18), 1 + Math.floor(random() * 18)];
      const few = 1 + Math.floor(random() * 4);
      const ids = Array.from({ length: w * h }, () => Math.floor(random() * few * 1.3));
      expect(byId(discs(ids, w, h))).toEqual(byId(bruteForce(ids, w, h)));
    }
  });

  it('goes past 65,535 columns and rows', () => {
    const n = 70_001;
    const ids = new Array<number>(3 * n).fill(4);
    expect(byId(discs(ids, n, 3))).toEqual([[4, { center: n + 1, square: 4 }]]);
    expect(byId(discs(ids, 3, n))).toEqual([[4, { center: 4, square: 4 }]]);
    expect(byId(discs(ids, 1, 3 * n))).toEqual([[4, { center: 0, square: 1 }]]);
  });
});
