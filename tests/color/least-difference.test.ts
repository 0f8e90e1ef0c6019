import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chromaWeight, ciede2000 } from '../../src/color/color-difference.ts';
import { type Lab, labOfRgb } from '../../src/color/lab.ts';
import { leastDifference, nearDifference } from '../../src/color/least-difference.ts';
import { seeded } from '../support/random.ts';

const part = fc.double({ min: -110, max: 110, noNaN: true });
const yellow = fc.double({ min: 0.5, max: 110, noNaN: true });
const light = fc.double({ min: 0, max: 100, noNaN: true });

/** Of the lightness alone, weighted by CIEDE2000. */
const ofLight = (a: Lab, b: Lab) => ciede2000([a[0], 0, 0], [b[0], 0, 0]);

describe('bounds of a color difference', () => {
  it('are never above it', () => {
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
        expect(nearDifference(a, b)).toBeLessThanOrEqual(ciede2000(a, b) + 1e-9);
      }),
      { seed: 5, numRuns: 20_000 },
    );
  });

  it('are below that of neighbors in sRGB, grays and opposite hues, and close', () => {
    const random = seeded(12);
    const sample = () => Math.floor(random() * 256);
    let close = 0;
    for (let n = 0; n < 30_000; n++) {
      const [r, g, b] = [sample(), sample(), n % 7 === 0 ? 0 : sample()];
      const step = () => Math.floor(random() * 9) - 4;
      const near = [r, g, b].map((v) => Math.min(255, Math.max(0, v + step())));
      const one = labOfRgb(r, g, b);
      const other = n % 11 === 0 ? labOfRgb(r, r, r) : labOfRgb(near[0]!, near[1]!, near[2]!);
      const two: Lab = n % 13 === 0 ? [one[0], -one[1], -one[2]] : other;
      const exact = ciede2000(one, two);
      const low = nearDifference(one, two);
      expect(low).toBeLessThanOrEqual(exact + 1e-9);
      if (low > 0.99 * exact) close++;
    }
    expect(close).toBeGreaterThan(18_000);
  });

  it('weigh lightness, chroma and the distance of (a, b) as their comment derives', () => {
    const one: Lab = [50, 40, 0];
    expect(leastDifference(one, one)).toBe(0);
    expect(leastDifference(one, [15, 40, 0])).toBeCloseTo(35 / 1.75, 12);
    expect(leastDifference(one, [50, -40, 0])).toBeCloseTo((Math.sqrt(0.133) * 80) / 3.7, 12);
    expect(leastDifference([50, 0, -40], [50, 0, 40])).toBeCloseTo(
      (Math.sqrt(0.133) * 80) / 3.7,
      12,
    );
    expect(leastDifference([50, 30, 40], [50, 0, 0])).toBeCloseTo(
      (Math.sqrt(0.133) * 50) / 2.6875,
      12,
    );
  });
});

describe('nearDifference', () => {
  it('is within 0.7 % where the hue is far from blue: only R_T is bounded, by 0.0067 there', () => {
    fc.assert(
      fc.property(light, light, part, yellow, part, yellow, (L1, L2, a1, b1, a2, b2) => {
        const one: Lab = [L1, a1, b1];
        const two: Lab = [L2, a2, b2];
        // Hues of 0° to 180° have their mean there, 95° and more from 275°.
        const [near, exact] = [nearDifference(one, two), ciede2000(one, two)];
        expect(near).toBeGreaterThanOrEqual(0.993 * exact - 2e-4);
      }),
      { seed: 3, numRuns: 3000 },
    );
  });

  it('is the difference of colors of one chroma, on either side of blue', () => {
    fc.assert(
      fc.property(light, light, part, yellow, (L1, L2, a, b) => {
        for (const side of [b, -b]) {
          const one: Lab = [L1, a, side];
          const two: Lab = [L2, -a, side];
          expect(Math.abs(nearDifference(one, two) - ciede2000(one, two))).toBeLessThan(2e-4);
        }
      }),
      { seed: 4, numRuns: 3000 },
    );
  });

  it('of two chromas of one hue is the least over H: c² (1 − k² / 4)', () => {
    fc.assert(
      fc.property(
        light,
        light,
        part,
        part,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (L1, L2, a, b, t) => {
          const [one, two]: [Lab, Lab] = [
            [L1, a, b],
            [L2, t * a, t * b],
          ];
          const C = ((1 + t) * Math.hypot(a, b)) / 2;
          const scale = 1.5 - 0.5 * chromaWeight(C);
          const weight = chromaWeight(((1 + t) * Math.hypot(scale * a, b)) / 2);
          const hue = Math.atan2(b, scale * a) - (275 * Math.PI) / 180;
          fc.pre(t > 0.01 && Math.abs(Math.cos(hue) - 0.5) > 1e-6);
          const k = (Math.cos(hue) < 0.5 ? 0.0067 : 1.7321) * weight;
          const l = ofLight(one, two);
          const c2 = ciede2000(one, two) ** 2 - l * l;
          const expected = Math.sqrt(l * l + c2 * (1 - (k * k) / 4));
          expect(Math.abs(nearDifference(one, two) - expected)).toBeLessThan(1e-5);
        },
      ),
      { seed: 5, numRuns: 3000 },
    );
  });
});
