import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measureLevels } from '../../src/passages/levels.ts';
import { narrowPlaces, widestWay } from '../../src/passages/widest-way.ts';

/** The widest level with which two cells are still connected, by trying all. */
function bottleneck(level: Uint16Array, stride: number, from: number, to: number): number {
  const limits = [...new Set(level)].filter((l) => l > 0).sort((a, b) => b - a);
  for (const limit of limits) {
    if (level[from]! < limit || level[to]! < limit) continue;
    const seen = new Set([from]);
    for (const cell of seen) {
      for (const next of [cell - 1, cell + 1, cell - stride, cell + stride]) {
        if ((level[next] ?? 0) >= limit) seen.add(next);
      }
    }
    if (seen.has(to)) return limit;
  }
  return 0;
}

const drawing = fc
  .tuple(fc.integer({ min: 1, max: 24 }), fc.integer({ min: 1, max: 16 }))
  .chain(([width, height]) =>
    fc.record({
      width: fc.constant(width),
      height: fc.constant(height),
      ink: fc.array(fc.nat(4), { minLength: width * height, maxLength: width * height }),
      from: fc.nat(width * height - 1),
      to: fc.nat(width * height - 1),
    }),
  );

describe('widestWay', () => {
  it('is a path of neighbors that is nowhere narrower than it must be, and so is each part of it', () => {
    fc.assert(
      fc.property(drawing, ({ width, height, ink, from, to }) => {
        const mask = Uint8Array.from(ink, (v) => (v === 0 ? 1 : 0));
        const levels = measureLevels(mask, width, height);
        const { level, stride } = levels;
        const cellOf = (p: number) => p + stride + Math.floor(p / width);
        const way = widestWay(levels, cellOf(from), cellOf(to));
        const expected = bottleneck(level, stride, cellOf(from), cellOf(to));
        if (way === undefined) {
          expect(expected).toBe(0);
          return;
        }
        expect([way[0], way.at(-1)]).toEqual([cellOf(from), cellOf(to)]);
        for (let i = 1; i < way.length; i++) {
          expect([1, stride]).toContain(Math.abs(way[i]! - way[i - 1]!));
        }
        const least = (i: number, k: number) =>
          Math.min(...way.slice(i, k + 1).map((cell) => level[cell]!));
        expect(least(0, way.length - 1)).toBe(expected);
        const middle = way.length >> 1;
        expect(least(0, middle)).toBe(bottleneck(level, stride, way[0]!, way[middle]!));
      }),
      { numRuns: 400 },
    );
  });
});

describe('narrowPlaces', () => {
  it('finds each narrow place between wider ones', () => {
    // Radii along a way, as squares of distances.
    const radii = [3, 5, 3, 2, 2, 2, 4, 8, 7, 7, 4, 3, 5, 5];
    const level = Uint16Array.from(radii, (r) => r * r);
    const levels = { level, stride: radii.length, width: radii.length - 1, height: 1 };
    expect(narrowPlaces(levels, [...radii.keys()])).toEqual([
      { index: 4, opens: [5, 8] },
      { index: 11, opens: [8, 5] },
    ]);
    expect(narrowPlaces(levels, [0, 1, 2])).toEqual([]);
  });
});
