import { describe, expect, it } from 'vitest';
import { leaksBetween, sealGaps, studyGaps } from '../../src/gaps/index.ts';
import { LeakFinder } from '../../src/gaps/leaks.ts';
import { Study } from '../../src/gaps/study.ts';
import { maskArgument } from '../../src/raster/arguments.ts';
import { raster } from '../../src/raster/index.ts';
import { labelRegions } from '../../src/regions/label.ts';
import { otherViews, symmetries } from '../support/grids.ts';
import { type Bytes, draw, erase, page, type Segment } from './strokes.ts';

/** Three rooms in a row; the walls between them have gaps of 6 and 13 pixels. */
function rooms(): Bytes {
  const ink = draw(
    page(160, 60),
    4,
    [0, 2, 160, 2],
    [0, 58, 160, 58],
    [2, 0, 2, 60],
    [158, 0, 158, 60],
    [54, 0, 54, 60],
    [106, 0, 106, 60],
  );
  return erase(ink, 6, [54, 20, 54, 33], [106, 34, 106, 40]);
}

const LEFT = [20.5, 30.5] as const;
const RIGHT = [140.5, 30.5] as const;

describe('leaksBetween', () => {
  it('gives the narrow places of the way, narrowest first, each a bridge that closes it', () => {
    const ink = rooms();
    const leaks = leaksBetween(ink, LEFT, RIGHT);
    expect(leaks.map(({ width }) => Math.round(width))).toEqual([6, 13]);
    for (const { at, bridge, width } of leaks) {
      for (const [x, y] of bridge) expect(ink.get(Math.floor(x), Math.floor(y))).toBe(1);
      expect(ink.get(Math.floor(at[0]), Math.floor(at[1]))).toBe(0);
      const [[x0, y0], [x1, y1]] = bridge;
      expect(Math.hypot(x1 - x0, y1 - y0)).toBeCloseTo(width + 1, 9);
      const { labels } = labelRegions(sealGaps(ink, { maxGap: 0, bridge: [bridge] }).sealed, {
        of: 0,
      });
      expect(labels.get(20, 30)).not.toBe(labels.get(140, 30));
    }
    expect(leaks.every(({ probability }) => probability > 0 && probability < 1)).toBe(true);
  });

  it('gives none where ink parts the points, and none within one room', () => {
    const ink = draw(rooms(), 4, [80, 0, 80, 60]);
    expect(leaksBetween(ink, LEFT, RIGHT)).toEqual([]);
    expect(leaksBetween(rooms(), LEFT, [40, 12])).toEqual([]);
    expect(leaksBetween(raster(new Uint8Array(9).fill(1), [3, 3]), [0, 0], [2, 2])).toEqual([]);
  });

  it('finds the mouth of a bay that is nowhere narrower, for points that are to be apart', () => {
    const ink = draw(
      page(90, 60),
      4,
      [0, 2, 90, 2],
      [0, 58, 90, 58],
      [2, 0, 2, 60],
      [88, 0, 88, 60],
    );
    draw(ink, 4, [0, 20, 30, 20], [0, 35, 30, 35]);
    const finder = new LeakFinder(new Study(maskArgument(ink, 'ink')));
    const at = (x: number, y: number) => y * 90 + x;
    expect(finder.find(at(20, 27), at(60, 30))).toEqual([]);
    const [leak, ...others] = finder.findAny(at(20, 27), at(60, 30));
    expect(others).toEqual([]);
    expect(leak?.at[0]).toBeGreaterThan(26);
    expect(leak?.at[0]).toBeLessThan(36);
    expect(leak?.width).toBeLessThan(13);
  });

  it('answers for a study, for other views, and for points on ink, as for the mask', () => {
    const ink = rooms();
    const expected = leaksBetween(ink, LEFT, RIGHT);
    expect(leaksBetween(studyGaps(ink), LEFT, RIGHT)).toEqual(expected);
    for (const view of otherViews(ink)) expect(leaksBetween(view, LEFT, RIGHT)).toEqual(expected);
    expect(leaksBetween(ink, [2, 30], RIGHT).map(({ width }) => width)).toEqual(
      expected.map(({ width }) => width),
    );
  });

  it('takes the nearest paper for a point on ink, ties to the first row by row', () => {
    // (15, 10) and (11, 12) are both 5 pixels from the middle; two rooms lie above the first.
    const ink = raster(new Uint8Array(31 * 31).fill(1), [31, 31]);
    for (let y = 1; y <= 10; y++) ink.set(15, y, 0);
    for (const y of [1, 2, 3, 7, 8, 9]) for (let x = 13; x < 18; x++) ink.set(x, y, 0);
    for (let x = 1; x <= 11; x++) ink.set(x, 12, 0);
    const leaks = leaksBetween(ink, [15.5, 15.5], [15.5, 2.5]);
    expect(leaks.map(({ at, width }) => ({ at, width }))).toEqual([{ at: [15.5, 5.5], width: 1 }]);
  });

  it('finds the same widths in all symmetries', () => {
    const marks = [LEFT, RIGHT].map(([x, y]) => {
      const mark = page(160, 60);
      mark.set(Math.floor(x), Math.floor(y), 1);
      return symmetries(mark);
    });
    symmetries(rooms()).forEach((ink, i) => {
      const [a, b] = marks.map((all) => {
        const { data, width } = dense(all[i]!);
        const p = data.indexOf(1);
        return [(p % width) + 0.5, Math.floor(p / width) + 0.5] as const;
      });
      expect(leaksBetween(ink, a!, b!).map(({ width }) => Math.round(width))).toEqual([6, 13]);
    });
  });

  it('tells of ink that is too pale for the threshold, and which level would hold', () => {
    const ink = rooms();
    const coverage = raster(
      ink.data.map((value) => 255 * value),
      [160, 60],
    );
    for (let y = 18; y < 36; y++)
      for (let x = 52; x < 56; x++) {
        if (ink.get(x, y) === 0) coverage.set(x, y, y === 26 ? 70 : 90);
      }
    const [clear, pale] = leaksBetween(ink, LEFT, RIGHT, { coverage });
    expect(clear).not.toHaveProperty('pale');
    expect(pale!.pale!.level).toBe(69);
    expect(pale!.pale!.mean).toBeGreaterThan(80);
    expect(pale!.pale!.mean).toBeLessThan(90);
  });

  it('names what is wrong with its arguments', () => {
    const ink = rooms();
    expect(() => leaksBetween(ink, [160, 3], RIGHT)).toThrow(
      'a must be inside the picture of 160 × 60, got [160, 3]',
    );
    expect(() => leaksBetween(ink, LEFT, 'there' as never)).toThrow('b must be a point [x, y]');
    expect(() => leaksBetween(ink, LEFT, RIGHT, { coverage: page(3, 3) })).toThrow(
      'coverage must have the size of ink, 160 × 60, got 3 × 3',
    );
  });
});

