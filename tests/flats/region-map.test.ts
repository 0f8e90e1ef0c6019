/**
 * Work of marks on regions, counted in calls of `pulse`, one for each 64 rows that are looked at.
 */
import { describe, expect, it } from 'vitest';
import { applyPlan } from '../../src/flats/apply-plan.ts';
import { OPEN } from '../../src/flats/marked-map.ts';
import type { Mark } from '../../src/flats/marks/table.ts';
import { RegionMap } from '../../src/flats/region-map.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Point } from '../../src/raster/types.ts';

const SIDE = 512;
/** Calls for one look at all rows of the page. */
const PAGE = SIDE / 64;

const square = (x0: number, y0: number, x1: number, y1: number): Point[][] => [
  [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ],
];

/** A page of square cells of regions, with a count of the rows that are looked at. */
function page(cell: number): { regions: RegionMap; looks: () => number } {
  const columns = SIDE / cell;
  const idAt = (i: number): number =>
    1 + Math.floor((i % SIDE) / cell) + columns * Math.floor(i / SIDE / cell);
  const labels = Int32Array.from({ length: SIDE * SIDE }, (_, i) => idAt(i));
  const count = columns * columns + 1;
  const regions = new RegionMap(labels, [SIDE, SIDE], count, new Set(), undefined);
  let calls = 0;
  regions.pulse = () => {
    calls++;
  };
  return { regions, looks: () => calls };
}

describe('the work of marks', () => {
  it('of nested polygons is that of the rows they span', () => {
    const { regions, looks } = page(SIDE);
    const count = 200;
    for (let i = 1; i <= count; i++) {
      const took = regions.take(square(i, i, SIDE - i, SIDE - i), 1 + (i % 2), i, () => true);
      expect(took).toBe('took');
    }
    regions.finish();
    // Once for all pixels; for each polygon its start, and the rows of three passes.
    expect(looks()).toBeLessThanOrEqual(PAGE + count * (1 + 3 * (PAGE + 1)));
    expect(new Set(regions.labels).size).toBe(count + 1);
  });

  it('of small polygons with a point after each does not grow with the page', () => {
    const { regions, looks } = page(SIDE);
    let count = 0;
    for (let y = 8; y < SIDE - 8; y += 16) {
      for (let x = 8; x < SIDE - 8; x += 16) {
        regions.take(square(x, y, x + 6, y + 6), 1, count++, () => true);
        regions.lay(regions.at(x + 8, y + 8), 2, count);
      }
    }
    regions.finish();
    expect(count).toBe(31 * 31);
    expect(looks()).toBeLessThanOrEqual(PAGE + 7 * count);
  });

  it('of polygons that tear one region apart is one look at the end', () => {
    const { regions, looks } = page(SIDE);
    // The page is not known to be connected before the first: that is looked at once.
    for (let y = 4; y < SIDE; y += 8) regions.take(square(0, y, SIDE, y + 2), 1, 0, () => true);
    const before = looks();
    expect(before).toBeLessThanOrEqual(64 * 8 + 8 * PAGE);
    regions.finish();
    expect(looks() - before).toBeLessThanOrEqual(8 * PAGE);
    expect(new Set(regions.labels).size).toBe(64 + 65);
  });

  it('of fills is one look at the borders between regions', () => {
    const { regions, looks } = page(8);
    for (let i = 0; i < 500; i++) {
      const region = regions.at((37 * i) % SIDE, (91 * i) % SIDE);
      if (regions.swatch(region) === OPEN) regions.lay(region, 1 + (i % 2), i);
      else regions.layPatch(region, 3 - regions.swatch(region), i);
    }
    regions.finish();
    expect(looks()).toBeLessThanOrEqual(PAGE);
  });

  it('of joins to a wide region is that of the small ones', () => {
    const { regions, looks } = page(SIDE);
    for (let y = 0; y < SIDE; y += 8) regions.take(square(0, y, 4, y + 4), 1, 0, () => true);
    const before = looks();
    const wide = (): number => regions.at(SIDE - 1, 0);
    for (let y = 0; y < SIDE; y += 8) regions.merge([regions.at(0, y), wide()], wide());
    expect(looks() - before).toBeLessThanOrEqual(2 * 64);
    regions.finish();
    expect(new Set(regions.labels).size).toBe(1);
  });
});

describe('a polygon of very many points', () => {
  it('is taken like any other', () => {
    const count = 150_000;
    const ring = Array.from({ length: count }, (_, i): Point => {
      const angle = (2 * Math.PI * i) / count;
      const radius = i % 2 === 0 ? 245 : 200;
      return [256 + radius * Math.cos(angle), 256 + radius * Math.sin(angle)];
    });
    const labels = raster(new Int32Array(SIDE * SIDE).fill(1), [SIDE, SIDE]);
    const marks: Mark[] = [{ polygon: [ring], swatch: 'shell', over: true }];
    const palette = [{ name: 'shell', color: '#d2603a' }];
    const plan = { version: 1, size: [SIDE, SIDE], palette, marks } as const;
    const { flats } = applyPlan(labels, plan, { unnamed: 'shared' });
    expect(flats.palette[flats.indices.get(256, 256)]!.name).toBe('shell');
    expect(flats.palette[flats.indices.get(0, 0)]!.name).toBe('ground');
  });
});
