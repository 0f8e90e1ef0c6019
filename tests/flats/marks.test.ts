import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { applyPlan } from '../../src/flats/apply-plan.ts';
import { checkPlan } from '../../src/flats/check-plan.ts';
import { layFlats } from '../../src/flats/lay-flats.ts';
import type { Mark } from '../../src/flats/marks/table.ts';
import type { Plan } from '../../src/flats/plan.ts';
import { scalePlan } from '../../src/flats/scale-plan.ts';
import type { PlanSettings } from '../../src/flats/settings.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Point } from '../../src/raster/types.ts';
import { grid, labels, literal, mask } from '../support/grids.ts';

const palette = [
  { name: 'fur', color: '#8a5d42' },
  { name: 'sash', color: '#1d6f8c' },
  { name: 'sky', color: '#cfe0e8' },
];
const planOf = (marks: readonly Mark[], size: [number, number]): Plan => {
  return { version: 1, size, palette, marks };
};

/** Flats as a grid: f, s, k for the palette's swatches, . for anything else. */
function look({ indices, palette: names }: Flats): string {
  const letters: Record<string, string> = { fur: 'f', sash: 's', sky: 'k' };
  const [w, h] = indices.shape as [number, number];
  return Array.from({ length: h }, (_, y) =>
    Array.from({ length: w }, (__, x) => letters[names[indices.get(x, y)]!.name] ?? '.').join(' '),
  ).join('\n');
}

const square = (x0: number, y0: number, x1: number, y1: number) =>
  [
    [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ],
  ] as const;

