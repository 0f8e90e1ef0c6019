import { filterDeficiencyDeuter, filterDeficiencyProt } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ciede2000 } from '../../src/color/color-difference.ts';
import { labsInAllSight } from '../../src/color/deficient-sight.ts';
import { labOfLinear, labOfRgb, linearOf } from '../../src/color/lab.ts';

const sample = fc.integer({ min: 0, max: 255 });

describe('labsInAllSight', () => {
  // culori has the tables of Machado, Oliveira and Fernandes from the authors' page. It multiplies
  // the samples it is given; here it is given linear ones.
  it('agrees with the matrices in culori 4.0.2, on linear light', () => {
    const filters = [filterDeficiencyProt(1), filterDeficiencyDeuter(1)];
    const clamp = (v: number) => Math.min(1, Math.max(0, v));
    fc.assert(
      fc.property(sample, sample, sample, (r, g, b) => {
        fc.pre(r !== g || g !== b);
        const linear = { mode: 'rgb' as const, r: linearOf(r), g: linearOf(g), b: linearOf(b) };
        const [normal, ...seen] = labsInAllSight(r, g, b);
        expect(normal).toEqual(labOfRgb(r, g, b));
        seen.forEach((lab, i) => {
          const theirs = filters[i]!(linear) as typeof linear;
          const expected = labOfLinear(clamp(theirs.r), clamp(theirs.g), clamp(theirs.b));
          lab.forEach((v, c) => {
            expect(Math.abs(v - expected[c]!)).toBeLessThan(1e-9);
          });
        });
      }),
      { seed: 1, numRuns: 2000 },
    );
  });

  it('leaves grays gray and brings red and green together', () => {
    const [gray, prot, deuter] = labsInAllSight(120, 120, 120);
    expect(prot).toEqual(gray);
    expect(deuter).toEqual(gray);
    const red = labsInAllSight(200, 80, 60);
    const green = labsInAllSight(110, 120, 60);
    const apart = red.map((lab, sight) => ciede2000(lab, green[sight]!));
    expect(Math.min(apart[1]!, apart[2]!)).toBeLessThan(apart[0]! / 2);
  });
});
