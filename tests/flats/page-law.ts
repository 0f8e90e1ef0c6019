/**
 * The law of pages: after any sequence of updates, cancelled ones and saves included, a page equals
 * what `layFlats` gives for the same plan, but for ids and placeholders.
 */
import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import fc from 'fast-check';
import type { UnnamedRegion } from '../../src/flats/assign.ts';
import { type LaidFlats, layFlats } from '../../src/flats/lay-flats.ts';
import type { LayFlatsReport } from '../../src/flats/lay-report.ts';
import type { Mark } from '../../src/flats/marks/table.ts';
import { openPage } from '../../src/flats/page/open-page.ts';
import type { Page, PageUpdate } from '../../src/flats/page/page.ts';
import type { Plan } from '../../src/flats/plan.ts';
import type { PlanSettings } from '../../src/flats/settings.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Labels, Mask, Pixels, Point } from '../../src/raster/types.ts';
import { polylinePixels } from '../../src/runs/polyline.ts';

export type Size = readonly [number, number];

export interface Drawn {
  readonly size: Size;
  /** Gray samples. */
  readonly gray: Uint8Array;
  readonly as: 'pixels' | 'ink' | 'ink and coverage';
}

export type Step =
  | { readonly kind: 'update'; readonly plan: Plan }
  | { readonly kind: 'cancel'; readonly plan: Plan; readonly after: number }
  | { readonly kind: 'restore' }
  | { readonly kind: 'undo' };

const PALETTE: { name: string; color: string }[] = ['shell', 'scarf', 'plumes'].map((name, i) => ({
  name,
  color: `#${i + 3}0607${i}`,
}));

/** Strokes of several widths and tones with gaps in them: boxes that are not quite closed, lines. */
function drawn([width, height]: Size): fc.Arbitrary<Drawn> {
  const x = fc.integer({ min: 0, max: width - 1 });
  const y = fc.integer({ min: 0, max: height - 1 });
  const stroke = fc.record({
    from: fc.tuple(x, y),
    to: fc.tuple(x, y),
    box: fc.boolean(),
    brush: fc.integer({ min: 1, max: 3 }),
    tone: fc.constantFrom(0, 0, 40, 90),
    gap: fc.integer({ min: 0, max: 5 }),
    at: fc.nat({ max: 60 }),
  });
  return fc
    .record({
      strokes: fc.array(stroke, { minLength: 1, maxLength: 7 }),
      as: fc.constantFrom('pixels', 'ink', 'ink and coverage') as fc.Arbitrary<Drawn['as']>,
    })
    .map(({ strokes, as }) => {
      const gray = new Uint8Array(width * height).fill(255);
      for (const { from, to, box, brush, tone, gap, at } of strokes) {
        const [a, b] = [from, to].map(([u, v]): Point => [u + 0.5, v + 0.5]) as [Point, Point];
        const corners: Point[] = box ? [a, [b[0], a[1]], b, [a[0], b[1]], a] : [a, b];
        polylinePixels(corners, width, height).forEach((p, k) => {
          if (k >= at && k < at + gap) return;
          const [u, v] = [p % width, Math.floor(p / width)];
          for (let j = v; j < Math.min(height, v + brush); j++) {
            for (let i = u; i < Math.min(width, u + brush); i++) {
              const edge = i > u || j > v ? Math.min(90, tone + 30 * (i - u + j - v)) : tone;
              gray[j * width + i] = Math.min(gray[j * width + i]!, edge);
            }
          }
        });
      }
      return { size: [width, height], gray, as };
    });
}

function inputOf({ size, gray, as }: Drawn): Pixels | { ink: Mask; coverage?: Mask } {
  if (as === 'pixels') return raster(gray.slice(), size) as Pixels;
  const ink = raster(
    Uint8Array.from(gray, (v) => (v < 128 ? 1 : 0)),
    size,
  );
  if (as === 'ink') return { ink };
  return {
    ink,
    coverage: raster(
      Uint8Array.from(gray, (v) => 255 - v),
      size,
    ),
  };
}

