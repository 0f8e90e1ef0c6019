import { describe, expect, it } from 'vitest';
import { ciede2000 } from '../../src/color/color-difference.ts';
import { labsInAllSight } from '../../src/color/deficient-sight.ts';
import { parseColor } from '../../src/color/hex.ts';
import { labOfRgb } from '../../src/color/lab.ts';
import { suggestColors } from '../../src/palette/suggest-colors.ts';

const sights = new Map<string, ReturnType<typeof labsInAllSight>>();
function sightsOf(color: string): ReturnType<typeof labsInAllSight> {
  const labs = sights.get(color) ?? labsInAllSight(...parseColor(color, 'color'));
  sights.set(color, labs);
  return labs;
}

/** The least difference of two colors over the three sights. */
function apartAs(a: string, b: string): number {
  return Math.min(...sightsOf(a).map((lab, sight) => ciede2000(lab, sightsOf(b)[sight]!)));
}

const nearestTo = (color: string, others: readonly string[]): number =>
  Math.min(...others.map((other) => apartAs(color, other)));

describe('suggestColors', () => {
  const fixed = ['#000000', '#ffffff'];

  it.each([
    [6, 23],
    [12, 14],
    [24, 9],
  ])('keeps %d colors %d apart in every sight, from ink and paper too', (count, least) => {
    const colors = suggestColors(count);
    colors.forEach((color, i) => {
      expect(nearestTo(color, [...fixed, ...colors.slice(0, i)])).toBeGreaterThanOrEqual(least);
    });
  });

  it('takes the farthest color of the lattice each time', () => {
    const levels = Array.from({ length: 17 }, (_, i) => Math.floor((i * 255) / 16 + 0.5));
    const hex = (v: number) => v.toString(16).padStart(2, '0');
    const lattice = levels
      .flatMap((r) => levels.flatMap((g) => levels.map((b) => `#${hex(r)}${hex(g)}${hex(b)}`)))
      .filter((color) => labOfRgb(...parseColor(color, 'color'))[0] >= 30);
    const given = ['#c86400', '#305080'];
    const colors: string[] = [];
    for (let n = 0; n < 4; n++) {
      const others = [...fixed, ...given, ...colors];
      let best = '';
      let far = -1;
      for (const color of lattice) {
        const distance = nearestTo(color, others);
        if (distance > far) [best, far] = [color, distance];
      }
      colors.push(best);
    }
    expect(suggestColors(4, { apartFrom: given })).toEqual(colors);
  });

  it('gives the same first colors however many are asked for, all different', () => {
    const many = suggestColors(1024);
    expect(new Set(many).size).toBe(1024);
    expect(suggestColors(40)).toEqual(many.slice(0, 40));
    expect(suggestColors(0)).toEqual([]);
  });

  it('stays away from colors and swatches, but not from bare', () => {
    const free = suggestColors(3);
    const palette = [
      { name: 'bare', color: free[0]! },
      { name: 'fur', color: free[1]!.toUpperCase() },
    ];
    const colors = suggestColors(3, { apartFrom: palette });
    expect(colors[0]).toBe(free[0]);
    expect(colors).not.toContain(free[1]);
    expect(suggestColors(3, { apartFrom: [free[1]!] })).toEqual(colors);
    colors.forEach((color) => {
      expect(apartAs(color, free[1]!)).toBeGreaterThan(20);
    });
  });

  it('refuses what is no count and no color', () => {
    expect(() => suggestColors(-1)).toThrow(
      'count must be a whole number of colors from 0 to 1024, got -1',
    );
    expect(() => suggestColors(1025)).toThrow(RangeError);
    expect(() => suggestColors(1.5)).toThrow(RangeError);
    const apart = (apartFrom: unknown) => () => suggestColors(1, { apartFrom: apartFrom as [] });
    expect(apart('#000000')).toThrow(TypeError);
    expect(apart(['red'])).toThrow('apartFrom[0] must be a color \'#rrggbb\', got "red"');
    expect(apart([{ name: 'fur', color: 'red' }])).toThrow(/^apartFrom\[0\]\.color must be/);
    expect(apart([7])).toThrow(TypeError);
  });
});
