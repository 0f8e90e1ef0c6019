/** `applyPlan` against what marks mean, on small random pictures with random plans. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyPlan } from '../../src/flats/apply-plan.ts';
import type { Mark } from '../../src/flats/marks/table.ts';
import { raster } from '../../src/raster/raster.ts';
import { BARE, followByOracle, GROUND, OPEN } from './marks-oracle.ts';

const palette = [
  { name: 'fur', color: '#8a5d42' },
  { name: 'shell', color: '#d2603a' },
  { name: 'scarf', color: '#1d6f8c' },
];
const NAMES = palette.map(({ name }) => name);

interface Case {
  readonly labels: number[];
  readonly width: number;
  readonly height: number;
  readonly ink: number[] | undefined;
  readonly marks: Mark[];
}

const cases: fc.Arbitrary<Case> = fc
  .record({ width: fc.integer({ min: 1, max: 14 }), height: fc.integer({ min: 1, max: 12 }) })
  .chain(({ width, height }) => {
    const size = width * height;
    const x = fc.integer({ min: 0, max: 2 * width - 1 }).map((n) => n / 2);
    const y = fc.integer({ min: 0, max: 2 * height - 1 }).map((n) => n / 2);
    const point = fc.tuple(x, y);
    const far = fc.tuple(
      fc.integer({ min: -2, max: width + 2 }),
      fc.integer({ min: -2, max: height + 2 }),
    );
    const laying = { swatch: fc.constantFrom(...NAMES), over: fc.boolean() };
    const rectangle = fc.tuple(far, far).map(([[x0, y0], [x1, y1]]) => [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ]);
    const ring = fc.oneof(rectangle, fc.array(far, { minLength: 3, maxLength: 6 }));
    const mark = fc.oneof(
      { weight: 4, arbitrary: fc.record({ point, ...laying }) },
      {
        weight: 6,
        arbitrary: fc.record({
          polygon: fc.array(ring, { minLength: 1, maxLength: 2 }),
          ...laying,
        }),
      },
      { weight: 3, arbitrary: fc.record({ fill: point, ...laying }) },
      { weight: 3, arbitrary: fc.record({ cut: fc.array(far, { minLength: 2, maxLength: 4 }) }) },
      {
        weight: 3,
        arbitrary: fc.record({ join: fc.array(point, { minLength: 2, maxLength: 3 }) }),
      },
      { weight: 1, arbitrary: fc.record({ bridge: fc.tuple(point, point) }) },
      { weight: 1, arbitrary: fc.record({ open: fc.tuple(point, point) }) },
    );
    // A few rectangles of ids, so that regions are wide, some in several parts.
    const block = fc.tuple(x, y, x, y, fc.integer({ min: 0, max: 4 }));
    const labels = fc.array(block, { maxLength: 8 }).map((blocks) => {
      const data = new Array<number>(size).fill(1);
      for (const [ax, ay, bx, by, id] of blocks) {
        for (let v = Math.min(ay, by); v <= Math.max(ay, by); v++) {
          for (let u = Math.min(ax, bx); u <= Math.max(ax, bx); u++) {
            data[Math.floor(v) * width + Math.floor(u)] = id;
          }
        }
      }
      return data;
    });
    const ink = fc.option(
      fc.array(fc.constantFrom(0, 0, 0, 1), { minLength: size, maxLength: size }),
      { nil: undefined },
    );
    const marks = fc.array(mark as fc.Arbitrary<Mark>, { maxLength: 12 });
    return fc.record({
      labels,
      ink,
      marks,
      width: fc.constant(width),
      height: fc.constant(height),
    });
  });

describe('marks', () => {
  it('mean what the oracle says, whatever their order', () => {
    fc.assert(
      fc.property(cases, (input) => {
        const { labels, width, height, ink, marks } = input;
        const expected = followByOracle(input);
        const applied = applyPlan(
          raster(Int32Array.from(labels), [width, height]),
          { version: 1, size: [width, height], palette, marks },
          {
            unnamed: 'each',
            ...(ink === undefined ? {} : { ink: raster(Uint8Array.from(ink), [width, height]) }),
          },
        );
        const { flats, report } = applied;
        const names = Array.from(flats.indices.data, (index) => {
          const { name } = flats.palette[index]!;
          if (index === 0) return BARE;
          if (name === 'ground') return GROUND;
          return NAMES.includes(name) ? name : OPEN;
        });
        const rows = (values: readonly unknown[]): string =>
          Array.from({ length: height }, (_, y) =>
            values.slice(y * width, (y + 1) * width).join(' '),
          ).join('\n');
        expect(rows(names)).toBe(rows(expected.swatch));
        expect(rows(canonical(applied.labels.data))).toBe(rows(canonical(expected.region)));
        expect(report.conflicts.map(({ region, ...rest }) => rest)).toEqual(expected.conflicts);
        for (const { region } of report.conflicts) expect(region).toBeGreaterThan(0);
        expect(report.unlabeled).toEqual(expected.unlabeled);
        const idle = report.notes.filter(({ why }) => !why.includes('bare paper'));
        expect(idle.map(({ mark }) => mark)).toEqual(expected.idle);
        expect(report.regions).toBe(new Set(expected.region.filter((id) => id !== 0)).size);
      }),
      { numRuns: 1000 },
    );
  });
});

/** Ids renumbered by first pixel, so that two numberings of the same regions are equal. */
function canonical(ids: ArrayLike<number>): number[] {
  const numbers = new Map<number, number>([[0, 0]]);
  return Array.from(ids, (id) => {
    if (!numbers.has(id)) numbers.set(id, numbers.size);
    return numbers.get(id)!;
  });
}