function markIn([width, height]: Size): fc.Arbitrary<Mark> {
  const half = (max: number): fc.Arbitrary<number> =>
    fc.integer({ min: 0, max: 2 * max - 1 }).map((v) => v / 2 + 0.25);
  const point = fc.tuple(half(width), half(height)) as fc.Arbitrary<Point>;
  const far = fc.tuple(
    fc.integer({ min: -4, max: width + 4 }),
    fc.integer({ min: -4, max: height + 4 }),
  ) as fc.Arbitrary<Point>;
  const near = point.chain(([x, y]) =>
    fc
      .tuple(fc.integer({ min: -7, max: 7 }), fc.integer({ min: -7, max: 7 }))
      .map(([dx, dy]): [Point, Point] => [
        [x, y],
        [
          Math.min(width - 0.5, Math.max(0.5, x + dx)),
          Math.min(height - 0.5, Math.max(0.5, y + dy)),
        ],
      ]),
  );
  const swatch = fc.constantFrom('shell', 'scarf', 'plumes');
  const laying = { swatch, over: fc.boolean() };
  return fc.oneof(
    { weight: 5, arbitrary: fc.record({ point, ...laying }) },
    { weight: 2, arbitrary: fc.record({ fill: point, ...laying }) },
    {
      weight: 3,
      arbitrary: fc.record({
        polygon: fc.array(fc.array(far, { minLength: 3, maxLength: 5 }), {
          minLength: 1,
          maxLength: 2,
        }),
        ...laying,
      }),
    },
    { weight: 2, arbitrary: fc.record({ cut: fc.array(far, { minLength: 2, maxLength: 4 }) }) },
    { weight: 2, arbitrary: fc.record({ join: fc.array(point, { minLength: 2, maxLength: 3 }) }) },
    { weight: 2, arbitrary: fc.record({ bridge: near }) },
    { weight: 1, arbitrary: fc.record({ open: near }) },
  ) as fc.Arbitrary<Mark>;
}

const settingsArbitrary: fc.Arbitrary<PlanSettings> = fc.record(
  {
    maxGap: fc.constantFrom('auto' as const, 0, 3, 6),
    caution: fc.constantFrom(0, 0.3, 0.5, 0.8, 1),
    absorb: fc.constantFrom(0, 4, 20),
    ground: fc.constantFrom('ground', 'shell', { name: 'sea', color: '#aabbcc' }),
    unnamed: fc.constantFrom('each' as const, 'shared' as const, 'claim' as const),
    threshold: fc.constantFrom(
      { method: 'auto' as const },
      { method: 'fixed' as const, level: 200 },
    ),
  },
  { requiredKeys: [] },
);

function planIn(size: Size, mark: fc.Arbitrary<Mark>): fc.Arbitrary<Plan> {
  return fc
    .record({ marks: fc.array(mark, { maxLength: 8 }), settings: settingsArbitrary })
    .map((rest): Plan => ({ version: 1, size, palette: PALETTE, ...rest }));
}

/** A plan changed as by one correction: a mark more, one less, one in another's place, a setting. */
const correction = (mark: fc.Arbitrary<Mark>) =>
  fc.record({
    how: fc.constantFrom('add', 'add', 'drop', 'change', 'set'),
    at: fc.nat({ max: 20 }),
    mark,
    settings: settingsArbitrary,
    step: fc.constantFrom('update', 'update', 'update', 'cancel', 'restore', 'undo'),
    after: fc.nat({ max: 30 }),
  });

export const sequenceIn = (size: Size): fc.Arbitrary<{ drawing: Drawn; steps: Step[] }> => {
  const mark = markIn(size);
  return fc
    .record({
      drawing: drawn(size),
      first: planIn(size, mark),
      corrections: fc.array(correction(mark), { minLength: 1, maxLength: 6 }),
    })
    .map(({ drawing, first, corrections }) => {
      let plan = first;
      const steps: Step[] = [{ kind: 'update', plan }];
      for (const { how, at, mark: one, settings, step, after } of corrections) {
        if (step === 'restore' || step === 'undo') {
          steps.push({ kind: step });
          continue;
        }
        const marks = [...plan.marks];
        const place = marks.length === 0 ? 0 : at % marks.length;
        if (how === 'add') marks.push(one);
        if (how === 'drop') marks.splice(place, 1);
        if (how === 'change') marks.splice(place, 1, one);
        const next = { ...plan, marks, ...(how === 'set' ? { settings } : {}) };
        if (step === 'cancel') steps.push({ kind: 'cancel', plan: next, after });
        else {
          plan = next;
          steps.push({ kind: 'update', plan });
        }
      }
      return { drawing, steps };
    });
};

