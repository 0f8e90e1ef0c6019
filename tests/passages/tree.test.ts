import fc from 'fast-check';
import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { type PassageTree, passageTree } from '../../src/passages/index.ts';
import { raster } from '../../src/raster/index.ts';
import { labelEqual, labelRegions } from '../../src/regions/index.ts';
import { blots } from '../gaps/blots.ts';
import { grid, literal, mask, otherViews, symmetries, worstCases } from '../support/grids.ts';

/** Two rooms of 14 × 17 pixels and a wall of any thickness, with a door in its middle. */
function rooms(door: number, wall: number): NdArray<Uint8Array> {
  const [w, h] = [30 + wall, 19];
  const ink = raster(new Uint8Array(w * h), [w, h]);
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      const frame = x === 0 || y === 0 || x === w - 1 || y === h - 1;
      const inWall = x >= 15 && x < 15 + wall && (y < 8 || y >= 8 + door);
      if (frame || inWall) ink.set(x, y, 1);
    }
  }
  return ink;
}

/** A ring of ink with gaps at its left and right. */
function ring(left: number, right: number): NdArray<Uint8Array> {
  const ink = raster(new Uint8Array(61 * 61), [61, 61]);
  for (let y = 0; y < 61; y++) {
    for (let x = 0; x < 61; x++) {
      const square = (x - 30) ** 2 + (y - 30) ** 2;
      const gap = x < 30 ? left : right;
      if (square > 256 && square < 361 && Math.abs(y - 30) >= gap / 2) ink.set(x, y, 1);
    }
  }
  return ink;
}

function count(tree: PassageTree, maxGap: number, ratio?: number): number {
  const { data } = tree.partition(maxGap, ratio === undefined ? undefined : { ratio });
  return data.reduce((most, id) => Math.max(most, id), 0);
}

const scenes = fc.record({
  w: fc.integer({ min: 1, max: 40 }),
  h: fc.integer({ min: 1, max: 40 }),
  seed: fc.nat(),
});

