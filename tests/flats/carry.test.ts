import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carryFlats } from '../../src/flats/carry/carry-flats.ts';
import { carryPlan } from '../../src/flats/carry/carry-plan.ts';
import type { CarriedRegion, ChangeKind } from '../../src/flats/carry/changes.ts';
import { drawChanges } from '../../src/flats/carry/draw-changes.ts';
import { findTransform } from '../../src/flats/carry/find-transform.ts';
import { inverse, movePoint } from '../../src/flats/carry/similarity.ts';
import { layFlats } from '../../src/flats/lay-flats.ts';
import type { Plan } from '../../src/flats/plan.ts';
import type { Flats } from '../../src/palette/types.ts';
import { type Mask, raster } from '../../src/raster/index.ts';

const [W, H] = [160, 120];

/** Strokes 4 pixels wide: `[x0, y0, x1, y1]`, upright or level, or the two legs between the points. */
type Stroke = readonly [number, number, number, number];

/** A box divided at x = 80, a knob beside it, and three strokes on the right that bound nothing. */
const BOX: readonly Stroke[] = [
  [20, 20, 110, 20],
  [20, 90, 110, 90],
  [20, 20, 20, 90],
  [110, 20, 110, 90],
];
const WALL: Stroke = [75, 20, 75, 90];
const KNOB: readonly Stroke[] = [
  [40, 40, 60, 40],
  [40, 60, 60, 60],
  [40, 40, 40, 60],
  [60, 40, 60, 60],
];
const LOOSE: readonly Stroke[] = [
  [125, 20, 125, 50],
  [132, 75, 150, 75],
  [140, 30, 150, 30],
];
const DRAWING = [...BOX, WALL, ...KNOB, ...LOOSE];

function draw(strokes: readonly Stroke[], dx = 0, dy = 0, scale = 1): Mask {
  const [w, h] = [Math.round(W * scale), Math.round(H * scale)];
  const ink = raster(new Uint8Array(w * h), [w, h]);
  for (const [x0, y0, x1, y1] of strokes) {
    const [left, right] = [scale * (x0 - 2) + dx, scale * (x1 + 2) + dx];
    const [top, bottom] = [scale * (y0 - 2) + dy, scale * (y1 + 2) + dy];
    for (let y = Math.round(top); y < Math.round(bottom); y++) {
      for (let x = Math.round(left); x < Math.round(right); x++) {
        if (x >= 0 && y >= 0 && x < w && y < h) ink.set(x, y, 1);
      }
    }
  }
  return ink;
}

const palette = ['shell', 'scarf', 'plumes', 'fur'].map((name, i) => {
  return { name, color: `#${i + 1}0${i + 2}0${i + 3}0` };
});
const plan: Plan = {
  version: 1,
  size: [W, H],
  palette,
  marks: [
    { point: [30, 80], swatch: 'shell' },
    { point: [95, 50], swatch: 'scarf' },
    { point: [50, 50], swatch: 'plumes' },
  ],
};

const ink = draw(DRAWING);
const { flats } = layFlats({ ink }, { plan });

function swatchAt({ indices, palette: own }: Flats, x: number, y: number): string {
  return own[indices.get(x, y)]!.name;
}

/** Kinds with their swatches, but of what is kept. */
function changed(changes: readonly CarriedRegion[]): [ChangeKind, string | undefined, boolean][] {
  return changes
    .filter(({ kind }) => kind !== 'kept')
    .map(({ kind, swatch, look }) => [kind, swatch, look]);
}

/** A way to mirror and turn a picture. */
interface Way {
  readonly flipX: boolean;
  readonly flipY: boolean;
  readonly swap: boolean;
}

const WAYS: readonly Way[] = [0, 1, 2, 3, 4, 5, 6, 7].map((k) => {
  return { flipX: (k & 1) > 0, flipY: (k & 2) > 0, swap: (k & 4) > 0 };
});

function placeTurned(x: number, y: number, { flipX, flipY, swap }: Way): [number, number] {
  const [u, v] = [flipX ? W - 1 - x : x, flipY ? H - 1 - y : y];
  return swap ? [v, u] : [u, v];
}

/** A mask of W × H, mirrored and turned. */
function turned(mask: Mask, way: Way): Mask {
  const now = raster(new Uint8Array(W * H), way.swap ? [H, W] : [W, H]);
  for (let y = 0; y < H; y++)
    for (let x = 0; x < W; x++) now.set(...placeTurned(x, y, way), mask.get(x, y));
  return now;
}

