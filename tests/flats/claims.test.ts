import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layFlats } from '../../src/flats/index.ts';
import type { Mark } from '../../src/flats/marks/table.ts';
import type { Plan } from '../../src/flats/plan.ts';
import type { Point } from '../../src/raster/types.ts';
import { type Bytes, draw, erase, page } from '../gaps/strokes.ts';

const PALETTE = [
  { name: 'shell', color: '#d2603a' },
  { name: 'scarf', color: '#305080' },
  { name: 'plumes', color: '#f0f0e0' },
  { name: 'fur', color: '#8a5d42' },
];

/** Four rooms in a row with margins round them; the walls between them have gaps. */
function rooms(gaps: readonly (readonly [number, number])[]): Bytes {
  const ink = page(230, 80);
  draw(ink, 4, [8, 10, 222, 10], [8, 70, 222, 70], [10, 8, 10, 72], [220, 8, 220, 72]);
  const walls = [62, 114, 166];
  draw(ink, 4, ...walls.map((x) => [x, 8, x, 72] as const));
  walls.forEach((x, i) => {
    const [from, to] = gaps[i]!;
    if (to > from) erase(ink, 6, [x, from, x, to]);
  });
  return ink;
}

const CENTERS: readonly Point[] = [36, 88, 140, 192].map((x) => [x + 0.5, 40.5]);
const plan = (marks: readonly Mark[]): Plan => ({
  version: 1,
  size: [230, 80],
  palette: PALETTE,
  marks,
});
const point = (room: number, swatch = room): Mark => ({
  point: CENTERS[room]!,
  swatch: PALETTE[swatch]!.name,
});
const swatchAt = ({ flats }: ReturnType<typeof layFlats>, [x, y]: Point): string =>
  flats.palette[flats.indices.get(Math.floor(x), Math.floor(y))!]!.name;

const GAPS = [
  [36, 42],
  [30, 37],
  [28, 52],
] as const;