describe('passageTree', () => {
  it('knows a door by its pixels of paper, and its jambs', () => {
    for (const wall of [1, 2, 3, 6]) {
      for (const door of [1, 2, 3, 4, 5, 6]) {
        const tree = passageTree(rooms(door, wall));
        const { length, at, from, to, width, opens, around } = tree.passages;
        expect([length, width[0], around[0]], `${door} in ${wall}`).toEqual([1, door, door]);
        expect([from[0], to[0]]).toEqual([at[0], at[0]]);
        expect([from[1], to[1]].sort((a, b) => a! - b!)).toEqual([7, 8 + door]);
        expect(Math.abs(at[0]! - (14.5 + wall / 2))).toBeLessThanOrEqual(0.5);
        expect(opens[0]).toBeGreaterThanOrEqual(7);
        expect(count(tree, door - 0.5, 1.5)).toBe(1);
        expect(count(tree, door, 1.5)).toBe(2);
      }
    }
  });

  it('parts regions in the passage', () => {
    const ink = mask(`
      1 1 1 1 1 1 1 1 1 1 1
      1 . . . . 1 . . . . 1
      1 . . . . 1 . . . . 1
      1 . . . . . . . . . 1
      1 . . . . 1 . . . . 1
      1 . . . . 1 . . . . 1
      1 1 1 1 1 1 1 1 1 1 1`);
    const found = grid(passageTree(ink).partition(1, { ratio: 2 }));
    expect(found).toBe(
      literal(`
      . . . . . . . . . . .
      . 1 1 1 1 . 2 2 2 2 .
      . 1 1 1 1 . 2 2 2 2 .
      . 1 1 1 1 1 2 2 2 2 .
      . 1 1 1 1 . 2 2 2 2 .
      . 1 1 1 1 . 2 2 2 2 .
      . . . . . . . . . . .`),
    );
  });

  it('asks how far the paper opens', () => {
    const ink = mask(`
      1 1 1 1 1 1 1 1 1 1 1
      1 . . . 1 . . . . . 1
      1 . . . 1 . . . . . 1
      1 . . . . . . . . . 1
      1 . . . 1 . . . . . 1
      1 . . . 1 . . . . . 1
      1 1 1 1 1 1 1 1 1 1 1`);
    const tree = passageTree(ink);
    expect([...tree.passages.opens]).toEqual([2, 3]);
    expect(count(tree, 1)).toBe(1);
    expect(count(tree, 1, 2)).toBe(2);
  });

  it('finds the gap between the end of a stroke and the side of another', () => {
    const ink = rooms(0, 3);
    for (let x = 15; x < 18; x++) for (let y = 14; y < 18; y++) ink.set(x, y, 0);
    const { passages } = passageTree(ink);
    expect(passages.length).toBe(1);
    expect(passages.width[0]).toBe(4);
    expect([...passages.from, ...passages.to].sort((a, b) => a - b)).toEqual([13, 16, 16, 18]);
  });

  it('measures a gap on the diagonal between the centers of its ink, less a pixel', () => {
    const ink = raster(new Uint8Array(41 * 41), [41, 41]);
    for (let k = 0; k < 41; k++) {
      if (k > 17 && k < 23) continue;
      ink.set(k, k, 1);
      if (k < 40) ink.set(k + 1, k, 1);
    }
    const { passages } = passageTree(ink);
    expect(passages.length).toBe(1);
    expect(passages.width[0]).toBeCloseTo(Math.hypot(23 - 18, 23 - 17) - 1, 12);
    expect(count(passageTree(ink), 7)).toBe(2);
  });

  it('finds every gap of one contour, not only the widest', () => {
    const tree = passageTree(ring(3, 5));
    const { length, width, around, at } = tree.passages;
    expect(length).toBe(2);
    expect([...width]).toEqual([3, 5]);
    expect([...around]).toEqual([5, 5]);
    expect([at[0]! < 30, at[2]! > 30]).toEqual([true, true]);
    expect(count(tree, 4)).toBe(1);
    expect(count(tree, 5)).toBe(2);
  });

  it('takes the border for no wall', () => {
    const ink = raster(new Uint8Array(40 * 30), [40, 30]);
    for (let y = 3; y < 30; y++) for (let x = 19; x < 21; x++) ink.set(x, y, 1);
    const tree = passageTree(ink);
    expect(tree.passages.length).toBe(0);
    expect(count(tree, 1000)).toBe(1);
    expect(count(passageTree(mask('. 1 .\n. 1 .\n. 1 .')), 0)).toBe(2);
  });

  it('finds no passage between a dot and the contour round it', () => {
    const ink = ring(0, 0);
    ink.set(30, 18, 1);
    expect(passageTree(ink).passages.length).toBe(0);
  });

  it('has contacts on ink and nothing but paper between them', () => {
    fc.assert(
      fc.property(scenes, ({ w, h, seed }) => {
        const ink = blots(w, h, seed);
        const { length, at, from, to, width, opens, around } = passageTree(ink).passages;
        for (let i = 0; i < length; i++) {
          const [x0, y0, x1, y1] = [from[2 * i]!, from[2 * i + 1]!, to[2 * i]!, to[2 * i + 1]!];
          expect([ink.get(x0, y0), ink.get(x1, y1)]).toEqual([1, 1]);
          expect(ink.get(at[2 * i]!, at[2 * i + 1]!)).toBe(0);
          expect(width[i]).toBe(Math.sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2) - 1);
          if (i > 0) expect(width[i]).toBeGreaterThanOrEqual(width[i - 1]!);
          expect(around[i]).toBeGreaterThanOrEqual(width[i]!);
          expect(opens[2 * i + 1]).toBeGreaterThanOrEqual(opens[2 * i]!);
          for (let t = 0.75; t <= width[i]! + 0.25; t += 0.25) {
            const share = t / (width[i]! + 1);
            const x = Math.round(x0 + share * (x1 - x0));
            const y = Math.round(y0 + share * (y1 - y0));
            const atContact = (x === x0 && y === y0) || (x === x1 && y === y1);
            expect(atContact || ink.get(x, y) === 0).toBe(true);
          }
        }
      }),
    );
  });

  it('parts what would be parted by lines across its gaps', () => {
    for (const ink of [rooms(3, 1), rooms(4, 5), ring(3, 5), ring(6, 2)]) {
      const tree = passageTree(ink);
      const drawn = raster(ink.data.slice(), ink.shape as [number, number]);
      const { length, from, to, width } = tree.passages;
      for (let i = 0; i < length; i++) {
        const steps = 4 * Math.ceil(width[i]! + 1);
        for (let k = 0; k <= steps; k++) {
          const x = from[2 * i]! + (k / steps) * (to[2 * i]! - from[2 * i]!);
          const y = from[2 * i + 1]! + (k / steps) * (to[2 * i + 1]! - from[2 * i + 1]!);
          for (const u of [0, 1]) drawn.set(Math.round(x) + u, Math.round(y), 1);
        }
      }
      expect(count(tree, 6, 1.5)).toBe(labelRegions(drawn, { of: 0 }).count);
    }
  });
});

