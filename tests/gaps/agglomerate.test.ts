import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agglomerate } from '../../src/gaps/agglomerate.ts';
import type { Border } from '../../src/gaps/borders.ts';
import type { FaceMeasures } from '../../src/gaps/face-map.ts';
import { groupRivals } from '../../src/gaps/rivals.ts';
import { SEPARATION } from '../../src/gaps/separation.ts';

/** Faces of 100 pixels in a row or a net, with borders of 10 pixels. */
function net(count: number): FaceMeasures {
  return {
    count,
    area: new Float64Array(count + 1).fill(100),
    perimeter: new Float64Array(count + 1).fill(40),
    outer: new Uint8Array(count + 1),
  };
}

const border = (bridge: number, a: number, b: number): Border => ({ bridge, a, b, pixels: 10 });
const weigh = (odds: readonly number[]) =>
  odds.map((one, group) => ({ odds: one, length: 10, width: 4, group }));
interface Claiming {
  readonly bias?: number;
  readonly marks?: readonly number[];
  readonly kept?: readonly number[];
  readonly outer?: readonly number[];
  readonly claim?: boolean;
  readonly groundMarked?: boolean;
}
const padded = (values: readonly number[], count: number): number[] =>
  Array.from({ length: count }, (_, i) => values[i] ?? 0);
const run = (
  count: number,
  borders: readonly Border[],
  odds: readonly number[],
  {
    bias = 0,
    marks = [] as readonly number[],
    kept = [] as readonly number[],
    outer = [] as readonly number[],
    ...claims
  }: Claiming = {},
) =>
  agglomerate({
    ...claims,
    faces: { ...net(count), outer: Uint8Array.from([0, ...padded(outer, count)]) },
    borders,
    bridges: weigh(odds),
    separation: (row) => row[SEPARATION.indexOf('sumOfOdds')]!,
    strokeWidth: 4,
    widest: 5,
    bias,
    marks: Int32Array.from([0, ...padded(marks, count)]),
    kept: Uint8Array.from([0, ...padded(kept, count)]),
  });

