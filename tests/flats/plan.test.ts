import { describe, expect, it } from 'vitest';
import { type AppliedPlan, applyPlan } from '../../src/flats/apply-plan.ts';
import { layFlats } from '../../src/flats/lay-flats.ts';
import type { Mark } from '../../src/flats/marks/table.ts';
import type { Plan } from '../../src/flats/plan.ts';
import { raster } from '../../src/raster/raster.ts';
import { grid, labels, literal, mask } from '../support/grids.ts';

/** Two rooms side by side on open ground. */
const ROOMS = `
  . . . . . . . . .
  . 1 1 1 1 1 1 1 .
  . 1 . . 1 . . 1 .
  . 1 . . 1 . . 1 .
  . 1 1 1 1 1 1 1 .
  . . . . . . . . .`;
const palette = [
  { name: 'fur', color: '#8a5d42' },
  { name: 'sash', color: '#1d6f8c' },
];
const planOf = (marks: Mark[], size: [number, number] = [9, 6]): Plan => {
  return { version: 1, size, palette, marks };
};
const ink = mask(ROOMS);
const nameAt = ({ flats }: Pick<AppliedPlan, 'flats'>, x: number, y: number): string =>
  flats.palette[flats.indices.get(x, y)]!.name;

describe('plan', () => {
  it('lays swatches, the ground, and a placeholder on what is left', () => {
    const laid = layFlats(
      { ink },
      { plan: planOf([{ point: [2.5, 2.5], swatch: 'fur' }]), maxGap: 0 },
    );
    expect(grid(laid.labels)).toBe(
      literal(`
        1 1 1 1 1 1 1 1 1
        1 1 1 1 1 1 1 1 1
        1 1 2 2 2 3 3 1 1
        1 1 2 2 2 3 3 1 1
        1 1 1 1 1 1 1 1 1
        1 1 1 1 1 1 1 1 1`),
    );
    expect(laid.flats.palette.map(({ name }) => name)).toEqual([
      'bare',
      'fur',
      'sash',
      'ground',
      'region 5,2',
    ]);
    expect([nameAt(laid, 2, 2), nameAt(laid, 6, 3), nameAt(laid, 0, 0)]).toEqual([
      'fur',
      'region 5,2',
      'ground',
    ]);
    expect(laid.flats.ground).toBe('ground');
    const { regions, named, ground, unnamed, conflicts, outside, unlabeled } = laid.report;
    expect({ regions, named, ground, unnamed }).toEqual({
      regions: 3,
      named: 1,
      ground: 1,
      unnamed: [{ id: 3, inside: [5.5, 2.5], area: 4, bounds: [5, 2, 7, 4] }],
    });
    expect(laid.report.groundIds).toEqual([1]);
    expect([conflicts, outside, unlabeled]).toEqual([[], [], []]);
  });

  it('gives the whole region to a point on ink that it has grown over', () => {
    const laid = layFlats(
      { ink },
      { plan: planOf([{ point: [4, 3], swatch: 'sash' }]), maxGap: 0 },
    );
    expect(nameAt(laid, 2, 2)).toBe('sash');
  });

  it('keeps the first of two swatches in one region, and says so', () => {
    const marks: Mark[] = [
      { point: [5.2, 2.9], swatch: 'sash' },
      { point: [6.9, 3.1], swatch: 'sash' },
      { point: [6, 2], swatch: 'fur' },
    ];
    const laid = layFlats({ ink }, { plan: planOf(marks), maxGap: 0 });
    expect(nameAt(laid, 5, 2)).toBe('sash');
    expect(laid.report.conflicts).toEqual([
      { mark: 2, point: [6, 2], swatch: 'fur', keeps: 'sash', by: 0, leaks: [], region: 3 },
    ]);
  });

  it('closes a doubtful gap that keeps two swatches apart', () => {
    const rooms = raster(new Uint8Array(61 * 31), [61, 31]);
    for (let x = 0; x < 61; x++) for (const y of [0, 30]) rooms.set(x, y, 1);
    for (let y = 0; y < 31; y++) for (const x of [0, 60]) rooms.set(x, y, 1);
    for (let y = 0; y < 31; y++) if (y < 13 || y > 16) rooms.set(30, y, 1);
    const marks: Mark[] = [
      { point: [2, 2], swatch: 'fur' },
      { point: [50, 2], swatch: 'sash' },
    ];
    const input = { ink: rooms };
    const cautious = { caution: 1, maxGap: 8 };
    expect(layFlats(input, cautious).report.regions).toBe(1);
    const laid = layFlats(input, { ...cautious, plan: planOf(marks, [61, 31]) });
    expect(laid.report.conflicts).toEqual([]);
    expect([nameAt(laid, 2, 15), nameAt(laid, 50, 15)]).toEqual(['fur', 'sash']);
  });

  it('names the ground where a mark asks for it, and lets a mark take its place', () => {
    const marks: Mark[] = [{ point: [0, 0], swatch: 'sash' }];
    const marked = layFlats({ ink }, { plan: planOf(marks), maxGap: 0 });
    expect(nameAt(marked, 8, 5)).toBe('sash');
    expect(marked.flats.ground).toBeUndefined();
    const named = layFlats({ ink }, { plan: planOf([]), ground: 'fur', maxGap: 0 });
    expect(nameAt(named, 0, 0)).toBe('fur');
    expect(named.flats.ground).toBe('fur');
    expect(named.flats.palette[1]).toEqual(palette[0]);
    const sky = layFlats({ ink }, { ground: { name: 'sky', color: '#AABBCC' }, maxGap: 0 });
    expect(sky.flats.palette[1]).toEqual({ name: 'sky', color: '#aabbcc' });
  });

  it('gives what no mark names a swatch each, or one for all', () => {
    const each = layFlats({ ink }, { maxGap: 0 });
    expect(nameAt(each, 2, 2)).not.toBe(nameAt(each, 6, 2));
    const shared = layFlats({ ink }, { unnamed: 'shared', maxGap: 0 });
    expect(nameAt(shared, 2, 2)).toBe('unnamed');
    expect(nameAt(shared, 6, 2)).toBe('unnamed');
    expect(shared.flats.palette.length).toBe(3);
    expect(shared.report.unnamed.map(({ id, area }) => [id, area])).toEqual([
      [2, 6],
      [3, 4],
    ]);
  });

  it('takes another name where the plan has the placeholder’s', () => {
    const own = [
      { name: 'region 5,2', color: '#8a5d42' },
      { name: 'unnamed', color: '#1d6f8c' },
    ];
    const plan: Plan = { ...planOf([]), palette: own };
    expect(nameAt(layFlats({ ink }, { plan, maxGap: 0 }), 6, 2)).toBe('region 5,2 (2)');
    const shared = layFlats({ ink }, { plan, maxGap: 0, unnamed: 'shared' });
    expect(nameAt(shared, 6, 2)).toBe('unnamed (2)');
  });

  it('needs 16 bit indices above 256 swatches', () => {
    const many = raster(
      Uint8Array.from({ length: 1200 }, (_, i) => i % 2),
      [1200, 1],
    );
    const { flats } = layFlats({ ink: many }, { maxGap: 0, ground: 'paper' });
    expect(flats.indices.dtype).toBe('uint8');
    const column = new Uint8Array(3 * 1201).fill(1);
    for (let x = 1; x < 1200; x += 2) column[1201 + x] = 0;
    const cells = layFlats({ ink: raster(column, [1201, 3]) }, { maxGap: 0 });
    expect(cells.flats.palette.length).toBe(601);
    expect(cells.flats.indices.dtype).toBe('uint16');
    expect(new Set(cells.flats.palette.map(({ color }) => color)).size).toBe(601);
  });
});

