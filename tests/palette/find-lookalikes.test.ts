import { describe, expect, it } from 'vitest';
import { colorDifference } from '../../src/color/color-difference.ts';
import { findLookalikes } from '../../src/palette/find-lookalikes.ts';
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

  it.each([1, 4, 12, 30])(
    'finds what comparing every pair finds all over sRGB, below %d',
    (below) => {
      const random = seeded(77 + below);
      const palette = Array.from({ length: 500 }, (_, i) => {
        const color = Math.floor(random() * 0x1000000).toString(16);
        return { name: `s${i}`, color: `#${color.padStart(6, '0')}` };
      });
      expect(findLookalikes(palette, { below })).toEqual(allPairs(palette, below));
    },
  );

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

  it('looks through a palette of 65,535 colors', () => {
    const palette = Array.from({ length: 65_535 }, (_, i) => {
      const color = (i * 256 + ((i * 37) & 255)) & 0xffffff;
      return { name: `s${i}`, color: `#${color.toString(16).padStart(6, '0')}` };
    });
    const pairs = findLookalikes(palette, { below: 0.3 });
    expect(pairs.length).toBeGreaterThan(10);
    const colors = new Map(palette.map(({ name, color }) => [name, color]));
    const wrong = pairs.filter(({ a, b, difference }) => {
      return difference >= 0.3 || difference !== colorDifference(colors.get(a)!, colors.get(b)!);
    });
    expect(wrong).toEqual([]);
  });

  it('refuses what is no palette', () => {
    expect(() => findLookalikes([{ name: 'a', color: 'red' }])).toThrow(RangeError);
    expect(() => findLookalikes([], { below: -1 })).toThrow(
      new RangeError('below must be a finite number >= 0, got -1'),
    );
    expect(() => findLookalikes('shell' as unknown as Swatch[])).toThrow(TypeError);
  });
});

describe('very many lookalikes', () => {
  it('are refused, not listed and not dropped', () => {
    const palette = Array.from({ length: 16_000 }, (_, i) => ({ name: `a${i}`, color: '#808080' }));
    expect(() => findLookalikes(palette)).toThrow(
      new RangeError(
        'palette must have at most 1000000 pairs less than 2 apart, got more among 16000 swatches; lower below, or make swatches of one color one (mergeSwatches)',
      ),
    );
    expect(findLookalikes(palette.slice(0, 1000))).toHaveLength((1000 * 999) / 2);
  });
});
