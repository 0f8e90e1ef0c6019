import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/flats/plan.ts';
import { scalePlan } from '../../src/flats/scale-plan.ts';

const plan: Plan = {
  version: 1,
  size: [10, 20],
  palette: [{ name: 'shell', color: '#d2603a' }],
  marks: [
    { point: [1, 2], swatch: 'shell', note: 'lit by the lamp' },
    {
      polygon: [
        [
          [0, 0],
          [4, 0],
          [0, 4],
        ],
        [],
      ],
      swatch: 'shell',
      over: true,
    },
    { fill: [3, 3], swatch: 'shell' },
    {
      cut: [
        [-1, 0],
        [9, 9],
      ],
    },
    {
      join: [
        [1, 1],
        [2, 2],
        [3, 3],
      ],
    },
    {
      bridge: [
        [1, 2],
        [3, 4],
      ],
    },
    {
      open: [
        [5, 6],
        [7, 8],
      ],
    },
  ],
  settings: {
    maxGap: 6,
    absorb: 4,
    caution: 0.4,
    threshold: { method: 'sauvola', window: 31 },
    exceptions: [{ check: 'specks', bounds: [1, 1, 3, 3] }],
  },
};

describe('scalePlan', () => {
  it('multiplies what is measured in pixels, each side by its own ratio', () => {
    const scaled = scalePlan(plan, [20, 80]);
    expect(scaled.size).toEqual([20, 80]);
    expect(scaled.palette).toEqual(plan.palette);
    expect(scaled.marks).toEqual([
      { point: [2, 8], swatch: 'shell', note: 'lit by the lamp' },
      {
        polygon: [
          [
            [0, 0],
            [8, 0],
            [0, 16],
          ],
          [],
        ],
        swatch: 'shell',
        over: true,
      },
      { fill: [6, 12], swatch: 'shell' },
      {
        cut: [
          [-2, 0],
          [18, 36],
        ],
      },
      {
        join: [
          [2, 4],
          [4, 8],
          [6, 12],
        ],
      },
      {
        bridge: [
          [2, 8],
          [6, 16],
        ],
      },
      {
        open: [
          [10, 24],
          [14, 32],
        ],
      },
    ]);
    // The ratios are 2 and 4: lengths by √8, areas by 8.
    expect(scaled.settings).toEqual({
      maxGap: 6 * Math.sqrt(8),
      absorb: 32,
      caution: 0.4,
      threshold: { method: 'sauvola', window: 87 },
      exceptions: [{ check: 'specks', bounds: [2, 4, 6, 12] }],
    });
  });

  it('gives the same plan for its own size, and back', () => {
    expect(scalePlan(plan, [10, 20])).toEqual(plan);
    expect(scalePlan(scalePlan(plan, [40, 80]), [10, 20])).toEqual(plan);
  });

  it('keeps windows odd and in range', () => {
    const window = (width: number, height: number): number =>
      scalePlan(plan, [width, height]).settings!.threshold!.window!;
    expect(window(1, 2)).toBe(3);
    expect(window(20_000, 100_000)).toBe(32_767);
    expect(window(11, 22) % 2).toBe(1);
  });

  it('refuses what is no plan or no size', () => {
    expect(() => scalePlan({ ...plan, version: 2 } as never, [1, 1])).toThrow('plan.version');
    expect(() => scalePlan(plan, [0, 3])).toThrow(
      new RangeError('size must be [width, height] in whole pixels >= 1, got [0, 3]'),
    );
  });
});