describe('partition', () => {
  it('with no gap gives the regions of the paper', () => {
    for (const [w, h] of [
      [1, 1],
      [1, 7],
      [31, 5],
      [33, 9],
      [97, 61],
    ] as const) {
      for (const m of Object.values(worstCases(w, h))) {
        expect(passageTree(m).partition(0).data).toEqual(labelRegions(m, { of: 0 }).labels.data);
      }
    }
  });

  it('gives 4-connected regions, numbered by first pixel', () => {
    fc.assert(
      fc.property(scenes, fc.double({ min: 0, max: 9, noNaN: true }), ({ w, h, seed }, maxGap) => {
        const found = passageTree(blots(w, h, seed)).partition(maxGap, { ratio: 1.25 });
        expect(found.data).toEqual(labelEqual(found, { background: 0 }).labels.data);
      }),
    );
  });

  it('only refines with a larger gap or a smaller ratio', () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        scenes,
        fc.tuple(number(0, 12), number(0, 12)),
        fc.tuple(number(1.25, 3), number(1.25, 3)),
        ({ w, h, seed }, gaps, ratios) => {
          const tree = passageTree(blots(w, h, seed));
          const coarse = tree.partition(Math.min(...gaps), { ratio: Math.max(...ratios) }).data;
          const fine = tree.partition(Math.max(...gaps), { ratio: Math.min(...ratios) }).data;
          const parent = new Map<number, number>();
          fine.forEach((id, i) => {
            if (!parent.has(id)) parent.set(id, coarse[i]!);
            expect(coarse[i]).toBe(parent.get(id));
            expect(id === 0).toBe(coarse[i] === 0);
          });
        },
      ),
    );
  });

  it('gives the same for every view', () => {
    const ink = blots(47, 41, 5);
    const wanted = passageTree(ink).partition(6, { ratio: 1.5 }).data;
    for (const view of otherViews(ink)) {
      expect(passageTree(view).partition(6, { ratio: 1.5 }).data).toEqual(wanted);
    }
  });

  it('turns and mirrors with the drawing, to within a pixel at the borders', () => {
    for (const ink of [rooms(4, 5), rooms(1, 1), ring(3, 5), ring(6, 2)]) {
      const straight = passageTree(ink);
      const wanted = symmetries(straight.partition(6, { ratio: 1.5 }));
      symmetries(ink).forEach((view, k) => {
        const tree = passageTree(view);
        expect([...tree.passages.width]).toEqual([...straight.passages.width]);
        expect([...tree.passages.opens]).toEqual([...straight.passages.opens]);
        const found = tree.partition(6, { ratio: 1.5 });
        const pairs = new Map<string, number>();
        const [w, h] = view.shape as [number, number];
        for (let y = 0; y < h; y++) {
          for (let x = 0; x < w; x++) {
            const pair = `${found.get(x, y)} ${wanted[k]!.get(x, y)}`;
            pairs.set(pair, (pairs.get(pair) ?? 0) + 1);
          }
        }
        // Ink and two regions; beyond those three pairs, the line along which the regions meet.
        const sizes = [...pairs.values()].sort((a, b) => b - a);
        expect(sizes.slice(3).reduce((sum, n) => sum + n, 0)).toBeLessThan(24);
      });
    }
  });

  it('goes past 65,535 columns and rows', () => {
    const n = 70_001;
    const line = Uint8Array.from({ length: n }, (_, i) => (i % 70 === 0 ? 1 : 0));
    const halls = new Uint8Array(9 * n);
    for (let x = 0; x < n; x++)
      for (let y = 0; y < 9; y++) halls[y * n + x] = y === 4 ? 0 : line[x]!;
    for (const shape of [
      [n, 1],
      [1, n],
    ] as const) {
      expect(count(passageTree(raster(line, shape)), 5)).toBe(1000);
      expect(count(passageTree(raster(new Uint8Array(n), shape)), 5)).toBe(1);
    }
    const tree = passageTree(raster(halls, [n, 9]));
    expect(tree.passages.length).toBe(999);
    expect([count(tree, 0), count(tree, 1)]).toEqual([1, 1000]);
  });

  it('writes into a given raster', () => {
    const tree = passageTree(mask('. 1 .\n. 1 .'));
    const out = raster(new Int32Array(6).fill(9), [3, 2]);
    expect(tree.partition(0, { out })).toBe(out);
    expect(grid(out)).toBe('1 . 2\n1 . 2');
  });

  it('does not look at the mask again', () => {
    const ink = rooms(3, 2);
    const tree = passageTree(ink);
    const before = tree.partition(3).data;
    ink.data.fill(1);
    expect(tree.partition(3).data).toEqual(before);
    expect(tree.size).toEqual([32, 19]);
  });

  it('refuses wrong arguments, naming what came', () => {
    const coverage = raster(new Uint8Array([0, 90, 255]), [3, 1]);
    expect(() => passageTree(coverage)).toThrow(/^ink must hold 0 or 1, got 90 at \[1, 0\]/);
    expect(() => passageTree('ink' as never)).toThrow(TypeError);
    const tree = passageTree(mask('. 1 .'));
    expect(() => tree.partition(-3)).toThrow(
      'maxGap must be a finite number of pixels >= 0, got -3',
    );
    expect(() => tree.partition('auto' as never)).toThrow(TypeError);
    expect(() => tree.partition(4, { ratio: 1 })).toThrow(/ratio must be .* >= 1.25, got 1/);
    expect(() => tree.partition(4, { ration: 2 } as never)).toThrow(/did you mean "ratio"/);
    const out = raster(new Int32Array(4), [2, 2]);
    expect(() => tree.partition(4, { out })).toThrow(/out must be a raster of shape \[3, 1\]/);
  });
});
