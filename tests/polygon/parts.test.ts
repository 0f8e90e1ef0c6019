import { describe, expect, it } from 'vitest';
import { CornerGrid } from '../../src/polygon/corner-grid.ts';
import { firstCenter } from '../../src/polygon/edges.ts';
import { outlineRegions } from '../../src/polygon/outline.ts';
import { decimals, pixelInside, ringData, scaledRingData } from '../../src/polygon/ring-data.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Point } from '../../src/raster/types.ts';
import { seeded } from '../support/random.ts';

describe('firstCenter', () => {
  it('is the number of centers before a place, within the raster', () => {
    const size = 6;
    const near = [-3, 0, 0.25, 0.5, 1, 2.5, 5, 5.5, 6, 7, 1e9];
    for (const v of near.flatMap((at) => [at - 2 ** -40, at, at + 2 ** -40])) {
      const before = [0, 1, 2, 3, 4, 5].filter((p) => p + 0.5 < v).length;
      expect(firstCenter(v, size)).toBe(before);
    }
    expect(firstCenter(Number.POSITIVE_INFINITY, size)).toBe(size);
  });
});

describe('path data', () => {
  it('steps along rows and columns, and slanted from the point before', () => {
    const ring: Point[] = [
      [2, 1],
      [5, 1],
      [5, 4],
      [3, 6],
      [2, 6],
    ];
    expect(ringData(ring)).toBe('M2 1h3v3l-2 2h-1z');
    expect(scaledRingData(ring.slice(0, 3), [0.25, 1 / 3])).toBe(
      'M0.5 0.3333L1.25 0.3333L1.25 1.3333z',
    );
    expect(ringData([])).toBe('M0 0z');
  });

  it('has at most four decimals', () => {
    expect([1.00004, 1.00005, -2.5, 3, 1e-9, 12.34567].map(decimals)).toEqual([
      '1',
      '1.0001',
      '-2.5',
      '3',
      '0',
      '12.3457',
    ]);
  });
});

describe('pixelInside', () => {
  it('is the middle of the widest span of the middle row, of the region', () => {
    const random = seeded(41);
    for (let n = 0; n < 120; n++) {
      const [w, h] = [1 + Math.floor(12 * random()), 1 + Math.floor(9 * random())];
      const ids = Int32Array.from({ length: w * h }, () => 1 + Math.floor(3 * random()));
      for (const { label, rings } of outlineRegions(raster(ids, [w, h]))) {
        const ys = rings[0]!.map(([, y]) => y);
        const row = Math.floor((Math.min(...ys) + Math.max(...ys) - 1) / 2);
        // Even-odd by the crossings left of each center, in whole pixels.
        const isIn = Array.from({ length: w }, (_, x) => {
          let crossings = 0;
          for (const ring of rings) {
            ring.forEach(([x1, y1], i) => {
              const [x0, y0] = ring.at(i - 1)!;
              const passes = Math.min(y0, y1) < row + 0.5 && Math.max(y0, y1) > row + 0.5;
              if (passes && x0 === x1 && x0 <= x) crossings++;
            });
          }
          return crossings % 2 === 1;
        });
        let [best, most] = [-1, 0];
        for (let x = 0; x < w; x++) {
          if (!isIn[x] || isIn[x - 1]) continue;
          let end = x;
          while (isIn[end]) end++;
          if (end - x > most) [best, most] = [Math.floor((x + end) / 2), end - x];
        }
        expect(pixelInside(rings)).toEqual([best, row]);
        expect(ids[row * w + best]).toBe(label);
      }
    }
  });
});

describe('simplified outlines', () => {
  const stairs = (is: (x: number, y: number) => number) =>
    raster(
      Int32Array.from({ length: 64 }, (_, p) => is(p % 8, Math.floor(p / 8))),
      [8, 8],
    );

  it('of a staircase are one straight line, of which both regions have the ends', () => {
    const outlines = outlineRegions(
      stairs((x, y) => (x <= y ? 1 : 2)),
      { simplify: 4 },
    );
    expect(outlines.map(({ rings }) => rings)).toEqual([
      [
        [
          [0, 0],
          [1, 0],
          [8, 7],
          [8, 8],
          [0, 8],
        ],
      ],
      [
        [
          [1, 0],
          [8, 0],
          [8, 7],
        ],
      ],
    ]);
  });

  it('keep a stroke between two regions open, and a region inside another an area', () => {
    // Two staircases side by side from corner to corner, one pixel apart.
    const lens = stairs((x, y) => (x === y ? 3 : x < y ? 1 : 2));
    for (const simplify of [1, 2, 4, 8]) {
      const [one] = outlineRegions(lens, { simplify }).filter(({ label }) => label === 3);
      expect(one!.rings[0]!.length).toBeGreaterThanOrEqual(3);
      const island = stairs((x, y) => (x > 2 && x < 6 && y > 2 && y < 5 ? 2 : 1));
      const rings = outlineRegions(island, { simplify }).map((outline) => outline.rings.length);
      expect(rings).toEqual([2, 1]);
    }
  });
});

describe('CornerGrid', () => {
  it('finds any other corner in or on a triangle, beside those at its first and last corner', () => {
    const random = seeded(42);
    let [empty, full] = [0, 0];
    for (let n = 0; n < 60; n++) {
      const [w, h] = [1 + Math.floor(60 * random()), 1 + Math.floor(40 * random())];
      const count = 4 + Math.floor(30 * random());
      const at = (side: number) => Math.floor((side + 1) * random());
      const points = Int32Array.from({ length: 2 * count }, (_, i) => at(i % 2 === 0 ? w : h));
      const grid = new CornerGrid(points, w, h);
      const left = new Set(Array.from({ length: count }, (_, i) => i));
      const place = (i: number) => [points[2 * i]!, points[2 * i + 1]!] as const;
      while (left.size > 3) {
        for (let k = 0; k < 12; k++) {
          const [a, b, c] = [0, 1, 2].map(() => [...left][Math.floor(left.size * random())]!);
          if (new Set([a, b, c]).size < 3) continue;
          const [[ax, ay], [bx, by], [cx, cy]] = [place(a!), place(b!), place(c!)];
          if ((bx - ax) * (cy - ay) === (by - ay) * (cx - ax)) continue;
          const inside = [...left].filter((i) => {
            const [x, y] = place(i);
            if (i === a || i === b || i === c) return false;
            if ((x === ax && y === ay) || (x === cx && y === cy)) return false;
            const turns = [
              (bx - ax) * (y - ay) - (by - ay) * (x - ax),
              (cx - bx) * (y - by) - (cy - by) * (x - bx),
              (ax - cx) * (y - cy) - (ay - cy) * (x - cx),
            ];
            return turns.every((turn) => turn >= 0) || turns.every((turn) => turn <= 0);
          });
          expect(grid.isEmpty(a!, b!, c!)).toBe(inside.length === 0);
          if (inside.length === 0) empty++;
          else full++;
        }
        const gone = [...left][Math.floor(left.size * random())]!;
        left.delete(gone);
        grid.remove(gone);
      }
    }
    expect(Math.min(empty, full)).toBeGreaterThan(500);
  });
});