/** Bridges and open gaps on one place: side by side, across one another, at the picture's border. */
function gapsIn([width, height]: Size): fc.Arbitrary<Mark[]> {
  const place = (length: number): fc.Arbitrary<number> => fc.integer({ min: 0, max: length - 1 });
  const step = fc.integer({ min: -2, max: 2 });
  const inside = ([x, y]: Point): Point => [
    Math.min(width - 1, Math.max(0, x)) + 0.5,
    Math.min(height - 1, Math.max(0, y)) + 0.5,
  ];
  return fc
    .record({
      from: fc.tuple(place(width), place(height)),
      by: fc.tuple(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 })),
      others: fc.array(
        fc.record({
          shift: fc.tuple(step, step),
          how: fc.constantFrom('along', 'along', 'across', 'to border'),
          open: fc.integer({ min: 0, max: 3 }),
        }),
        { minLength: 2, maxLength: 5 },
      ),
    })
    .map(({ from: [x, y], by: [dx, dy], others }) =>
      others.map(({ shift: [u, v], how, open }): Mark => {
        const [x0, x1] = how === 'across' ? [x + dx, x] : [x, x + dx];
        const a = inside([x0 + u, y + v]);
        const b = how === 'to border' ? inside([x0 + u, -1]) : inside([x1 + u, y + dy + v]);
        return open === 0 ? { open: [a, b] } : { bridge: [a, b] };
      }),
    );
}

/** Bridges that come and go one by one, in any order. */
export const bridgesIn = (size: Size): fc.Arbitrary<{ drawing: Drawn; steps: Step[] }> =>
  fc
    .record({
      drawing: drawn(size),
      first: planIn(size, markIn(size)),
      gaps: fc.array(gapsIn(size), { minLength: 1, maxLength: 2 }).map((lists) => lists.flat()),
      turns: fc.array(fc.nat({ max: 20 }), { minLength: 3, maxLength: 9 }),
    })
    .map(({ drawing, first, gaps, turns }) => {
      const there = new Set<Mark>();
      const steps: Step[] = [{ kind: 'update', plan: first }];
      for (const turn of turns) {
        const gap = gaps[turn % gaps.length]!;
        if (!there.delete(gap)) there.add(gap);
        steps.push({ kind: 'update', plan: { ...first, marks: [...first.marks, ...there] } });
        if (turn > 17) steps.push({ kind: 'undo' });
      }
      return { drawing, steps };
    });

/** Takes the steps with a page, and looks after each. */
export function follow({ drawing, steps }: { drawing: Drawn; steps: readonly Step[] }): void {
  const input = inputOf(drawing);
  let page = openPage(input);
  expectLaw(page, layFlats(input));
  const laid: Plan[] = [page.plan];
  for (const step of steps) {
    const before = look(page);
    if (step.kind === 'restore') {
      page = openPage(structuredClone(page.save()));
      deepStrictEqual(look(page), before);
    } else if (step.kind === 'cancel') {
      let ticks = 0;
      const stop = new Error('stop');
      const onProgress = (): void => {
        if (ticks++ === step.after) throw stop;
      };
      try {
        page.update(step.plan, { onProgress });
        laid.push(step.plan);
      } catch (error) {
        if (error !== stop) throw error;
        deepStrictEqual(look(page), before);
      }
    } else {
      if (step.kind === 'undo' && laid.length > 1) laid.pop();
      const plan = step.kind === 'update' ? step.plan : laid.at(-1)!;
      if (step.kind === 'update') laid.push(plan);
      expectTold(before, page.update(plan), page);
    }
    expectLaw(page, layFlats(input, { plan: laid.at(-1) }));
  }
}

interface Look {
  labels: Int32Array;
  indices: Uint8Array | Uint16Array;
  palette: Flats['palette'];
  ground: string | undefined;
  report: LayFlatsReport;
}

function look(page: Page): Look {
  const { labels, flats, report } = page;
  return {
    labels: labels.data.slice(),
    indices: flats.indices.data.slice(),
    palette: flats.palette,
    ground: flats.ground,
    report,
  };
}

/** What an update says of its changes holds. */
function expectTold(before: Look, told: PageUpdate, page: Page): void {
  const now = look(page);
  const [width] = page.size;
  const shown = ({ palette, ground, indices }: Look, p: number): string =>
    JSON.stringify([palette[indices[p]!], palette[indices[p]!]!.name === ground, indices[p]]);
  const [x0, y0, x1, y1] = told.changed ?? [0, 0, 0, 0];
  const touched = new Set<number>();
  now.labels.forEach((id, p) => {
    if (id === before.labels[p] && shown(now, p) === shown(before, p)) return;
    const [x, y] = [p % width, Math.floor(p / width)];
    ok(x >= x0 && x < x1 && y >= y0 && y < y1, `changed holds ${x},${y}`);
    touched.add(id).add(before.labels[p]!);
  });
  touched.delete(0);
  const [was, is] = [new Set(before.labels), new Set(now.labels)];
  const ids = [...touched].sort((a, b) => a - b);
  deepStrictEqual(
    told.addedIds,
    ids.filter((id) => !was.has(id)),
  );
  deepStrictEqual(
    told.goneIds,
    ids.filter((id) => !is.has(id)),
  );
  deepStrictEqual(
    told.changedIds,
    ids.filter((id) => was.has(id) && is.has(id)),
  );
}

