import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  angleOf,
  cosine,
  cubeRoot,
  expMinus,
  fifthRoot,
  sine,
} from '../../src/color/elementary.ts';

const near = (a: number, b: number, e: number) => expect(Math.abs(a - b)).toBeLessThanOrEqual(e);
const runs = { seed: 7, numRuns: 20_000 };
const angle = fc.double({ min: -1440, max: 1440, noNaN: true });

describe('elementary functions, beside those of the engine', () => {
  it('takes roots', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 1000, noNaN: true }), (x) => {
        near(cubeRoot(x), Math.cbrt(x), 4e-16 * Math.cbrt(x));
        near(fifthRoot(x), x ** 0.2, 1e-15 * x ** 0.2);
      }),
      { ...runs, examples: [[1], [8], [0.125], [1 - 2 ** -53]] },
    );
    expect(cubeRoot(0)).toBe(0);
    expect(cubeRoot(27)).toBe(3);
  });

  it('turns angles', () => {
    fc.assert(
      fc.property(angle, (x) => {
        near(cosine(x), Math.cos((x * Math.PI) / 180), 1e-14);
        near(sine(x), Math.sin((x * Math.PI) / 180), 1e-14);
        expect(sine(-x) + sine(x)).toBe(0);
      }),
      runs,
    );
    [1, 0, -1, 0, 1].forEach((c, i) => void near(cosine(90 * i), c, 0));
  });

  it('finds directions', () => {
    const side = fc.double({ min: -130, max: 130, noNaN: true }).map((v) => v + 0); // no -0
    fc.assert(
      fc.property(side, side, (x, y) => {
        const degrees = (Math.atan2(y, x) * 180) / Math.PI;
        near(angleOf(y, x), y < 0 ? degrees + 360 : degrees, 1e-12);
      }),
      runs,
    );
    const compass = [
      [0, 1],
      [1, 1],
      [1, 0],
      [0, -1],
      [-1, 0],
    ].map(([y, x]) => angleOf(y!, x!));
    [0, 45, 90, 180, 270].forEach((degrees, i) => void near(compass[i]!, degrees, 1e-13));
    expect(angleOf(0, 0)).toBe(0);
  });

  it('takes powers of e', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 130, noNaN: true }), (x) => {
        near(expMinus(x), Math.exp(-x), 1e-15);
      }),
      runs,
    );
    expect(expMinus(0)).toBe(1);
  });
});