/** Frames of strokes anywhere on the page, 24 pixels from its edges. */
const frames = fc
  .array(
    fc.tuple(
      fc.integer({ min: 24, max: 100 }),
      fc.integer({ min: 24, max: 70 }),
      fc.integer({ min: 12, max: 34 }),
      fc.integer({ min: 12, max: 24 }),
    ),
    { minLength: 1, maxLength: 4 },
  )
  .map((boxes) => {
    return boxes.flatMap(([x, y, w, h]): Stroke[] => [
      [x, y, x + w, y],
      [x, y + h, x + w, y + h],
      [x, y, x, y + h],
      [x + w, y, x + w, y + h],
    ]);
  });

describe('carryFlats, for any drawing', () => {
  it('carries to the same ink without any change', () => {
    fc.assert(
      fc.property(frames, (strokes) => {
        const own = draw(strokes);
        const was = layFlats({ ink: own }).flats;
        const { flats: now, transform, changes } = carryFlats(was, own, own);
        expect(transform).toMatchObject({ a: 1, b: 0, dx: 0, dy: 0 });
        expect(changes.filter(({ kind, look }) => kind !== 'kept' || look)).toEqual([]);
        for (let p = 0; p < W * H; p++) {
          const [x, y] = [p % W, Math.floor(p / W)];
          if (swatchAt(now, x, y) !== swatchAt(was, x, y)) expect([x, y]).toBe('the same');
        }
      }),
      { numRuns: 30 },
    );
  });

  it('carries a shift by whole pixels exactly, where nothing leaves the page', () => {
    const shift = fc.integer({ min: -20, max: 20 });
    fc.assert(
      fc.property(frames, shift, shift, (strokes, dx, dy) => {
        const own = draw(strokes);
        const was = layFlats({ ink: own }).flats;
        const carried = carryFlats(was, own, draw(strokes, dx, dy));
        expect(carried.transform).toMatchObject({ a: 1, b: 0, dx, dy });
        expect(carried.changes.filter(({ kind, look }) => kind !== 'kept' || look)).toEqual([]);
        for (let y = Math.max(0, -dy); y < Math.min(H, H - dy); y++)
          for (let x = Math.max(0, -dx); x < Math.min(W, W - dx); x++) {
            const [then, now] = [swatchAt(was, x, y), swatchAt(carried.flats, x + dx, y + dy)];
            if (now !== then) expect([x, y, now]).toEqual([x, y, then]);
          }
      }),
      { numRuns: 30 },
    );
  });

  it('carries mirrored and turned pictures to the mirrored and turned flats', () => {
    // Under the ink equal distances go to the lower id, which another region has in another view, and
    // a new region is called by its place: the paper of the regions that have a name is compared.
    const names = new Set([...palette.map(({ name }) => name), 'ground']);
    const revised = DRAWING.filter((stroke) => stroke !== WALL);
    const to = draw([...revised, [60, 20, 60, 40], [20, 70, 110, 70]], 5, 3);
    const nameAt = (from: Flats, x: number, y: number): string => {
      const name = swatchAt(from, x, y);
      return names.has(name) ? name : 'new';
    };
    const straight = carryFlats(flats, ink, to);
    for (const way of WAYS) {
      const indices = turned(flats.indices as Mask, way);
      const carried = carryFlats({ ...flats, indices }, turned(ink, way), turned(to, way));
      const kinds = (list: readonly CarriedRegion[]): string[] => {
        return list
          .map(({ kind, swatch, area, look }) => `${kind} ${swatch} ${area} ${look}`)
          .sort();
      };
      expect(kinds(carried.changes)).toEqual(kinds(straight.changes));
      for (let y = 0; y < H; y++)
        for (let x = 0; x < W; x++) {
          if (to.get(x, y) === 1) continue;
          const now = nameAt(carried.flats, ...placeTurned(x, y, way));
          const then = nameAt(straight.flats, x, y);
          if (now !== then) expect([x, y, way, now]).toEqual([x, y, way, then]);
        }
    }
  });
});

