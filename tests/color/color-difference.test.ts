import Color from 'colorjs.io';
import { differenceCiede2000, lab65 } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ciede2000, colorDifference } from '../../src/color/color-difference.ts';
import { type Lab, labOf, labOfRgb, linearOf, xyzOfLinear } from '../../src/color/lab.ts';
import { SHARMA_TABLE_1 } from './data/sharma-table-1.ts';

const lab = fc.tuple(
  fc.double({ min: 0, max: 100, noNaN: true }),
  fc.double({ min: -120, max: 120, noNaN: true }),
  fc.double({ min: -120, max: 120, noNaN: true }),
);
const hex = fc.integer({ min: 0, max: 0xffffff }).map((v) => `#${v.toString(16).padStart(6, '0')}`);

/**
 * The formula jumps where two hues are opposite; there the last bit of the angles decides, and
 * implementations differ.
 */
function opposite([, a1, b1]: Lab, [, a2, b2]: Lab): boolean {
  const g = 0.5 * (1 - weight((Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2)) + 1;
  const turn = Math.atan2(b1, g * a1) - Math.atan2(b2, g * a2);
  return Math.abs(Math.abs(turn) - Math.PI) < 1e-9;
}
const weight = (c: number) => Math.sqrt(c ** 7 / (c ** 7 + 25 ** 7));

describe('colorDifference', () => {
  it.each(SHARMA_TABLE_1)(
    'of %j and %j is %d to four decimals (Sharma, Wu, Dalal 2005)',
    (a, b, e) => {
      expect(colorDifference(a, b)).toBeCloseTo(e, 4);
      expect(Math.abs(colorDifference(a, b) - e)).toBeLessThan(0.000051);
      expect(Math.abs(colorDifference(b, a) - e)).toBeLessThan(0.000051);
    },
  );

  it('has all 34 pairs of the table', () => {
    expect(SHARMA_TABLE_1).toHaveLength(34);
  });

  it('agrees with culori 4.0.2 to 1e-9 on Lab colors', () => {
    const theirs = differenceCiede2000();
    const asLab = ([l, a, b]: Lab) => ({ mode: 'lab65' as const, l, a, b });
    fc.assert(
      fc.property(lab, lab, (a, b) => {
        fc.pre(!opposite(a, b));
        expect(Math.abs(colorDifference(a, b) - theirs(asLab(a), asLab(b)))).toBeLessThan(1e-9);
      }),
      { seed: 1, numRuns: 5000 },
    );
  });

  it('agrees with colorjs.io 0.7.1 to 1e-9 on Lab colors', () => {
    const isTinted = ([, a, b]: Lab) => Math.hypot(a, b) > 0.01; // it takes 0.0025 for gray
    fc.assert(
      fc.property(lab.filter(isTinted), lab.filter(isTinted), (a, b) => {
        fc.pre(!opposite(a, b));
        const theirs = new Color('lab', [...a]).deltaE2000(new Color('lab', [...b]));
        expect(Math.abs(colorDifference(a, b) - theirs)).toBeLessThan(1e-9);
      }),
      { seed: 2, numRuns: 2000 },
    );
  });

  it('agrees with culori 4.0.2 to 1e-9 from #rrggbb on', () => {
    const theirs = differenceCiede2000();
    fc.assert(
      fc.property(hex, hex, (a, b) => {
        fc.pre(!opposite(labOf(a, 'a'), labOf(b, 'b')));
        expect(Math.abs(colorDifference(a, b) - theirs(a, b))).toBeLessThan(1e-9);
      }),
      { seed: 3, numRuns: 5000 },
    );
  });

  it('is symmetric, not negative, and 0 for equal colors', () => {
    fc.assert(
      fc.property(lab, lab, (a, b) => {
        expect(ciede2000(a, b)).toBe(ciede2000(b, a));
        expect(ciede2000(a, b)).toBeGreaterThanOrEqual(0);
        expect(ciede2000(a, a)).toBe(0);
      }),
      { seed: 4, numRuns: 5000 },
    );
  });

  it('reads colors in either case', () => {
    expect(colorDifference('#C86400', '#c86400')).toBe(0);
  });

  it('refuses what is no color', () => {
    const bad = (a: unknown) => () => colorDifference(a as string, '#000000');
    expect(bad('red')).toThrow(new RangeError('a must be a color \'#rrggbb\', got "red"'));
    expect(bad('#fff')).toThrow(RangeError);
    expect(bad([50, 0])).toThrow(TypeError);
    expect(bad([50, 0, '7'])).toThrow(TypeError);
    expect(bad([50, 0, Number.NaN])).toThrow(RangeError);
    expect(() => colorDifference('#000000', 7 as unknown as string)).toThrow(
      new TypeError("b must be a color '#rrggbb' or [L, a, b], got 7"),
    );
  });
});

describe('labOfRgb', () => {
  it('agrees with culori 4.0.2 and colorjs.io 0.7.1 to 1e-9 under D65', () => {
    fc.assert(
      fc.property(hex, (color) => {
        const ours = labOf(color, 'color');
        const c = lab65(color)!;
        const j = new Color(color).to('lab-d65').coords;
        [c.l, c.a, c.b].forEach((v, i) => {
          expect(Math.abs(ours[i]! - v)).toBeLessThan(1e-9);
          expect(Math.abs(ours[i]! - (j[i] ?? 0))).toBeLessThan(1e-9);
        });
      }),
      { seed: 5, numRuns: 3000 },
    );
  });

  it('agrees with colorjs.io 0.7.1 on every 499th of all colors, to 1e-6 relative and 1e-9 absolute', () => {
    const agree = (ours: readonly number[], theirs: readonly (number | null)[]) =>
      ours.every((v, i) => {
        const other = theirs[i] ?? 0;
        return Math.abs(v - other) <= Math.max(1e-9, 1e-6 * Math.abs(other));
      });
    const differing: string[] = [];
    let count = 0;
    for (let rgb = 0; rgb < 2 ** 24; rgb += 499, count++) {
      const [r, g, b] = [rgb >> 16, (rgb >> 8) & 255, rgb & 255];
      const srgb = [r / 255, g / 255, b / 255] as [number, number, number];
      const theirs = new Color('srgb', srgb);
      const xyz = xyzOfLinear(linearOf(r), linearOf(g), linearOf(b));
      const fits =
        agree(xyz, theirs.to('xyz-d65').coords) &&
        agree(labOfRgb(r, g, b), theirs.to('lab-d65').coords);
      if (!fits) differing.push(`${r} ${g} ${b}`);
    }
    expect(count).toBe(33_622);
    expect(differing).toEqual([]);
  });

  it('gives the grays no tint', () => {
    for (let v = 0; v < 256; v++) {
      const [, a, b] = labOfRgb(v, v, v);
      expect([a, b]).toEqual([0, 0]);
    }
    expect(labOfRgb(255, 255, 255)[0]).toBeCloseTo(100, 12);
    expect(labOfRgb(0, 0, 0)[0]).toBe(0);
  });
});