describe('marks on labels', () => {
  const three = labels(`
    1 1 2 2 3 3
    1 1 2 2 3 3
    1 1 2 2 3 3`);
  const lay = (marks: readonly Mark[], options = {}) =>
    applyPlan(three, planOf(marks, [6, 3]), { unnamed: 'shared', ...options });

  // common practice, no source: what is laid already is protected from an outline drawn across it.
  it('a polygon dragged across two finished areas takes none of their pixels', () => {
    const {
      flats,
      labels: after,
      report,
    } = lay([
      { point: [0, 0], swatch: 'fur' },
      { point: [5, 0], swatch: 'sash' },
      { polygon: square(-5, -5, 50, 2), swatch: 'sky' },
    ]);
    expect(look(flats)).toBe(
      literal(`
        f f k k s s
        f f k k s s
        f f . . s s`),
    );
    expect(grid(after)).toBe(
      literal(`
        1 1 4 4 3 3
        1 1 4 4 3 3
        1 1 2 2 3 3`),
    );
    expect([report.conflicts, report.notes]).toEqual([[], []]);
  });

  it('a polygon over what is laid takes it, and divides what it leaves', () => {
    const { flats, labels: after } = lay([
      { point: [0, 0], swatch: 'fur' },
      { polygon: square(0, 1, 6, 2), swatch: 'sky', over: true },
    ]);
    expect(look(flats)).toBe(
      literal(`
        f f . . . .
        k k k k k k
        f f . . . .`),
    );
    expect(grid(after)).toBe(
      literal(`
        1 1 2 2 3 3
        4 4 5 5 6 6
        7 7 8 8 9 9`),
    );
  });

  it('a polygon keeps the id of a region that it holds whole', () => {
    const { labels: after, report } = lay([{ polygon: square(2, 0, 4, 3), swatch: 'fur' }]);
    expect(after.data).toEqual(three.data);
    expect(report.named).toBe(1);
  });

  it('says which polygons took nothing', () => {
    const { report } = lay([
      { point: [0, 0], swatch: 'fur' },
      { polygon: square(0, 0, 1, 1), swatch: 'sky' },
      { polygon: square(9, 9, 10, 10), swatch: 'sky' },
    ]);
    expect(report.notes).toEqual([
      { mark: 1, at: expect.any(Array), why: 'everything inside the polygon is laid already' },
      { mark: 2, at: expect.any(Array), why: 'the polygon holds no pixel of the picture' },
    ]);
  });

  it('a fill takes what is bare, and with over the patch of one swatch', () => {
    const bare: Mark[] = [
      { fill: [0, 0], swatch: 'fur' },
      { fill: [2, 0], swatch: 'fur' },
      { fill: [4, 0], swatch: 'sash' },
    ];
    expect(look(lay(bare).flats)).toBe(
      literal(`
        f f f f s s
        f f f f s s
        f f f f s s`),
    );
    const refused = lay([...bare, { fill: [0, 0], swatch: 'sky' }]);
    expect(refused.report.conflicts).toEqual([
      { mark: 3, point: [0, 0], swatch: 'sky', keeps: 'fur', by: 0, region: 1 },
    ]);
    expect(look(lay([...bare, { fill: [0, 0], swatch: 'sky', over: true }]).flats)).toBe(
      literal(`
        k k k k s s
        k k k k s s
        k k k k s s`),
    );
    const point = lay([...bare, { point: [0, 0], swatch: 'sky', over: true }]);
    expect(look(point.flats).startsWith('k k f f s s')).toBe(true);
  });

  it('acts in order: a fill after a polygon takes the piece that is left', () => {
    const one = raster(new Int32Array(15).fill(1), [5, 3]);
    const marks: Mark[] = [
      { polygon: square(2, 0, 3, 3), swatch: 'sash' },
      { fill: [0, 0], swatch: 'fur' },
    ];
    const { flats } = applyPlan(one, planOf(marks, [5, 3]), { unnamed: 'shared' });
    expect(look(flats)).toBe(
      literal(`
        f f s . .
        f f s . .
        f f s . .`),
    );
  });

  it('a cut divides regions, a join makes them one', () => {
    const {
      flats,
      labels: after,
      report,
    } = lay([
      {
        cut: [
          [0, 1.5],
          [1.9, 1.5],
        ],
      },
      { fill: [0, 0], swatch: 'fur' },
      {
        join: [
          [2, 0],
          [4, 2],
        ],
      },
      { point: [5, 2], swatch: 'sky' },
      {
        cut: [
          [9, 9],
          [20, 9],
        ],
      },
    ]);
    expect(grid(after)).toBe(
      literal(`
        1 1 2 2 2 2
        1 1 2 2 2 2
        4 4 2 2 2 2`),
    );
    expect(look(flats)).toBe(
      literal(`
        f f k k k k
        f f k k k k
        . . k k k k`),
    );
    expect(report.notes).toEqual([
      {
        mark: 4,
        at: expect.any(Array),
        why: 'the cut divides no region; draw it from ink to ink, or past it',
      },
    ]);
  });

  it('a join of two swatches keeps the first and lists the other', () => {
    const { flats, report } = lay([
      { point: [0, 0], swatch: 'fur' },
      { point: [2, 0], swatch: 'sash' },
      {
        join: [
          [0, 0],
          [2, 0],
        ],
      },
    ]);
    expect(look(flats).startsWith('f f f f')).toBe(true);
    expect(report.conflicts).toEqual([
      { mark: 2, point: [2, 0], swatch: 'sash', keeps: 'fur', by: 0, region: 1 },
    ]);
  });

  it('a bridge cuts from stroke to stroke, an open gap joins', () => {
    const ink = mask(`
      . . . 1 . . .
      . . . 1 . . .
      . . . . . . .
      . . . 1 . . .`);
    const grown = raster(new Int32Array(28).fill(1), [7, 4]);
    const bridge: Mark = {
      bridge: [
        [3.5, 1.5],
        [3.5, 3.5],
      ],
    };
    const closed = applyPlan(grown, planOf([bridge], [7, 4]), { ink });
    expect(closed.labels.get(0, 0)).not.toBe(closed.labels.get(6, 0));
    const open: Mark = {
      open: [
        [3.5, 1.5],
        [3.5, 3.5],
      ],
    };
    const opened = applyPlan(closed.labels, planOf([open], [7, 4]), { ink });
    expect(new Set(opened.labels.data).size).toBe(1);
    expect(applyPlan(grown, planOf([open], [7, 4])).report.notes).toEqual([
      { mark: 0, at: expect.any(Array), why: 'no two regions meet between the points' },
    ]);
  });

  it('joins a piece with the region that a polygon took it out of', () => {
    const round = labels(`
      9 9 9 9
      9 1 1 9
      9 9 9 9`);
    const marks: Mark[] = [
      { polygon: square(1, 1, 2, 2), swatch: 'sash' },
      {
        join: [
          [1, 1],
          [2, 1],
        ],
      },
      { polygon: square(0, 0, 1, 1), swatch: 'sky' },
    ];
    const { flats, labels: after } = applyPlan(round, planOf(marks, [4, 3]));
    expect(look(flats)).toBe(
      literal(`
        k . . .
        . s s .
        . . . .`),
    );
    expect(after.get(1, 1)).toBe(after.get(2, 1));
  });

  it('reports points outside, and refuses a plan of another size', () => {
    const marks: Mark[] = [
      {
        join: [
          [0, 0],
          [2, 0],
          [99, 0],
        ],
      },
      { fill: [0, 7], swatch: 'fur' },
    ];
    const { report, labels: after } = lay(marks, { outside: 'report' });
    expect(report.outside).toEqual([
      { mark: 0, point: [99, 0] },
      { mark: 1, point: [0, 7], swatch: 'fur' },
    ]);
    expect(after.get(2, 0)).toBe(1);
    expect(() => lay(marks)).toThrow('plan.marks[0].join[2] must be inside the picture of 6 × 3');
    const text =
      'plan.size must be that of the picture, 6 × 3, got 60 × 30; scalePlan(plan, [6, 3]) makes a plan of that size';
    expect(() => applyPlan(three, planOf([], [60, 30]))).toThrow(new RangeError(text));
    const paper = raster(new Uint8Array(18), [6, 3]);
    expect(() => layFlats({ ink: paper }, { plan: planOf([], [60, 30]) })).toThrow(
      new RangeError(text),
    );
    const scaled = scalePlan(planOf([{ point: [50, 25], swatch: 'fur' }], [60, 30]), [6, 3]);
    expect(applyPlan(three, scaled).report.named).toBe(1);
  });

  it('lets a part of the ground that was cut off go, and keeps the rest', () => {
    const marks: Mark[] = [{ polygon: square(1, 1, 4, 4), swatch: 'fur' }];
    const open = raster(new Int32Array(25).fill(1), [5, 5]);
    const ring = [...square(1, 1, 4, 4), ...square(2, 2, 3, 3)];
    const whole = applyPlan(open, planOf(marks, [5, 5]));
    expect(whole.flats.palette[whole.flats.indices.get(0, 0)]!.name).toBe('ground');
    const holed = applyPlan(open, planOf([{ polygon: ring, swatch: 'fur' }], [5, 5]));
    expect(holed.flats.palette[holed.flats.indices.get(0, 0)]!.name).toBe('ground');
    expect(holed.flats.palette[holed.flats.indices.get(2, 2)]!.name).toBe('region 2,2');
  });
});

