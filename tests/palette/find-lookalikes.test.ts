import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ciede2000, colorDifference } from '../../src/palette/color-difference.ts';
import { findLookalikes, leastDifference } from '../../src/palette/find-lookalikes.ts';
import type { Lab } from '../../src/palette/lab.ts';
import type { Swatch } from '../../src/palette/types.ts';
import { seeded } from '../support/random.ts';

function randomPalette(count: number, seed: number): Swatch[] {
  const random = seeded(seed);
  const sample = () => Math.floor(random() * 12 + 120).toString(16);
  return Array.from({ length: count }, (_, i) => ({
    name: `s${i}`,
    color: `#${sample()}${sample()}${sample()}`,
  }));
}

/** Every pair, compared. */
function allPairs(palette: readonly Swatch[], below: number) {
  const pairs = palette.flatMap((a, i) =>
    palette.slice(i + 1).map((b) => ({
      a: a.name,
      b: b.name,
      difference: colorDifference(a.color, b.color),
    })),
  );
  return pairs.filter((p) => p.difference < below).sort((p, q) => p.difference - q.difference);
}

describe('findLookalikes', () => {
  it.each([0, 0.5, 1, 2, 5, 200])('finds what comparing every pair finds, below %d', (below) => {
    const palette = randomPalette(120, 3);
    expect(findLookalikes(palette, { below })).toEqual(allPairs(palette, below));
  });

  it('takes 2 where nothing is said', () => {
    const palette = randomPalette(60, 4);
    expect(findLookalikes(palette)).toEqual(allPairs(palette, 2));
    expect(findLookalikes(palette).length).toBeGreaterThan(0);
  });

  it('lists two names of one color, first of all', () => {
    const palette = [
      { name: 'fur', color: '#8a5d42' },
      { name: 'hide', color: '#8a5d43' },
      { name: 'coat', color: '#8A5D42' },
    ];
    const [first] = findLookalikes(palette);
    expect(first).toEqual({ a: 'fur', b: 'coat', difference: 0 });
    expect(findLookalikes(palette)).toHaveLength(3);
  });

  it('leaves bare out', () => {
    const palette = [
      { name: 'bare', color: '#000000' },
      { name: 'line', color: '#000000' },
    ];
    expect(findLookalikes(palette)).toEqual([]);
    expect(findLookalikes([])).toEqual([]);
  });

  it('never bounds the difference from above', () => {
    const lab: fc.Arbitrary<Lab> = fc.tuple(
      fc.double({ min: 0, max: 100, noNaN: true }),
      fc.double({ min: -130, max: 130, noNaN: true }),
      fc.double({ min: -130, max: 130, noNaN: true }),
    );
    const near = fc.tuple(lab, lab, fc.double({ min: 0, max: 1, noNaN: true })).map(([a, b, t]) => {
      const mixed: Lab = [
        a[0] + t * (b[0] - a[0]),
        a[1] + t * (b[1] - a[1]),
        a[2] + t * (b[2] - a[2]),
      ];
      return [a, mixed] as const;
    });
    fc.assert(
      fc.property(near, ([a, b]) => {
        expect(leastDifference(a, b)).toBeLessThanOrEqual(ciede2000(a, b) + 1e-12);
      }),
      { seed: 5, numRuns: 20_000 },
    );
  });

  it('refuses what is no palette', () => {
    expect(() => findLookalikes([{ name: 'a', color: 'red' }])).toThrow(RangeError);
    expect(() => findLookalikes([], { below: -1 })).toThrow(
      new RangeError('below must be a finite number >= 0, got -1'),
    );
    expect(() => findLookalikes('skin' as unknown as Swatch[])).toThrow(TypeError);
  });
});