describe('carryFlats', () => {
  it('gives the same flats for the same ink, by the identity', () => {
    const carried = carryFlats(flats, ink, ink);
    expect(carried.transform).toEqual({ a: 1, b: 0, dx: 0, dy: 0, confidence: 1 });
    expect(carried.flats.indices.data).toEqual(flats.indices.data);
    expect(carried.changes.every(({ kind, look }) => kind === 'kept' && !look)).toBe(true);
    expect(carried.changes.length).toBe(4);
  });

  it('follows a shift by whole pixels exactly', () => {
    const carried = carryFlats(flats, ink, draw(DRAWING, 7, -4));
    expect(carried.transform).toMatchObject({ a: 1, b: 0, dx: 7, dy: -4 });
    expect(changed(carried.changes)).toEqual([]);
    for (const [x, y] of [
      [30, 80],
      [95, 50],
      [50, 50],
      [140, 100],
    ] as const) {
      expect(swatchAt(carried.flats, x + 7, y - 4)).toBe(swatchAt(flats, x, y));
    }
  });

  it('follows a drawing to another size', () => {
    const carried = carryFlats(flats, ink, draw(DRAWING, 0, 0, 2));
    expect(carried.flats.indices.shape).toEqual([2 * W, 2 * H]);
    expect(swatchAt(carried.flats, 190, 100)).toBe('scarf');
    expect(swatchAt(carried.flats, 100, 100)).toBe('plumes');
    for (const corner of [
      [0, 0],
      [W, 0],
      [0, H],
      [W, H],
    ] as const) {
      const [x, y] = movePoint(carried.transform, corner);
      expect(Math.hypot(x - 2 * corner[0], y - 2 * corner[1])).toBeLessThan(0.5);
    }
  });

  it('gives both parts of a region that is cut its swatch', () => {
    const { flats: now, changes } = carryFlats(flats, ink, draw([...DRAWING, [75, 55, 110, 55]]));
    expect([swatchAt(now, 95, 40), swatchAt(now, 95, 75)]).toEqual(['scarf', 'scarf']);
    expect(changed(changes)).toEqual([
      ['split', 'scarf', true],
      ['split', 'scarf', true],
    ]);
  });

  it('lets regions that have become one keep the larger swatch', () => {
    const { flats: now, changes } = carryFlats(flats, ink, draw(DRAWING.filter((s) => s !== WALL)));
    const [one] = changes.filter(({ kind }) => kind === 'merged');
    expect(one).toMatchObject({ swatch: 'shell', lost: ['scarf'], look: true });
    expect(one!.lostAt).toHaveLength(1);
    const [x, y] = one!.lostAt[0]!.map(Math.floor) as [number, number];
    expect(swatchAt(flats, x, y)).toBe('scarf');
    expect([swatchAt(now, 95, 50), swatchAt(now, 30, 80)]).toEqual(['shell', 'shell']);
  });

  it('keeps a seam across paper that a person has drawn', () => {
    const [w, h] = [W, H];
    const indices = flats.indices.data.slice();
    const fur = flats.palette.findIndex(({ name }) => name === 'fur');
    for (let y = 0; y < h; y++)
      for (let x = 95; x < w; x++) {
        if (swatchAt(flats, x, y) === 'scarf') indices[y * w + x] = fur;
      }
    const own: Flats = { ...flats, indices: raster(indices as Uint8Array<ArrayBuffer>, [w, h]) };
    const { flats: now } = carryFlats(own, ink, draw(DRAWING, 3, 2));
    expect([swatchAt(now, 96, 50), swatchAt(now, 100, 50)]).toEqual(['scarf', 'fur']);
  });

  it('keeps regions apart where the line between them has become one of dashes', () => {
    const dashes: readonly Stroke[] = [
      [75, 20, 75, 26],
      [75, 40, 75, 46],
      [75, 60, 75, 66],
      [75, 80, 75, 90],
    ];
    const rest = DRAWING.filter((stroke) => stroke !== WALL);
    const now = carryFlats(flats, ink, draw([...rest, ...dashes]), { maxGap: 0 });
    expect([swatchAt(now.flats, 70, 33), swatchAt(now.flats, 81, 33)]).toEqual(['shell', 'scarf']);
    expect(now.changes.filter(({ look }) => look)).toEqual([]);
  });

  it('parts a piece of a region that is cut from what it has an opening to, not from more', () => {
    const rest = DRAWING.filter((stroke) => stroke !== BOX[3]);
    const cut: Stroke = [75, 47, 110, 47];
    const swatches = (right: readonly Stroke[]): string[] => {
      const now = carryFlats(flats, ink, draw([...rest, cut, ...right]), { maxGap: 0 });
      return [95, 107].flatMap((x) => [swatchAt(now.flats, x, 35), swatchAt(now.flats, x, 75)]);
    };
    const open: readonly Stroke[] = [
      [110, 20, 110, 28],
      [110, 40, 110, 90],
    ];
    expect(swatches(open)).toEqual(['scarf', 'scarf', 'scarf', 'scarf']);
    expect(swatches([[110, 47, 110, 90]])).toEqual(['ground', 'scarf', 'ground', 'scarf']);
  });

  it('recognizes a small region off its place, and tells what is gone and new', () => {
    const small: readonly Stroke[] = [
      [88, 40, 98, 40],
      [88, 50, 98, 50],
      [88, 40, 88, 50],
      [98, 40, 98, 50],
    ];
    const at = (dx: number): Stroke[] => small.map(([a, b, c, d]) => [a + dx, b, c + dx, d]);
    const old = draw([...DRAWING, ...small]);
    const marks = [...plan.marks, { point: [93, 45], swatch: 'fur' }] as const;
    const own = layFlats({ ink: old }, { plan: { ...plan, marks } }).flats;
    const shifted = carryFlats(own, old, draw([...DRAWING, ...at(-8)]));
    expect(swatchAt(shifted.flats, 85, 45)).toBe('fur');
    expect(changed(shifted.changes)).toEqual([['moved', 'fur', true]]);
    const gone = carryFlats(own, old, draw([...DRAWING, [93, 39, 93, 51]]));
    const [one] = gone.changes;
    expect(one).toMatchObject({ kind: 'gone', swatch: 'fur', look: true, confidence: 0 });
    expect(one!.at).toBeUndefined();
    expect(one!.was![0]).toBeCloseTo(93, -1);
  });

  it('refuses another drawing, and takes a transform that is given', () => {
    const other = raster(new Uint8Array(W * H), [W, H]);
    for (let k = 0; k < 5; k++)
      for (let x = 0; x < 30; x++) other.set(10 + x + 20 * k, 5 + ((x * (k + 3)) % 100), 1);
    expect(() => carryFlats(flats, ink, other)).toThrow('toInk must show the drawing of fromInk');
    const transform = { a: 1, b: 0, dx: 0, dy: 0 };
    expect(carryFlats(flats, ink, other, { transform }).transform.confidence).toBe(1);
    expect(() => carryFlats(flats, ink, ink, { transform: { ...transform, a: 0 } })).toThrow(
      new RangeError('transform must have a scale above 0, got a = b = 0'),
    );
  });

  it('tells its progress and can be ended', () => {
    const stages = new Set<string>();
    carryFlats(flats, ink, ink, { onProgress: ({ stage }) => stages.add(stage) });
    expect([...stages]).toEqual([
      'transform',
      'evidence',
      'gaps',
      'regions',
      'grow',
      'match',
      'flats',
    ]);
    const signal = AbortSignal.abort(new Error('enough'));
    expect(() => carryFlats(flats, ink, ink, { signal })).toThrow('enough');
    expect(() => carryFlats(flats, ink, ink, { maxgap: 3 } as never)).toThrow(
      'did you mean "maxGap"',
    );
  });
});