describe("unnamed: 'claim'", () => {
  it('gives paper that only a bridge parts from a named region to it, and lists it', () => {
    const ink = rooms(GAPS);
    const options = { plan: plan([point(0), point(1), point(3)]) } as const;
    const apart = layFlats({ ink }, options);
    expect(apart.report.unnamed).toHaveLength(1);
    const { report, ...laid } = layFlats({ ink }, { ...options, unnamed: 'claim' });
    const own = CENTERS.map((at) => swatchAt({ report, ...laid }, at));
    expect([own[0], own[1], own[3]]).toEqual(['shell', 'scarf', 'fur']);
    expect(report.unnamed).toEqual([]);
    expect(report.claimed).toHaveLength(1);
    const [claimed] = report.claimed;
    expect(claimed!.swatch).toBe(own[2]);
    expect(['scarf', 'fur']).toContain(claimed!.swatch);
    expect(claimed!.probability).toBeGreaterThanOrEqual(0.5);
    expect(claimed!.probability).toBeLessThanOrEqual(0.983);
    expect(claimed!.region).toBe(laid.labels.get(...floor(claimed!.at)));
    expect(swatchAt({ report, ...laid }, claimed!.at)).toBe(claimed!.swatch);
    expect(claimed!.area).toBeGreaterThan(48 * 50);
  });

  it('claims nothing across ink, nothing that a fill names, and never the ground', () => {
    const closed = [GAPS[0], [0, 0], [0, 0]] as const;
    const behind = layFlats(
      { ink: rooms(closed) },
      { plan: plan([point(0), point(1), point(3)]), unnamed: 'claim' },
    );
    expect(behind.report.claimed).toEqual([]);
    expect(behind.report.unnamed.map(({ inside }) => Math.floor(inside[0] / 52))).toEqual([2]);

    const filled = layFlats(
      { ink: rooms(GAPS) },
      {
        plan: plan([point(0), point(1), point(3), { fill: CENTERS[2]!, swatch: 'plumes' }]),
        unnamed: 'claim',
      },
    );
    expect(filled.report.claimed).toEqual([]);
    expect(swatchAt(filled, CENTERS[2]!)).toBe('plumes');

    // The right wall is open to the margin, which touches the picture's border.
    const leaky = erase(rooms(GAPS), 6, [220, 36, 220, 42]);
    const laid = layFlats({ ink: leaky }, { plan: plan([point(0)]), unnamed: 'claim' });
    expect(swatchAt(laid, [2, 2])).toBe('ground');
    expect(laid.report.claimed.every(({ at }) => at[0] > 10 && at[0] < 220)).toBe(true);
  });

  it('lists what the ground takes across a less certain border than any named region', () => {
    const ink = erase(
      rooms([
        [0, 0],
        [0, 0],
        [31, 49],
      ]),
      6,
      [220, 24, 220, 56],
    );
    const laid = layFlats({ ink }, { plan: plan([point(2)]), unnamed: 'claim' });
    expect(swatchAt(laid, CENTERS[3]!)).toBe('ground');
    const [claimed] = laid.report.claimed;
    expect(claimed).toMatchObject({ region: laid.labels.get(2, 2), swatch: 'ground' });
    expect(claimed!.probability).toBeGreaterThan(0.5);
    expect(swatchAt(laid, claimed!.at)).toBe('ground');
  });

  it('keeps points of different swatches apart where a bridge is likely enough, else says so', () => {
    const ink = rooms(GAPS);
    const laid = layFlats(
      { ink },
      { plan: plan([point(0), point(1), point(2), point(3)]), unnamed: 'claim', caution: 1 },
    );
    expect(CENTERS.map((at) => swatchAt(laid, at))).toEqual(PALETTE.map(({ name }) => name));
    const drawn = laid.report.bridges.filter((bridge) => bridge.drawn);
    expect(drawn).toHaveLength(3);
    // With caution 1 none is drawn for its likelihood: all are forced.
    expect(drawn.every(({ forced, probability }) => forced && probability >= 0.1)).toBe(true);

    const bare = layFlats(
      { ink: erase(ink, 6, [62, 14, 62, 66]) },
      { plan: plan([point(0), point(1)]), unnamed: 'claim' },
    );
    expect(bare.report.bridges.filter((b) => b.drawn && b.probability < 0.1)).toEqual([]);
    const [conflict] = bare.report.conflicts;
    expect(conflict).toMatchObject({ mark: 1, by: 0, swatch: 'scarf', keeps: 'shell' });
    expect(conflict).toHaveProperty('leaks');
  });

  it('joins only what only bridges part: whatever the plan, marks keep their swatches', () => {
    const marks = fc.uniqueArray(fc.nat(3), { minLength: 1, maxLength: 4 });
    const gap = fc.tuple(fc.integer({ min: 14, max: 50 }), fc.integer({ min: 0, max: 14 }));
    fc.assert(
      fc.property(marks, fc.tuple(gap, gap, gap), (named, gaps) => {
        const ink = rooms(gaps.map(([from, length]) => [from, from + length] as const));
        const given = plan(named.map((room) => point(room)));
        const claimed = layFlats({ ink }, { plan: given, unnamed: 'claim' });
        const each = layFlats({ ink }, { plan: given });
        expect(claimed.report.conflicts.length).toBe(each.report.conflicts.length);
        for (const room of named) {
          expect(swatchAt(claimed, CENTERS[room]!)).toBe(swatchAt(each, CENTERS[room]!));
        }
        expect(claimed.report.unnamed.length).toBeLessThanOrEqual(each.report.unnamed.length);
        // Regions with claims are unions of those without.
        const union = new Map<number, number>();
        each.labels.data.forEach((label, p) => {
          if (each.sealed.data[p] === 1 || claimed.sealed.data[p] === 1) return;
          if (!union.has(label)) union.set(label, claimed.labels.data[p]!);
          if (union.get(label) !== claimed.labels.data[p]) throw new Error(`split at ${p}`);
        });
      }),
      { numRuns: 60 },
    );
  });

  it('a mark changes no pixel beyond its region, the neighbors and what bridges part from them', () => {
    const ink = rooms([GAPS[0], [0, 0], GAPS[2]]);
    // A stroke of ink parts the left two rooms from the right two.
    const before = layFlats({ ink }, { plan: plan([point(0), point(3)]), unnamed: 'claim' });
    for (const mark of [
      point(1),
      {
        cut: [
          [20, 14],
          [20, 66],
        ],
      } as Mark,
    ]) {
      const after = layFlats({ ink }, { plan: plan([point(0), point(3), mark]), unnamed: 'claim' });
      after.flats.indices.data.forEach((index, p) => {
        if (p % 230 < 118) return;
        const [now, then] = [after, before].map((laid) => laid.flats.palette);
        expect(now![index]!.name).toBe(then![before.flats.indices.data[p]!]!.name);
      });
    }
  });
});

function floor([x, y]: Point): [number, number] {
  return [Math.floor(x), Math.floor(y)];
}
