import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  areaBetween,
  checkFlats,
  type FlatsCheck,
  mustTouch,
  neverTouches,
  staysWithin,
} from '../../src/checks/index.ts';
import { raster } from '../../src/raster/raster.ts';
import { symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';
import { places } from './oracle.ts';

const NAMES = ['bare', 'scarf', 'fur', 'sky'];
const palette = NAMES.map((name, i) => ({ name, color: `#0000${i}0` }));

type Grid = number[][];

const picture = (seed: number, w: number, h: number): Grid => {
  const next = seeded(seed);
  return Array.from({ length: h }, () => Array.from({ length: w }, () => Math.floor(next() * 4)));
};
const indicesOf = (grid: Grid) =>
  raster(Uint8Array.from(grid.flat()), [grid[0]!.length, grid.length]);

/** Neighbors of a pixel by edges, -1 outside. */
const besides = (grid: Grid, place: string): number[] => {
  const [x, y] = place.split(',').map(Number) as [number, number];
  return [
    [x - 1, y],
    [x + 1, y],
    [x, y - 1],
    [x, y + 1],
  ].map(([u, v]) => grid[v!]?.[u!] ?? -1);
};

/** The regions of `scarf` of which what lies beside their pixels says yes. */
const wrong = (grid: Grid, isWrong: (beside: number[]) => boolean): number[] =>
  places(grid, (value) => value === 1, 4)
    .filter((place) => isWrong(place.flatMap((pixel) => besides(grid, pixel))))
    .map((place) => place.length);

const areas = (grid: Grid, rule: FlatsCheck): number[] =>
  checkFlats({ indices: indicesOf(grid), palette }, { checks: [rule] }).map(({ area }) => area);

describe('rules', () => {
  it('find what asking every pixel finds, in all symmetries', () => {
    fc.assert(
      fc.property(
        fc.integer(),
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: 1, max: 7 }),
        (seed, w, h) => {
          const grid = picture(seed, w, h);
          expect(areas(grid, mustTouch('scarf', 'fur'))).toEqual(
            wrong(grid, (beside) => !beside.includes(2)),
          );
          expect(areas(grid, staysWithin('scarf', 'fur'))).toEqual(
            wrong(grid, (beside) => beside.some((value) => value !== 1 && value !== 2)),
          );
          const touching = checkFlats(
            { indices: indicesOf(grid), palette },
            { checks: [neverTouches('scarf', 'fur')] },
          );
          let edges = 0;
          grid.forEach((row, y) => {
            row.forEach((value, x) => {
              if (value === 1) edges += besides(grid, `${x},${y}`).filter((v) => v === 2).length;
            });
          });
          expect(touching.reduce((sum, { length }) => sum + length!, 0)).toBe(edges);
          const rules = [
            mustTouch('scarf', 'fur'),
            staysWithin('scarf', 'fur'),
            neverTouches('fur', 'scarf'),
          ];
          const tally = symmetries(indicesOf(grid)).map((indices) =>
            checkFlats({ indices, palette }, { checks: rules })
              .map(({ check, area, length }) => `${check} ${area} ${length}`)
              .sort(),
          );
          for (const other of tally) expect(other).toEqual(tally[0]);
        },
      ),
      { seed: 5, numRuns: 150 },
    );
  });

  it('bound the area of a swatch', () => {
    const grid = [
      [1, 1, 2],
      [1, 0, 2],
    ];
    const told = (rule: FlatsCheck) =>
      checkFlats({ indices: indicesOf(grid), palette }, { checks: [rule] }).map((f) => f.message);
    expect(told(areaBetween('scarf', 3, 3))).toEqual([]);
    expect(told(areaBetween('scarf', 4, 5))).toEqual(['"scarf" has 3 pixels, not 4 to 5']);
    expect(told(areaBetween('scarf', 0, 2))).toEqual(['"scarf" has 3 pixels, not 0 to 2']);
    expect(told(areaBetween('sky', 1, Number.POSITIVE_INFINITY))).toEqual([
      '"sky" has 0 pixels, not 1 to Infinity',
    ]);
    expect(told(areaBetween('hat', 0, 2))).toEqual([]);
  });

  it('say nothing of swatches that are not there', () => {
    const grid = [[2, 2, 3]];
    expect(areas(grid, mustTouch('scarf', 'fur'))).toEqual([]);
    expect(areas(grid, staysWithin('hat', 'fur'))).toEqual([]);
    expect(areas(grid, neverTouches('hat', 'shell'))).toEqual([]);
    expect(areas([[1, 3, 1]], mustTouch('scarf', 'hat'))).toEqual([1, 1]);
  });

  it('can be excepted by their names', () => {
    const art = { indices: indicesOf([[1, 3, 1]]), palette };
    const rule = mustTouch('scarf', 'fur');
    const exceptions = [{ check: rule.name, at: [2.5, 0.5], note: 'hangs over the rail' }] as const;
    expect(checkFlats(art, { checks: [rule], exceptions }).map(({ at }) => at)).toEqual([
      [0.5, 0.5],
    ]);
  });

  it('refuse names that are none', () => {
    expect(() => mustTouch('scarf', 'scarf')).toThrow(
      new RangeError('b must be another swatch than a, got "scarf"'),
    );
    expect(() => neverTouches(1 as unknown as string, 'fur')).toThrow(TypeError);
    expect(() => staysWithin('', 'fur')).toThrow(RangeError);
    expect(() => areaBetween('scarf', 3, 2)).toThrow(
      new RangeError('max must be a finite number of pixels >= 3, got 2'),
    );
  });
});
