import fc from 'fast-check';
import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { maskArgument } from '../../src/raster/arguments.ts';
import { type Packed, packMask } from '../../src/raster/pack.ts';
import { raster } from '../../src/raster/raster.ts';
import { fillSpan } from '../../src/runs/fill-span.ts';
import { findRuns, type Runs } from '../../src/runs/runs.ts';
import { connectRuns, findRoot, numberRoots, unite } from '../../src/runs/union.ts';
import { mask, otherViews, symmetries, worstCases } from '../support/grids.ts';

type View = NdArray<Uint8Array>;

const WIDTHS = [1, 2, 31, 32, 33, 63, 64, 65, 97];

const pack = (m: View): Packed => packMask(maskArgument(m, 'mask'), 'mask');

/** Runs as `[y, start, end]`, read pixel by pixel. */
function plainRuns(m: View, of: 0 | 1): number[][] {
  const [w, h] = m.shape as [number, number];
  const runs: number[][] = [];
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      if (m.get(x, y) !== of) continue;
      const start = x;
      while (x < w && m.get(x, y) === of) x++;
      runs.push([y, start, x]);
    }
  }
  return runs;
}

function listRuns({ rowStart, start, end }: Runs): number[][] {
  const runs: number[][] = [];
  for (let y = 0; y + 1 < rowStart.length; y++) {
    for (let r = rowStart[y]!; r < rowStart[y + 1]!; r++) runs.push([y, start[r]!, end[r]!]);
  }
  return runs;
}

/** Ids of the runs by repeated search over all pairs of runs. */
function plainIds(runs: number[][], connectivity: 4 | 8): number[] {
  const reach = connectivity === 8 ? 1 : 0;
  const touch = ([ay, a0, a1]: number[], [by, b0, b1]: number[]) =>
    Math.abs(ay! - by!) === 1 && a0! < b1! + reach && b0! < a1! + reach;
  const ids = runs.map(() => 0);
  let count = 0;
  for (let first = 0; first < runs.length; first++) {
    if (ids[first] !== 0) continue;
    ids[first] = ++count;
    const todo = [first];
    for (let r = todo.pop(); r !== undefined; r = todo.pop()) {
      for (let s = 0; s < runs.length; s++) {
        if (ids[s] !== 0 || !touch(runs[r]!, runs[s]!)) continue;
        ids[s] = count;
        todo.push(s);
      }
    }
  }
  return ids;
}

function checkAll(m: View): void {
  const packed = pack(m);
  for (const of of [0, 1] as const) {
    const runs = findRuns(packed, of);
    const expected = plainRuns(m, of);
    expect(listRuns(runs)).toEqual(expected);
    expect(runs.start).toHaveLength(expected.length);
    for (const connectivity of [4, 8] as const) {
      const { ids, count } = connectRuns(runs, connectivity);
      const plain = plainIds(expected, connectivity);
      expect([...ids]).toEqual(plain);
      expect(count).toBe(Math.max(0, ...plain));
    }
  }
}

describe('packMask', () => {
  it('puts pixel x of a row into bit x & 31 of word x >> 5', () => {
    for (const width of WIDTHS) {
      for (const m of Object.values(worstCases(width, 3))) {
        const { words, stride } = pack(m);
        expect(stride).toBe(Math.ceil(width / 32));
        expect(words).toHaveLength(3 * stride);
        for (let y = 0; y < 3; y++) {
          for (let x = 0; x < 32 * stride; x++) {
            const bit = (words[y * stride + (x >> 5)]! >>> (x & 31)) & 1;
            expect(bit).toBe(x < width ? m.get(x, y) : 0);
          }
        }
      }
    }
  });

  it('packs the same wherever rows and memory begin', () => {
    for (const w of WIDTHS) {
      const noise = worstCases(w, 5).noise!.data;
      for (let lead = 0; lead < 4; lead++) {
        const data = new Uint8Array(5 * w + lead).subarray(lead);
        data.set(noise);
        const { words, stride } = packMask({ data, width: w, height: 5, channels: 1 }, 'mask');
        for (let i = 0; i < 5 * w; i++) {
          const [x, y] = [i % w, Math.floor(i / w)];
          expect((words[y * stride + (x >> 5)]! >>> (x & 31)) & 1).toBe(noise[i]);
        }
      }
    }
  });

  it('says what a raster with other values often is', () => {
    const packOf = (...values: number[]) =>
      packMask({ data: Uint8Array.from(values), width: 2, height: 2, channels: 1 }, 'ink');
    expect(() => packOf(0, 1, 255, 0)).toThrow(
      new RangeError(
        'ink must hold 0 or 1, got 255 at [0, 1]; this looks like a coverage: thresholdInk makes a mask of it',
      ),
    );
    expect(() => packOf(0, 0, 0, 255)).toThrow(
      new RangeError(
        'ink must hold 0 or 1, got 255 at [1, 1]; this looks like a mask of 0 and 255: divide it by 255',
      ),
    );
    expect(() => packOf(1, 2, 0, 1)).toThrow('ink must hold 0 or 1, got 2 at [1, 0]; ');
  });

  it('finds every wrong value at every place', () => {
    for (let at = 0; at < 66; at++) {
      for (const value of [2, 3, 128, 254, 255]) {
        const data = new Uint8Array(66);
        data[at] = value;
        expect(() => packMask({ data, width: 33, height: 2, channels: 1 }, 'mask')).toThrow(
          `mask must hold 0 or 1, got ${value} at [${at % 33}, ${at < 33 ? 0 : 1}]`,
        );
      }
    }
  });
});

