import { describe, expect, it } from 'vitest';
import { chooseThreshold, inkCoverage } from '../../src/ink/index.ts';
import { raster } from '../../src/raster/index.ts';
import { symmetries } from '../support/grids.ts';

/** Rings of strokes on a page of 200 × 160; from `faded` on to the right they have another tone. */
function page(tone: number, faded: number) {
  const data = new Uint8Array(200 * 160);
  for (let y = 0; y < 160; y++) {
    for (let x = 0; x < 200; x++) {
      const off = Math.abs(Math.hypot(x - 99.5, y - 79.5) - 60);
      const cover = Math.max(0, Math.min(1, 3 - off));
      data[y * 200 + x] = Math.round((x < faded ? 255 : tone) * cover);
    }
  }
  return raster(data, [200, 160]);
}

describe('chooseThreshold on a line that fades', () => {
  it('says how much of the line the cut drops, how dark it is, and which level would hold it', () => {
    const choice = chooseThreshold(page(90, 140));
    expect(choice.level).toBe(127);
    const { share, coverage, level } = choice.pale!;
    // A third of the ring lies right of x = 140.
    expect(share).toBeGreaterThan(0.2);
    expect(share).toBeLessThan(0.35);
    expect(coverage).toBe(90);
    expect(level).toBeLessThan(90);
    expect(level).toBeGreaterThan(127 * 0.3);
    expect(choice.why).toMatch(
      /; \d+ % of the line, of coverage about 90, is paler: level \d+ would/,
    );
    const held = inkCoverage(
      raster(
        page(90, 140).data.map((v) => 255 - v),
        [200, 160],
      ),
    );
    expect(held.data.some((v) => v > level && v < 127)).toBe(true);
  });

  it('says nothing of soft edges, of a little that is pale, or of a page without any', () => {
    for (const coverage of [page(255, 200), page(90, 159), page(20, 140)]) {
      expect(chooseThreshold(coverage)).not.toHaveProperty('pale');
    }
  });

  it('says the same of every mirrored and turned page', () => {
    const [first, ...others] = symmetries(page(90, 140)).map((view) => chooseThreshold(view));
    for (const other of others) expect(other).toEqual(first);
  });
});