describe('marks on a drawing', () => {
  /** Two rooms with a door of 5 pixels between, on a page of 61 × 31. */
  function rooms(door: readonly [number, number]) {
    const ink = raster(new Uint8Array(61 * 31), [61, 31]);
    for (let x = 0; x < 61; x++) for (const y of [0, 30]) ink.set(x, y, 1);
    for (let y = 0; y < 31; y++) for (const x of [0, 60]) ink.set(x, y, 1);
    for (let y = 0; y < 31; y++) if (y < door[0] || y > door[1]) ink.set(30, y, 1);
    return ink;
  }
  const gap = [
    [30.5, 12.5],
    [30.5, 18.5],
  ] as const;

  it('a bridge closes a gap that nothing else would close', () => {
    const ink = rooms([13, 17]);
    expect(layFlats({ ink }, { maxGap: 0 }).report.regions).toBe(1);
    const plan = planOf([{ bridge: gap }], [61, 31]);
    const { report, sealed } = layFlats({ ink }, { maxGap: 0, plan });
    expect(report.regions).toBe(2);
    expect(report.bridges).toMatchObject([{ drawn: true, why: 'asked for; drawn' }]);
    expect(sealed.get(30, 15)).toBe(1);
  });

  it('a bridge that is long, or that ends on bare paper, is noted', () => {
    const ink = rooms([13, 17]);
    const note = (bridge: readonly [Point, Point]): string[] => {
      const plan = planOf([{ bridge }], [61, 31]);
      return layFlats({ ink }, { maxGap: 0, plan }).report.notes.map(({ why }) => why);
    };
    expect(note(gap)).toEqual([]);
    expect(
      note([
        [10.5, 0.5],
        [10.5, 30.5],
      ]),
    ).toEqual([expect.stringMatching(/^the bridge is 30 px long, \d\d times the stroke width$/)]);
    expect(
      note([
        [10.5, 0.5],
        [10.5, 14.5],
      ]),
    ).toEqual(['the bridge ends on bare paper at [10, 14], with no ink within reach']);
    const plan = planOf(
      [
        {
          bridge: [
            [10.5, 0.5],
            [10.5, 14.5],
          ],
        },
      ],
      [61, 31],
    );
    const { labels: regions } = layFlats({ ink }, { maxGap: 0 });
    expect(applyPlan(regions, plan, { ink }).report.notes.map(({ why }) => why)).toEqual([
      'the bridge ends on bare paper at [10, 14], with no ink within reach',
      'the bridge divides no region',
    ]);
  });

  it('a conflict names the mark that took the region', () => {
    const marks: Mark[] = [
      { point: [50, 5], swatch: 'sky' },
      { fill: [5, 5], swatch: 'sash' },
      { point: [8, 20], swatch: 'fur' },
    ];
    const { report } = layFlats({ ink: rooms([31, 30]) }, { plan: planOf(marks, [61, 31]) });
    expect(report.conflicts).toMatchObject([{ mark: 2, swatch: 'fur', keeps: 'sash', by: 1 }]);
  });

  it('points outside are listed where that is asked for, and ask nothing of the gaps', () => {
    const marks: Mark[] = [
      { point: [500, 5], swatch: 'sky' },
      {
        join: [
          [5, 5],
          [50, 5],
          [99, 99],
        ],
      },
      {
        bridge: [
          [30.5, 12.5],
          [30.5, 99],
        ],
      },
      { point: [5, 5], swatch: 'fur', note: 'the pilot, not the quay' },
    ];
    const plan = planOf(marks, [61, 31]);
    const ink = rooms([13, 17]);
    expect(() => layFlats({ ink }, { plan })).toThrow(/plan\.marks\[0\]\.point must be inside/);
    const { report } = layFlats({ ink }, { plan, outside: 'report', maxGap: 8 });
    expect(report.outside.map(({ mark }) => mark)).toEqual([0, 1, 2]);
    expect([report.regions, report.named]).toEqual([1, 1]);
  });

  it('an open gap stays open, whatever points it would keep apart', () => {
    const ink = rooms([13, 17]);
    expect(layFlats({ ink }, { maxGap: 8, caution: 0.1 }).report.regions).toBe(2);
    const marks: Mark[] = [
      { open: gap },
      { point: [5, 5], swatch: 'fur' },
      { point: [50, 5], swatch: 'sash' },
    ];
    const { report } = layFlats(
      { ink },
      { maxGap: 8, caution: 0.1, plan: planOf(marks, [61, 31]) },
    );
    expect(report.regions).toBe(1);
    expect(report.conflicts.length).toBe(1);
    const nothing = planOf(
      [
        {
          open: [
            [5, 5],
            [9, 5],
          ],
        },
      ],
      [61, 31],
    );
    expect(layFlats({ ink }, { maxGap: 8, caution: 0.1, plan: nothing }).report.notes).toEqual([
      {
        mark: 0,
        at: expect.any(Array),
        why: 'no gap that is closed, or might be, lies between the points',
      },
    ]);
  });

  it('a join opens the bridge between its points', () => {
    const ink = rooms([13, 17]);
    const plan = planOf(
      [
        {
          join: [
            [5, 5],
            [50, 5],
          ],
        },
      ],
      [61, 31],
    );
    const { report, sealed } = layFlats({ ink }, { maxGap: 8, plan });
    expect([report.regions, sealed.get(30, 15)]).toEqual([1, 0]);
  });

  it('a plan acts alike on a revision of the drawing', () => {
    const marks: Mark[] = [
      { point: [5, 5], swatch: 'fur' },
      { bridge: gap },
      { polygon: square(40, -3, 70, 34), swatch: 'sky' },
      { fill: [35, 15], swatch: 'sash' },
    ];
    const plan = JSON.parse(JSON.stringify(planOf(marks, [61, 31]))) as Plan;
    for (const door of [
      [13, 17],
      [14, 16],
      [12, 18],
    ] as const) {
      const { flats, report } = layFlats({ ink: rooms(door) }, { maxGap: 0, plan });
      const at = (x: number, y: number) => flats.palette[flats.indices.get(x, y)]!.name;
      expect([at(5, 25), at(35, 25), at(50, 25)], `${door}`).toEqual(['fur', 'sash', 'sky']);
      expect([report.conflicts, report.notes]).toEqual([[], []]);
    }
  });
});