describe('findRuns and connectRuns', () => {
  it.each(WIDTHS)('find and number the runs of worst cases, %d wide', (width) => {
    for (const m of Object.values(worstCases(width, 7))) checkAll(m);
  });

  it('agree with the plain search in all symmetries and views', () => {
    const m = mask(`
      . 1 1 . 1 . .
      1 . . 1 . 1 .
      1 1 . . . . 1
      . . 1 . 1 1 .
      1 . . 1 . . 1
    `);
    for (const view of [...symmetries(m), ...otherViews(m)]) checkAll(view);
  });

  it('agree with the plain search on random masks', () => {
    const arbitrary = fc
      .tuple(fc.constantFrom(...WIDTHS), fc.integer({ min: 1, max: 6 }))
      .chain(([w, h]) =>
        fc
          .array(fc.integer({ min: 0, max: 1 }), { minLength: w * h, maxLength: w * h })
          .map((values) => raster(Uint8Array.from(values), [w, h])),
      );
    fc.assert(fc.property(arbitrary, checkAll), { numRuns: 150, seed: 1 });
  });

  it('end a run at the width, whatever the bits past it', () => {
    for (const width of WIDTHS) {
      const full = pack(raster(new Uint8Array(width).fill(1), [width, 1]));
      expect(listRuns(findRuns(full, 1))).toEqual([[0, 0, width]]);
      expect(listRuns(findRuns(full, 0))).toEqual([]);
      const empty = pack(raster(new Uint8Array(width), [width, 1]));
      expect(listRuns(findRuns(empty, 0))).toEqual([[0, 0, width]]);
      expect(listRuns(findRuns(empty, 1))).toEqual([]);
    }
  });

  it('go past 65,535 columns, rows and runs', () => {
    const long = 200_003;
    const alternating = Uint8Array.from({ length: long }, (_, i) => (i + 1) & 1);
    for (const shape of [
      [long, 1],
      [1, long],
    ] as const) {
      const runs = findRuns(pack(raster(alternating, shape)), 1);
      const { ids, count } = connectRuns(runs, 8);
      expect(count).toBe(100_002);
      expect(ids.every((id, r) => id === r + 1)).toBe(true);
      const last = runs.start.length - 1;
      expect([runs.start[last], runs.end[last]]).toEqual(
        shape[1] === 1 ? [long - 1, long] : [0, 1],
      );
    }
  });

  it('join the two corners of a touch only with connectivity 8', () => {
    const runs = findRuns(pack(mask('1 . .\n. 1 .\n1 . .')), 1);
    expect([...connectRuns(runs, 4).ids]).toEqual([1, 2, 3]);
    expect([...connectRuns(runs, 8).ids]).toEqual([1, 1, 1]);
  });
});

describe('unite, findRoot and numberRoots', () => {
  it('keep the smallest member as the root, so that ids come in the order of first members', () => {
    const pair = fc.tuple(fc.nat(39), fc.nat(39));
    fc.assert(
      fc.property(fc.array(pair, { maxLength: 60 }), (pairs) => {
        const parent = Int32Array.from({ length: 40 }, (_, i) => i);
        const least = [...parent];
        for (const [a, b] of pairs) {
          unite(parent, a, b);
          const [from, to] = [Math.max(least[a]!, least[b]!), Math.min(least[a]!, least[b]!)];
          for (let i = 0; i < 40; i++) if (least[i] === from) least[i] = to;
        }
        expect(least.map((_, i) => findRoot(parent, i))).toEqual(least);
        const firsts = [...new Set(least)];
        expect(numberRoots(parent)).toBe(firsts.length);
        expect([...parent]).toEqual(least.map((root) => firsts.indexOf(root) + 1));
      }),
      { seed: 2 },
    );
  });

  it('walk a chain of a million members without recursion', () => {
    const n = 1_000_000;
    const parent = Int32Array.from({ length: n }, (_, i) => Math.max(0, i - 1));
    expect(findRoot(parent, n - 1)).toBe(0);
    expect(numberRoots(parent)).toBe(1);
    expect(parent.every((id) => id === 1)).toBe(true);
  });
});

describe('fillSpan', () => {
  it('writes the span and nothing beside it, short or long', () => {
    for (const length of [0, 1, 23, 24, 25, 60]) {
      const data = new Int32Array(70).fill(-1);
      fillSpan(data, 7, 5, 5 + length);
      expect([...data]).toEqual(
        Array.from({ length: 70 }, (_, i) => (i >= 5 && i < 5 + length ? 7 : -1)),
      );
    }
  });
});