describe('agglomerate', () => {
  it('joins what is to be joined, and weighs common borders together', () => {
    // 1 | 2 | 3 in a ring: joining 1 and 2 brings their borders with 3 together.
    const borders = [border(0, 1, 2), border(1, 2, 3), border(2, 1, 3)];
    const joined = run(3, borders, [-3, 2, -1]);
    expect([...joined.region]).toEqual([0, 1, 1, 3]);
    expect([...joined.odds]).toEqual([-3, 1, 1]);
    expect([...run(3, borders, [-3, 2, -2.5]).region]).toEqual([0, 1, 1, 1]);
  });

  it('asks for more where more is asked for', () => {
    const borders = [border(0, 1, 2), border(1, 2, 3)];
    expect([...run(3, borders, [1, 3], { bias: 2 }).region]).toEqual([0, 1, 1, 3]);
    expect([...run(3, borders, [-1, -3], { bias: -2 }).region]).toEqual([0, 1, 2, 2]);
  });

  it('never joins what is marked apart', () => {
    const borders = [border(0, 1, 2), border(1, 2, 3)];
    const { region } = run(3, borders, [-1, -2], { marks: [1, 0, 2] });
    expect([...region]).toEqual([0, 1, 2, 2]);
  });

  it('gives unmarked faces to the marked one across the least certain border, and says so', () => {
    const borders = [border(0, 1, 2), border(1, 2, 3), border(2, 3, 4)];
    // Face 2 lies between the marks of 1 and 3; 4 borders on 3 across a border that is too sure.
    const claimed = run(4, borders, [2, 3, 4.5], { marks: [1, 0, 2, 0], claim: true });
    expect([...claimed.region]).toEqual([0, 1, 1, 3, 4]);
    expect(claimed.claims).toEqual([{ faces: [2], odds: 2 }]);
    expect([...run(4, borders, [2, 3, 4.5], { marks: [1, 0, 2, 0] }).region]).toEqual([
      0, 1, 2, 3, 4,
    ]);
    // Through another unmarked face, which is claimed first; across ink there is no border.
    const through = run(4, [border(0, 1, 2), border(1, 2, 3)], [2, 1], {
      marks: [1, 0, 0, 0],
      claim: true,
    });
    expect([...through.region]).toEqual([0, 1, 1, 1, 4]);
    expect(through.claims.map(({ faces }) => faces)).toEqual([[2], [3]]);
  });

  it('claims nothing that is kept, nor the ground unless a mark names it', () => {
    const borders = [border(0, 1, 2)];
    const marks = [1, 0];
    expect([...run(2, borders, [2], { marks, claim: true, kept: [0, 1] }).region]).toEqual([
      0, 1, 2,
    ]);
    expect([...run(2, borders, [2], { marks, claim: true, outer: [0, 1] }).region]).toEqual([
      0, 1, 2,
    ]);
    const named = { marks, claim: true, outer: [0, 1], groundMarked: true };
    expect([...run(2, borders, [2], named).region]).toEqual([0, 1, 1]);
    // The ground, face 3, takes what would be claimed across a surer border.
    const between = [border(0, 1, 2), border(1, 2, 3)];
    const ground = { marks: [1, 0, 0], claim: true, outer: [0, 0, 1] };
    expect([...run(3, between, [3, 2], ground).region]).toEqual([0, 1, 2, 2]);
    expect([...run(3, between, [2, 3], ground).region]).toEqual([0, 1, 1, 3]);
  });

  it('keeps marks apart only where that has a probability of 0.1', () => {
    const marks = [1, 2];
    expect([...run(2, [border(0, 1, 2)], [-2.1], { marks }).region]).toEqual([0, 1, 2]);
    expect([...run(2, [border(0, 1, 2)], [-2.3], { marks }).region]).toEqual([0, 1, 1]);
  });

  it('takes what a person asked for as no sign of a leaky drawing', () => {
    const columns = ['meanOdds', 'facesPerGap', 'sureGaps', 'shareOfSureGaps'] as const;
    const page = (count: number, odds: readonly number[], unasked?: readonly number[]) => {
      const borders = odds.map((_, i) => border(i, i + 1, i + 2));
      const rows: number[][] = [];
      agglomerate({
        faces: net(count),
        borders,
        bridges: weigh(odds),
        ...(unasked === undefined ? {} : { unasked: weigh(unasked) }),
        separation: (row) => {
          rows.push(columns.map((name) => row[SEPARATION.indexOf(name)]!));
          return row[SEPARATION.indexOf('sumOfOdds')]!;
        },
        strokeWidth: 4,
        widest: 5,
        bias: 0,
        marks: new Int32Array(count + 1),
      });
      return rows[0];
    };
    const plain = page(3, [2, -1]);
    expect(plain).toEqual([0.5, 1.5, 1, 0.5]);
    expect(page(4, [40, 2, -1], [2, -1])).toEqual(plain);
  });

  it('joins everything that may be joined at last, whatever the net', () => {
    const nets = fc.integer({ min: 2, max: 30 }).chain((count) =>
      fc.record({
        count: fc.constant(count),
        pairs: fc.uniqueArray(
          fc
            .tuple(fc.integer({ min: 1, max: count }), fc.integer({ min: 1, max: count }))
            .filter(([a, b]) => a < b),
          { maxLength: 60, selector: ([a, b]) => 100 * a + b },
        ),
      }),
    );
    fc.assert(
      fc.property(
        nets,
        fc.array(fc.integer({ min: -9, max: -1 }), { minLength: 60, maxLength: 60 }),
        ({ count, pairs }, odds) => {
          const borders = pairs.map(([a, b], i) => border(i, a, b));
          const { region } = run(count, borders, odds.slice(0, pairs.length));
          const least = Array.from({ length: count + 1 }, (_, i) => i);
          for (let round = 0; round < count; round++) {
            for (const [a, b] of pairs) least[a] = least[b] = Math.min(least[a]!, least[b]!);
          }
          expect([...region]).toEqual(least);
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });
});

describe('groupRivals', () => {
  it('takes what crosses a better one or shares its end for the same gap', () => {
    const at = (...pixels: number[]) => Int32Array.from(pixels);
    const groups = groupRivals([
      { a: 0, b: 1, pixels: at(5, 6, 7) },
      { a: 2, b: -1, pixels: at(20, 21) },
      { a: 0, b: 3, pixels: at(9) },
      { a: -1, b: -1, pixels: at(6, 16) },
      { a: 3, b: -1, pixels: at(30) },
    ]);
    // The last shares an end only with one that leads nothing.
    expect([...groups]).toEqual([0, 1, 0, 0, 2]);
  });
});