describe('findTransform', () => {
  const dense = (mask: Mask) => {
    const [width, height] = mask.shape as [number, number];
    return { data: mask.data as Uint8Array, width, height, channels: 1 };
  };

  it('gives mirrored and turned pictures the mirrored and turned transform', () => {
    const to = draw([...DRAWING.slice(1), [30, 105, 100, 105]], 9, 5);
    for (const way of WAYS) {
      const { flipX, flipY, swap } = way;
      const found = findTransform(dense(turned(ink, way)), dense(turned(to, way)));
      const [x, y] = [flipX ? -9 : 9, flipY ? -5 : 5];
      expect(found).toMatchObject({ a: 1, b: 0, dx: swap ? y : x, dy: swap ? x : y });
    }
  });

  it('finds any shift of up to 20 pixels', () => {
    const shift = fc.integer({ min: -20, max: 20 });
    fc.assert(
      fc.property(shift, fc.integer({ min: -17, max: 20 }), (dx, dy) => {
        const found = findTransform(dense(ink), dense(draw(DRAWING, dx, dy)));
        expect(found).toMatchObject({ a: 1, b: 0, dx, dy });
      }),
      { numRuns: 20 },
    );
  });

  it('knows the inner one of two frames where the outer one is gone', () => {
    const frame = (inset: number): Stroke[] => [
      [30 + inset, 15 + inset, 120 - inset, 15 + inset],
      [30 + inset, 105 - inset, 120 - inset, 105 - inset],
      [30 + inset, 15 + inset, 30 + inset, 105 - inset],
      [120 - inset, 15 + inset, 120 - inset, 105 - inset],
    ];
    const inner: readonly Stroke[] = [...frame(14), [60, 50, 60, 70], [60, 70, 80, 70]];
    const from = draw([...frame(0), ...inner]);
    const to = draw([...inner, [140, 10, 140, 110], [10, 60, 14, 60]], 5, -4);
    expect(findTransform(dense(from), dense(to))).toMatchObject({ a: 1, b: 0, dx: 5, dy: -4 });
  });

  it('is undone by its inverse', () => {
    const transform = { a: 1.2, b: -0.3, dx: 7, dy: -2 };
    const [x, y] = movePoint(inverse(transform), movePoint(transform, [11, 13]));
    expect([x, y]).toEqual([expect.closeTo(11, 9), expect.closeTo(13, 9)]);
  });
});