describe('the JSON Schema of plans', () => {
  const schema = JSON.parse(
    readFileSync(new URL('../../docs/plan.schema.json', import.meta.url), 'utf8'),
  );
  const validate = new Ajv2020().compile(schema);
  const good: Mark[] = [
    { point: [1, 2], swatch: 'fur' },
    {
      polygon: [
        [
          [0, 0],
          [1, 0],
          [0, 1],
        ],
        [],
      ],
      swatch: 'fur',
      over: true,
    },
    { fill: [1, 2], swatch: 'sash', over: false },
    {
      cut: [
        [-5, 1],
        [2, 2],
      ],
    },
    {
      join: [
        [0, 0],
        [1, 1],
        [2, 2],
      ],
    },
    {
      bridge: [
        [0, 0],
        [1, 1],
      ],
    },
    {
      open: [
        [0, 0],
        [1, 1],
      ],
    },
  ];
  const bad: unknown[] = [
    {},
    null,
    7,
    { point: [1], swatch: 'fur' },
    { point: [1, 2] },
    { point: [1, 2], fill: [1, 2], swatch: 'fur' },
    { point: [1, '2'], swatch: 'fur' },
    {
      polygon: [
        [0, 0],
        [1, 0],
        [0, 1],
      ],
      swatch: 'fur',
    },
    { polygon: [[[0, 2 ** 30 + 1]]], swatch: 'fur' },
    { polygon: [[[0, 0]]] },
    { fill: [1, 2], swatch: 3 },
    { fill: [1, 2], swatch: 'fur', over: 'yes' },
    { cut: [[0, 0]] },
    {
      cut: [
        [0, 0],
        [1, 1],
      ],
      swatch: 'fur',
    },
    { join: [[0, 0]] },
    {
      join: [
        [0, 0],
        [1, 1],
      ],
      over: true,
    },
    {
      bridge: [
        [0, 0],
        [1, 1],
        [2, 2],
      ],
    },
    { open: [0, 0] },
    { point: [1, 2], swatch: 'fur', note: 7 },
    {
      open: [
        [0, 0],
        [1, 1],
      ],
      note: null,
    },
    { point: [1, 2], swatch: 'fur', remark: 'x' },
  ];

  it('agrees with the check of plans on marks', () => {
    for (const marks of [good, good.map((mark) => ({ ...mark, note: 'as on the model sheet' }))]) {
      expect(validate(planOf(marks, [9, 9]))).toBe(true);
      expect(checkPlan(planOf(marks, [9, 9])).marks).toEqual(marks);
    }
    for (const mark of bad) {
      const plan = planOf([mark as Mark], [9, 9]);
      expect(validate(plan), JSON.stringify(mark)).toBe(false);
      expect(() => checkPlan(plan), JSON.stringify(mark)).toThrow(/^plan\.marks\[0\]/);
    }
  });

  it('agrees with the check of plans on settings', () => {
    const settings: PlanSettings[] = [
      {},
      { maxGap: 'auto', caution: 0, absorb: 8, unnamed: 'shared', ground: 'sky' },
      { maxGap: 7.5, ground: { name: 'sea', color: '#1d6f8c' } },
      { coverage: { paper: '#fdf6e3', dropHue: { hue: 200, tolerance: 30, minChroma: 20 } } },
      { coverage: { paper: 'auto', dropHue: 'blue' }, threshold: { method: 'otsu' } },
      { threshold: { level: 100 } },
      { threshold: { method: 'sauvola', window: 31, k: 0.2, normalize: true } },
      { threshold: { method: 'hysteresis', level: 200, weak: 60 } },
      {
        exceptions: [{ check: 'specks' }, { check: 'seams', bounds: [0, 0, 4, 4], swatch: 'fur' }],
      },
    ];
    for (const one of settings) {
      const plan = { ...planOf([], [9, 9]), settings: one };
      expect(validate(plan), JSON.stringify(one)).toBe(true);
      expect(checkPlan(plan).settings).toEqual(one);
    }
    const wrong: unknown[] = [
      null,
      [],
      { maxgap: 3 },
      { maxGap: -1 },
      { caution: 2 },
      { absorb: '8' },
      { unnamed: 'none' },
      { ground: 'bare' },
      { ground: { name: 'sky', color: 'blue' } },
      { coverage: { paper: 'beige' } },
      { coverage: { papr: 'white' } },
      { coverage: { dropHue: { hue: 400 } } },
      { threshold: { method: 'best' } },
      { threshold: { level: 255 } },
      { threshold: { window: 4, method: 'sauvola' } },
      { exceptions: {} },
      { exceptions: [{ bounds: [0, 0, 1, 1] }] },
      { exceptions: [{ check: 'seams', bounds: [0, 0, 1] }] },
    ];
    for (const one of wrong) {
      const plan = { ...planOf([], [9, 9]), settings: one as PlanSettings };
      expect(validate(plan), JSON.stringify(one)).toBe(false);
      expect(() => checkPlan(plan), JSON.stringify(one)).toThrow(
        /plan\.settings|paper|method|level|window|dropHue/,
      );
    }
  });

  it('agrees on the rest of a plan', () => {
    const plan = planOf([], [9, 9]);
    const others: unknown[] = [
      { ...plan, version: 2 },
      { ...plan, size: [9] },
      { ...plan, size: [9, 0] },
      { ...plan, size: [9.5, 9] },
      { ...plan, palette: {} },
      { ...plan, palette: [{ name: '', color: '#000000' }] },
      { ...plan, palette: [{ name: 'bare', color: '#000000' }] },
      { ...plan, palette: [{ name: 'a', color: 'red' }] },
      { ...plan, marks: {} },
      { ...plan, other: 1 },
      'plan',
    ];
    for (const other of others) {
      expect(validate(other), JSON.stringify(other)).toBe(false);
      expect(() => checkPlan(other as Plan), JSON.stringify(other)).toThrow(/^plan/);
    }
  });

  it('names paths and what is allowed', () => {
    const call = (mark: unknown) => () => checkPlan(planOf([...good, mark as Mark], [9, 9]));
    expect(call({ polygon: [[[0, Number.NaN]]], swatch: 'fur' })).toThrow(
      'plan.marks[7].polygon[0][0] must be a point of finite numbers, got [0, NaN]',
    );
    expect(call({ cut: [[0, 0]] })).toThrow(
      'plan.marks[7].cut must be a list of at least 2 points [x, y], got an array of 1',
    );
    expect(call({ fill: [0, 0], swatch: 'furr' })).toThrow('did you mean "fur"?');
    expect(
      call({
        cut: [
          [0, 0],
          [1, 1],
        ],
        swatch: 'fur',
      }),
    ).toThrow('plan.marks[7] has no field "swatch". It takes: cut, note');
    expect(() => checkPlan('{}' as unknown as Plan)).toThrow('parse it with JSON.parse first');
  });
});
