import { describe, expect, it } from 'vitest';
import { commonView } from '../../src/gaps/view.ts';
import { maskArgument } from '../../src/raster/arguments.ts';
import { raster } from '../../src/raster/index.ts';
import { symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

const SIZES = [
  [1, 1],
  [1, 7],
  [13, 13],
  [70, 131],
  [64, 64],
] as const;

describe('commonView', () => {
  it('is the same for all eight symmetries of a mask', () => {
    const random = seeded(7);
    for (const [w, h] of SIZES) {
      const mask = raster(
        Uint8Array.from({ length: w * h }, () => (random() < 0.3 ? 1 : 0)),
        [w, h],
      );
      const seen = symmetries(mask).map((one) => {
        const dense = maskArgument(one, 'mask');
        return commonView(dense).see(dense);
      });
      for (const one of seen) expect(one).toEqual(seen[0]);
      expect(seen[0]?.width).toBeGreaterThanOrEqual(seen[0]?.height ?? 0);
    }
  });

  it('leads from pixels and points to what is seen of them, and back', () => {
    const random = seeded(11);
    for (const [w, h] of SIZES) {
      const mask = raster(
        Uint8Array.from({ length: w * h }, () => (random() < 0.3 ? 1 : 0)),
        [w, h],
      );
      for (const one of symmetries(mask)) {
        const dense = maskArgument(one, 'mask');
        const view = commonView(dense);
        const seen = view.see(dense);
        let missed = 0;
        for (let p = 0; p < w * h; p++) {
          const point = [(p % dense.width) + 0.5, Math.floor(p / dense.width) + 0.5] as const;
          const [x, y] = view.pointIn(point);
          const [backX, backY] = view.pointOf([x, y]);
          const same =
            view.indexOf(view.indexIn(p)) === p &&
            seen.data[view.indexIn(p)] === dense.data[p] &&
            Math.floor(y) * seen.width + Math.floor(x) === view.indexIn(p) &&
            backX === point[0] &&
            backY === point[1];
          if (!same) missed++;
        }
        expect(missed).toBe(0);
      }
    }
  });
});