/** The page is what was laid from nothing, ids and placeholders aside. */
export function expectLaw(page: Page, laid: LaidFlats): void {
  const [width] = page.size;
  const idOf = expectSameParts(page.labels, laid.labels);
  deepStrictEqual(page.sealed.data, laid.sealed.data);
  deepStrictEqual(page.ink.data, laid.ink.data);
  const { flats, report } = page;
  strictEqual(flats.ground, laid.flats.ground);
  strictEqual(flats.indices.data.constructor, laid.flats.indices.data.constructor);
  const each = laid.flats.palette.length - unnamedSwatches(laid);
  strictEqual(flats.palette.length, laid.flats.palette.length);
  deepStrictEqual(flats.palette.slice(0, each), laid.flats.palette.slice(0, each));
  strictEqual(new Set(flats.palette.map(({ name }) => name)).size, flats.palette.length);
  const swatchOf = new Map<number, number>();
  laid.flats.indices.data.forEach((index, p) => {
    const own = flats.indices.data[p]!;
    if (index < each) strictEqual(own, index);
    else {
      ok(own >= each);
      const id = page.labels.data[p]!;
      strictEqual(swatchOf.get(id) ?? own, own);
      swatchOf.set(id, own);
    }
  });
  if (each < laid.flats.palette.length) {
    strictEqual(new Set(swatchOf.values()).size, laid.flats.palette.length - each);
  }
  const byId = <T>(list: readonly T[], of: (item: T) => number): T[] =>
    [...list].sort((a, b) => of(a) - of(b));
  const mapped = {
    ...laid.report,
    unnamed: laid.report.unnamed
      .map((one): UnnamedRegion => ({ ...one, id: idOf.get(one.id)! }))
      .sort((a, b) => b.area - a.area || a.id - b.id),
    groundIds: laid.report.groundIds.map((id) => idOf.get(id)!).sort((a, b) => a - b),
    border: byId(
      laid.report.border.map(({ region, swatch }) => {
        return { region: idOf.get(region)!, swatch: placeholderless(laid.flats, each, swatch) };
      }),
      ({ region }) => region,
    ),
    claimed: laid.report.claimed.map((one) => {
      const swatch = placeholderless(laid.flats, each, one.swatch);
      return { ...one, region: idOf.get(one.region)!, swatch };
    }),
    conflicts: laid.report.conflicts.map((one) => {
      const [x, y] = one.point.map(Math.floor) as [number, number];
      return { ...one, region: page.labels.data[y * width + x]! };
    }),
  };
  const own = {
    ...report,
    groundIds: [...report.groundIds].sort((a, b) => a - b),
    border: report.border.map(({ region, swatch }) => {
      return { region, swatch: placeholderless(flats, each, swatch) };
    }),
    claimed: report.claimed.map((one) => {
      return { ...one, swatch: placeholderless(flats, each, one.swatch) };
    }),
  };
  deepStrictEqual(own, mapped);
}

function unnamedSwatches({ flats, report }: LaidFlats): number {
  if (report.unnamed.length === 0) return 0;
  const used = new Set(
    report.unnamed.map(({ inside: [x, y] }) => {
      return flats.indices.get(Math.floor(x), Math.floor(y));
    }),
  );
  return used.size;
}

function placeholderless({ palette }: Flats, each: number, swatch: string): string {
  return palette.findIndex(({ name }) => name === swatch) < each ? swatch : 'a placeholder';
}

/** Both labels part the picture alike; gives the first's id of each of the second. */
function expectSameParts(own: Labels, other: Labels): Map<number, number> {
  const idOf = new Map<number, number>();
  const back = new Map<number, number>();
  other.data.forEach((id, p) => {
    const here = own.data[p]!;
    strictEqual(idOf.get(id) ?? here, here);
    strictEqual(back.get(here) ?? id, id);
    idOf.set(id, here);
    back.set(here, id);
  });
  return idOf;
}