function dense(mask: Bytes): { data: Uint8Array; width: number } {
  const [width, height] = mask.shape as [number, number];
  const data = new Uint8Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) data[y * width + x] = mask.get(x, y);
  return { data, width };
}

describe('studyGaps with a coverage', () => {
  /** Probability of the bridge across a gap of 26 pixels in the wall of two rooms. */
  const probability = (tone: number): number => {
    const walls = [0, 2, 160, 2, 0, 58, 160, 58, 2, 0, 2, 60, 158, 0, 158, 60, 54, 0, 54, 60];
    const ink = page(160, 60);
    for (let k = 0; k < walls.length; k += 4) {
      draw(ink, 4, walls.slice(k, k + 4) as unknown as Segment);
    }
    const closed = ink.data.slice();
    erase(ink, 6, [54, 17, 54, 43]);
    const coverage = raster(
      closed.map((value, p) => (value === 0 ? 0 : ink.data[p] === 1 ? 255 : tone)),
      [160, 60],
    );
    return studyGaps(ink, { coverage }).seal().bridges[0]!.probability;
  };

  it('lets pale ink that leads across a gap speak for a bridge', () => {
    const [none, grain, pale] = [0, 20, 120].map(probability);
    expect(grain).toBe(none);
    expect(pale).toBeGreaterThan(none!);
  });

  it('refuses a coverage of another size', () => {
    expect(() => studyGaps(rooms(), { coverage: page(3, 3) })).toThrow(
      'coverage must have the size of ink, 160 × 60, got 3 × 3',
    );
  });
});