describe('applyPlan', () => {
  const grown = labels(`
    1 1 1 1
    1 2 2 1
    1 2 2 1
    1 1 1 1`);

  it('lays swatches on labels and copies them', () => {
    const plan = planOf([{ point: [1, 1], swatch: 'sash' }], [4, 4]);
    const applied = applyPlan(grown, plan);
    expect(nameAt(applied, 2, 2)).toBe('sash');
    expect(nameAt(applied, 0, 3)).toBe('ground');
    expect(applied.labels.data).toEqual(grown.data);
    expect(applied.labels.data.buffer).not.toBe(grown.data.buffer);
  });

  it('reports points outside when asked to, and points on no region', () => {
    const bare = labels(`
      . 2
      2 2`);
    const outside: Mark = { point: [2, 0], swatch: 'fur' };
    const none: Mark = { point: [0.5, 0.5], swatch: 'sash' };
    const plan = planOf([outside, none], [2, 2]);
    const { flats, report } = applyPlan(bare, plan, { outside: 'report' });
    expect(report.outside).toEqual([{ mark: 0, ...outside }]);
    expect(report.unlabeled).toEqual([{ mark: 1, ...none }]);
    expect(flats.indices.get(0, 0)).toBe(0);
    expect(() => applyPlan(bare, plan)).toThrow(
      new RangeError('plan.marks[0].point must be inside the picture of 2 × 2, got [2, 0]'),
    );
  });

  it('takes for the ground what touches the border off the ink', () => {
    const lines = labels(`
      1 1 1
      1 1 2
      1 2 2`);
    const edge = mask(`
      . . .
      . . 1
      . 1 1`);
    const plan = planOf([], [3, 3]);
    expect(nameAt(applyPlan(lines, plan), 2, 2)).toBe('ground');
    expect(nameAt(applyPlan(lines, plan, { ink: edge }), 2, 2)).toBe('region 2,1');
  });
});