describe('carryPlan', () => {
  const full: Plan = {
    ...plan,
    marks: [
      ...plan.marks,
      {
        polygon: [
          [
            [90, 60],
            [100, 60],
            [100, 70],
            [90, 70],
          ],
        ],
        swatch: 'fur',
        over: true,
      },
      {
        cut: [
          [74, 30],
          [111, 30],
        ],
      },
      {
        bridge: [
          [125, 50],
          [131, 75],
        ],
      },
    ],
    settings: {
      maxGap: 10,
      absorb: 4,
      exceptions: [{ check: 'specks', at: [3, 4], bounds: [1, 2, 5, 6] }],
    },
  };

  it('gives the same plan for the same ink', () => {
    const carried = carryPlan(full, ink, ink);
    expect(carried.plan).toEqual(full);
    expect(carried.aside).toEqual([]);
  });

  it('moves every mark and setting', () => {
    const { plan: now } = carryPlan(full, ink, draw(DRAWING, 7, -4));
    expect(now.marks).toEqual([
      { point: [37, 76], swatch: 'shell' },
      { point: [102, 46], swatch: 'scarf' },
      { point: [57, 46], swatch: 'plumes' },
      {
        polygon: [
          [
            [97, 56],
            [107, 56],
            [107, 66],
            [97, 66],
          ],
        ],
        swatch: 'fur',
        over: true,
      },
      {
        cut: [
          [81, 26],
          [118, 26],
        ],
      },
      {
        bridge: [
          [132, 46],
          [138, 71],
        ],
      },
    ]);
    expect(now.settings).toEqual({
      ...full.settings,
      exceptions: [{ check: 'specks', at: [10, 0], bounds: [8, -2, 12, 2] }],
    });
  });

  it('puts marks of merged and gone regions aside, and adds points to parts', () => {
    const merged = carryPlan(plan, ink, draw(DRAWING.filter((stroke) => stroke !== WALL)));
    expect(merged.aside).toEqual([
      { mark: plan.marks[1], index: 1, why: 'its region has become a part of another one' },
    ]);
    const cut = carryPlan(plan, ink, draw([...DRAWING, [75, 55, 110, 55]]));
    expect(
      cut.plan.marks.filter((mark) => 'swatch' in mark && mark.swatch === 'scarf').length,
    ).toBe(2);
    const solid = draw([
      ...DRAWING,
      [44, 44, 56, 44],
      [44, 48, 56, 48],
      [44, 52, 56, 52],
      [44, 56, 56, 56],
    ]);
    const gone = carryPlan(plan, ink, solid);
    expect(gone.aside).toEqual([{ mark: plan.marks[2], index: 2, why: 'its region is gone' }]);
  });

  it('refuses a plan of another size', () => {
    expect(() => carryPlan({ ...plan, size: [W, H + 1] }, ink, ink)).toThrow('plan.size');
  });
});

describe('drawChanges', () => {
  it('shows what ink is common, gone and new, and where to look', () => {
    const to = draw([...DRAWING.filter((stroke) => stroke !== WALL), [30, 105, 100, 105]]);
    const carried = carryFlats(flats, ink, to);
    const picture = drawChanges(carried, ink, to);
    const color = (x: number, y: number): number[] => [0, 1, 2].map((c) => picture.get(x, y, c));
    expect(color(20, 50)).toEqual([154, 154, 154]);
    expect(color(75, 30)).toEqual([230, 0, 126]);
    expect(color(60, 105)).toEqual([0, 120, 255]);
    expect(color(5, 5)).toEqual([255, 255, 255]);
    const [at] = carried.changes
      .filter(({ kind }) => kind === 'merged')
      .flatMap((change) => change.lostAt);
    expect(color(Math.floor(at![0]), Math.floor(at![1]))).toEqual([122, 43, 224]);
    expect(() => drawChanges({} as never, ink, to)).toThrow('carried must be what carryFlats');
  });
});
