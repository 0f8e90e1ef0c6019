import { describe, expect, it } from 'vitest';
import { outlineRegions } from '../../src/polygon/outline.ts';
import { outlineOfRuns } from '../../src/polygon/outline-runs.ts';
import { packMask } from '../../src/raster/pack.ts';
import { raster } from '../../src/raster/raster.ts';
import { findRuns } from '../../src/runs/runs.ts';
import { worstCases } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

/** Checked against the outlines of a raster, which are traced along its edges in another way. */
function checkRings(data: Uint8Array, width: number, height: number): void {
  const runs = findRuns(packMask({ data, width, height, channels: 1 }, 'mask'), 1);
  const whole = outlineRegions(raster(Int32Array.from(data), [width, height]));
  const rings = whole.flatMap((outline) => outline.rings);
  expect(outlineOfRuns(runs, 0)).toEqual(rings);
  const lower = rings.map((ring) => ring.map(([x, y]) => [x, y + 70_000]));
  expect(outlineOfRuns(runs, 70_000)).toEqual(lower);
}

describe('outlineOfRuns', () => {
  it('gives the rings of outlineRegions: 400 random masks, many that touch at corners', () => {
    const next = seeded(5);
    for (let k = 0; k < 400; k++) {
      const [width, height] = [1 + Math.floor(next() * 70), 1 + Math.floor(next() * 20)];
      const share = next();
      const data = Uint8Array.from({ length: width * height }, () => (next() < share ? 1 : 0));
      checkRings(data, width, height);
    }
  });

  it('gives them for the worst cases and for nothing', () => {
    for (const { data, shape } of Object.values(worstCases(67, 41))) {
      checkRings(Uint8Array.from(data), shape[0]!, shape[1]!);
    }
    checkRings(new Uint8Array(12), 4, 3);
  });
});
