import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thresholdInk } from '../../src/ink/threshold.ts';
import { raster } from '../../src/raster/raster.ts';
import { grid, literal, mask, otherViews, symmetries } from '../support/grids.ts';

/** Spreads from strong pixels until nothing changes. */
function plain(data: Uint8Array, w: number, level: number, weak: number): number[] {
  const kept = [...data].map((v) => (v > level ? 1 : 0));
  for (let changed = true; changed; ) {
    changed = false;
    for (let i = 0; i < data.length; i++) {
      if (kept[i] === 1 || data[i]! <= weak) continue;
      const near = kept.some((v, j) => {
        const dx = Math.abs((j % w) - (i % w));
        const dy = Math.abs(Math.floor(j / w) - Math.floor(i / w));
        return v === 1 && dx <= 1 && dy <= 1;
      });
      if (!near) continue;
      kept[i] = 1;
      changed = true;
    }
  }
  return kept;
}

describe('thresholdInk with "hysteresis"', () => {
  const coverage = mask(`
    200  70   .   .  70
      .   .  65   .  70
      .   .   .   .   .
     64  63   . 127  90
  `);

  it('keeps weak ink that touches strong ink, at a corner too', () => {
    const expected = literal(`
      1 1 . . .
      . . 1 . .
      . . . . .
      . . . . .
    `);
    for (const view of [coverage, ...otherViews(coverage)]) {
      expect(grid(thresholdInk(view, { method: 'hysteresis', level: 127 }))).toBe(expected);
    }
  });

  it('finds its levels between paper and solid ink', () => {
    // Paper 20, solid ink 200: level 110, weak 65.
    const page = mask(`
      20 20 20  20 20 20
      65 66 20 110 20 20
      20 20 111 200 200 200
    `);
    expect(grid(thresholdInk(page, { method: 'hysteresis' }))).toBe(
      literal(`
        . . . . . .
        . 1 . 1 . .
        . . 1 1 1 1
      `),
    );
    const all = grid(thresholdInk(page, { method: 'hysteresis', weak: 64 }));
    expect(all.split('\n')[1]).toBe('1 1 . 1 . .');
  });

  it('is the same in every symmetry', () => {
    const options = { method: 'hysteresis', level: 100, weak: 60 } as const;
    const masks = symmetries(thresholdInk(coverage, options));
    symmetries(coverage).forEach((view, i) => {
      expect(grid(thresholdInk(view, options))).toBe(grid(masks[i]!));
    });
  });

  it('spreads as far as weak ink goes on any raster', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 11 }),
        fc.uint8Array({ minLength: 77, maxLength: 77 }),
        fc.integer({ min: 0, max: 254 }),
        fc.integer({ min: 0, max: 254 }),
        (w, bytes, a, b) => {
          const h = Math.floor(77 / w);
          const data = bytes.slice(0, w * h);
          const [weak, level] = [Math.min(a, b), Math.max(a, b)];
          const found = thresholdInk(raster(data, [w, h]), { method: 'hysteresis', level, weak });
          expect([...found.data]).toEqual(plain(data, w, level, weak));
        },
      ),
      { seed: 8 },
    );
  });

  it('takes sides beyond 65,535', () => {
    const data = new Uint8Array(70_001).fill(100);
    data[69_000] = 0;
    data[70_000] = 255;
    for (const shape of [
      [70_001, 1],
      [1, 70_001],
    ] as const) {
      const found = thresholdInk(raster(data, shape), { method: 'hysteresis', level: 127 });
      expect(found.data.indexOf(1)).toBe(69_001);
    }
  });

  it('refuses a weak level above the strong one, and other methods with it', () => {
    const call = (options: object) => () => thresholdInk(coverage, options);
    expect(call({ method: 'hysteresis', level: 50, weak: 51 })).toThrow(
      new RangeError('weak must be a finite number of coverage from 0 to 50, got 51'),
    );
    expect(call({ method: 'fixed', weak: 51 })).toThrow(
      new RangeError('weak must be left out with method "fixed", got 51'),
    );
  });
});
