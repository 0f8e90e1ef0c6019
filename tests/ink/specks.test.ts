import fc from 'fast-check';
import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { fillPinholes, removeSpecks } from '../../src/ink/specks.ts';
import { raster } from '../../src/raster/index.ts';
import { grid, literal, mask, otherViews, symmetries, worstCases } from '../support/grids.ts';

type Bytes = NdArray<Uint8Array>;

/** Inverts the parts of `of` with at most `maxArea` pixels, each found by an explicit stack. */
function plain(r: Bytes, of: 0 | 1, connectivity: 4 | 8, maxArea: number): string {
  const [w, h] = r.shape as [number, number];
  const result = raster(new Uint8Array(w * h), [w, h]);
  const seen = new Uint8Array(w * h);
  for (let y = 0; y < h; y++) for (let x = 0; x < w; x++) result.set(x, y, r.get(x, y));
  for (let i = 0; i < w * h; i++) {
    if (seen[i] === 1 || r.get(i % w, Math.floor(i / w)) !== of) continue;
    const part = [i];
    seen[i] = 1;
    for (let n = 0; n < part.length; n++) {
      for (let k = 0; k < 9; k++) {
        const [dx, dy] = [(k % 3) - 1, Math.floor(k / 3) - 1];
        const [x, y] = [(part[n]! % w) + dx, Math.floor(part[n]! / w) + dy];
        if (connectivity === 4 && dx !== 0 && dy !== 0) continue;
        if (x < 0 || y < 0 || x >= w || y >= h) continue;
        if (seen[y * w + x] === 1 || r.get(x, y) !== of) continue;
        seen[y * w + x] = 1;
        part.push(y * w + x);
      }
    }
    if (part.length > maxArea) continue;
    for (const p of part) result.set(p % w, Math.floor(p / w), 1 - of);
  }
  return grid(result);
}

const ink = mask(`
  1 . . . 1 1 . 1
  . 1 . . . . . 1
  . . 1 . 1 1 1 1
  . . . . 1 . 1 .
  1 1 . . 1 1 . 1`);

describe('removeSpecks', () => {
  it('removes small parts, a diagonal line being one', () => {
    expect(grid(removeSpecks(ink, { maxArea: 2 }))).toBe(
      literal(`
        1 . . . . . . 1
        . 1 . . . . . 1
        . . 1 . 1 1 1 1
        . . . . 1 . 1 .
        . . . . 1 1 . 1`),
    );
  });

  it('takes it for a row of specks where ink is 4-connected', () => {
    expect(grid(removeSpecks(ink, { maxArea: 2, connectivity: 4 }))).toBe(
      literal(`
        . . . . . . . 1
        . . . . . . . 1
        . . . . 1 1 1 1
        . . . . 1 . 1 .
        . . . . 1 1 . .`),
    );
  });

  it('removes 8 pixels but not 9 by default', () => {
    for (const area of [8, 9]) {
      const row = new Uint8Array(20).fill(1, 3, 3 + area);
      const kept = removeSpecks(raster(row, [20, 1])).data.reduce((a, b) => a + b);
      expect(kept).toBe(area === 8 ? 0 : 9);
    }
  });
});

describe('fillPinholes', () => {
  it('fills small parts of paper, which do not meet at a corner', () => {
    expect(grid(fillPinholes(ink, { maxArea: 1 }))).toBe(
      literal(`
        1 . . . 1 1 . 1
        . 1 . . . . . 1
        . . 1 . 1 1 1 1
        . . . . 1 1 1 1
        1 1 . . 1 1 1 1`),
    );
  });

  it('lets them meet at a corner where paper is 8-connected', () => {
    const found = fillPinholes(ink, { maxArea: 1, connectivity: 8 });
    expect([found.get(5, 3), found.get(6, 4), found.get(7, 3)]).toEqual([0, 0, 0]);
  });

  it('fills 8 pixels but not 9 by default', () => {
    for (const area of [8, 9]) {
      const row = new Uint8Array(20).fill(1).fill(0, 3, 3 + area);
      const paper = 20 - fillPinholes(raster(row, [20, 1])).data.reduce((a, b) => a + b);
      expect(paper).toBe(area === 8 ? 0 : 9);
    }
  });
});

describe.each([
  ['removeSpecks', removeSpecks, 1, 8],
  ['fillPinholes', fillPinholes, 0, 4],
] as const)('%s', (name, call, of, usual) => {
  it('does as flooding each part would', () => {
    const any = fc
      .tuple(fc.integer({ min: 1, max: 70 }), fc.integer({ min: 1, max: 9 }))
      .chain(([w, h]) =>
        fc.tuple(
          fc.uint8Array({ minLength: w * h, maxLength: w * h, max: 3 }),
          fc.nat(3),
          fc.constantFrom(4 as const, 8 as const),
          fc.nat(12),
          fc.constant([w, h] as [number, number]),
        ),
      );
    fc.assert(
      fc.property(any, ([values, level, connectivity, maxArea, size]) => {
        const r = raster(
          Uint8Array.from(values, (v) => (v < level ? 1 : 0)),
          size,
        );
        const found = call(r, { connectivity, maxArea });
        expect(grid(found)).toBe(plain(r, of, connectivity, maxArea));
        expect(grid(call(found, { connectivity, maxArea }))).toBe(grid(found));
      }),
      { numRuns: 300 },
    );
  });

  it.each([
    [1, 1],
    [31, 17],
    [64, 33],
    [97, 61],
  ])('is the same through worst cases, symmetries and views, %d × %d', (w, h) => {
    for (const r of Object.values(worstCases(w, h))) {
      for (const view of [...symmetries(r), ...otherViews(r)]) {
        expect(grid(call(view))).toBe(plain(view as Bytes, of, usual, 8));
      }
    }
  });

  it('holds past 65,535 columns and rows', () => {
    const long = Uint8Array.from({ length: 70_001 }, (_, i) => (i % 20 < 9 ? of : 1 - of));
    long.fill(1 - of, 69_990).fill(of, 69_995);
    for (const size of [
      [70_001, 1],
      [1, 70_001],
    ]) {
      const expected = long.slice();
      expected.fill(1 - of, 69_995);
      expect(call(raster(long, size)).data).toEqual(expected);
    }
  });

  it('takes nothing away with maxArea 0, writes into `out` and returns it', () => {
    const r = worstCases(23, 11).sparse!;
    expect(grid(call(r, { maxArea: 0 }))).toBe(grid(r));
    const out = raster(new Uint8Array(23 * 11).fill(7), [23, 11]);
    expect(call(r, { out })).toBe(out);
    expect(grid(out)).toBe(grid(call(r)));
    expect(() => call(r, { out: r })).toThrow('out must share no memory with an input');
  });

  it('refuses what it cannot take, word for word, and leaves `out` as it was', () => {
    const r = raster(new Uint8Array(4), [2, 2]);
    const out = raster(new Uint8Array(4).fill(9), [2, 2]);
    expect(() => call(r, { maxArea: -1, out })).toThrow(
      new RangeError('maxArea must be a whole number of pixels >= 0, got -1'),
    );
    expect(() => call(r, { connectivity: 6 as never, out })).toThrow(
      new RangeError('connectivity must be one of 4, 8, got 6'),
    );
    expect(() => call(r, { maxarea: 3 } as never)).toThrow(
      new RegExp(`^${name} has no option "maxarea"; did you mean "maxArea"\\?`),
    );
    const gray = raster(Uint8Array.of(0, 1, 2, 0), [2, 2]);
    expect(() => call(gray, { out })).toThrow(/^mask must hold 0 or 1, got 2 at \[0, 1\]/);
    expect([...out.data]).toEqual([9, 9, 9, 9]);
  });
});
