import { describe, expect, it } from 'vitest';
import { composeSheet } from '../../src/flats/compose-sheet.ts';
import { layFlats } from '../../src/flats/lay-flats.ts';
import type { Mark } from '../../src/flats/marks/table.ts';
import { openPage } from '../../src/flats/page/open-page.ts';
import type { Plan } from '../../src/flats/plan.ts';
import type { PlanSettings } from '../../src/flats/settings.ts';
import { leaksBetween } from '../../src/gaps/leaks.ts';
import { outlineRegions } from '../../src/polygon/outline.ts';
import { raster } from '../../src/raster/raster.ts';
import { regionAt } from '../../src/regions/region-at.ts';
import { drawing } from './drawings.ts';
import { expectLaw } from './page-law.ts';

const SIDE = 160;
const pixels = drawing('1F600', SIDE);
const palette = ['shell', 'scarf', 'plumes'].map((name, i) => ({ name, color: `#4060${i}0` }));
const planOf = (marks: readonly Mark[], settings?: PlanSettings): Plan => ({
  version: 1,
  size: [SIDE, SIDE],
  palette,
  marks,
  settings,
});
const square = (x: number, y: number, side: number): Mark => ({
  polygon: [
    [
      [x, y],
      [x + side, y],
      [x + side, y + side],
      [x, y + side],
    ],
  ],
  swatch: 'shell',
  over: true,
});
const face: Mark = { point: [SIDE / 2 + 0.5, 45.5], swatch: 'scarf' };

describe('ids of a page', () => {
  it('are those of layFlats when it is opened', () => {
    const page = openPage(pixels, { plan: planOf([face]) });
    expect(page.labels.data).toEqual(layFlats(pixels, { plan: planOf([face]) }).labels.data);
  });

  it('stay with what keeps the most pixels; new ones are never of the past', () => {
    const page = openPage(pixels, { plan: planOf([]) });
    const id = page.regionAt(face.point as [number, number]);
    const first = page.update(planOf([square(70, 35, 12)]));
    expect(page.regionAt([120.5, 60.5])).toBe(id);
    expect(first.changedIds).toEqual([id]);
    expect(first.goneIds).toEqual([]);
    expect(first.changed).toEqual([70, 35, 82, 47]);
    const [patch] = first.addedIds;
    const undone = page.update(planOf([]));
    expect(undone.goneIds).toEqual([patch]);
    const again = page.update(planOf([square(70, 35, 12)]));
    expect(again.addedIds[0]).toBeGreaterThan(patch!);
  });

  it('placeholders stay with their regions, whatever is named beside them', () => {
    const page = openPage(pixels);
    const named = new Map(
      page.report.unnamed.map(({ id, inside }) => {
        const [x, y] = inside.map(Math.floor) as [number, number];
        return [id, page.flats.palette[page.flats.indices.get(x, y)]];
      }),
    );
    page.update(planOf([face, square(30, 110, 14)]));
    let kept = 0;
    for (const { id, inside } of page.report.unnamed) {
      if (!named.has(id)) continue;
      const [x, y] = inside.map(Math.floor) as [number, number];
      expect(page.flats.palette[page.flats.indices.get(x, y)]).toEqual(named.get(id));
      kept++;
    }
    expect(kept).toBeGreaterThan(1);
  });
});

describe('an update', () => {
  it('that changes nothing says so', () => {
    const page = openPage(pixels, { plan: planOf([face]) });
    const { changed, addedIds, goneIds, changedIds } = page.update(planOf([face]));
    expect([changed, addedIds, goneIds, changedIds]).toEqual([null, [], [], []]);
  });

  it('of a color alone repaints the regions that have it', () => {
    const page = openPage(pixels, { plan: planOf([face]) });
    const id = page.regionAt([80.5, 45.5]);
    const before = page.labels.data.slice();
    const plan = planOf([face]);
    const recolored = {
      ...plan,
      palette: [...palette.slice(0, 1), { name: 'scarf', color: '#ffffff' }, ...palette.slice(2)],
    };
    const { changed, changedIds } = page.update(recolored);
    expect(changedIds).toEqual([id]);
    expect(changed).toEqual(page.regionMask(id).bounds);
    expect(page.labels.data).toEqual(before);
  });

  it('with a bad plan, a mark outside, a stop or a bad raster leaves the page as it was', () => {
    const page = openPage(pixels, { plan: planOf([face]) });
    const before = [
      page.labels.data.slice(),
      page.flats.indices.data.slice(),
      page.report,
      page.plan,
    ];
    const now = () => [page.labels.data, page.flats.indices.data, page.report, page.plan];
    const next = planOf([square(10, 10, 90)]);
    const stopped = new Error('stopped');
    const small = raster(new Int32Array(4), [2, 2]);
    const bad = [
      () => page.update({ ...next, version: 2 } as unknown as Plan),
      () => page.update({ ...next, size: [3, 3] }),
      () => page.update(planOf([{ point: [-1, 3], swatch: 'shell' }])),
      () => page.update(next, { signal: AbortSignal.abort(stopped) }),
      () => page.update(next, { out: { labels: small } }),
      () => page.update(next, { out: { labels: page.labels } }),
      () => page.update(next, { out: { colors: small } as never }),
    ];
    for (const one of bad) {
      expect(one).toThrow();
      expect(now()).toEqual(before);
    }
    expect(bad[3]).toThrow(stopped);
  });

  it('finds the ink anew where the plan asks for another threshold', () => {
    const page = openPage(pixels, { plan: planOf([face]) });
    const plan = planOf([face], { threshold: { method: 'fixed', level: 250 } });
    page.update(plan);
    expectLaw(page, layFlats(pixels, { plan }));
    page.update(planOf([face]));
    expectLaw(page, layFlats(pixels, { plan: planOf([face]) }));
  });

  it('takes more than 256 swatches and goes back', () => {
    const page = openPage(pixels);
    const many = Array.from({ length: 300 }, (_, i) => ({ name: `fur ${i}`, color: '#123456' }));
    const plan = { ...planOf([]), palette: many };
    const { flats, changed } = page.update(plan);
    expect(flats.indices.data).toBeInstanceOf(Uint16Array);
    expect(changed).toEqual([0, 0, SIDE, SIDE]);
    expectLaw(page, layFlats(pixels, { plan }));
    expect(page.update(planOf([])).flats.indices.data).toBeInstanceOf(Uint8Array);
    expectLaw(page, layFlats(pixels, { plan: planOf([]) }));
  });
});

describe('rasters of a tool', () => {
  const memory = (bytes: number) => new SharedArrayBuffer(bytes);
  const out = () => ({
    labels: raster(new Int32Array(memory(4 * SIDE * SIDE)), [SIDE, SIDE]),
    indices: raster(new Uint8Array(memory(SIDE * SIDE)), [SIDE, SIDE]),
    picture: raster(new Uint8ClampedArray(memory(4 * SIDE * SIDE)), [SIDE, SIDE, 4]),
  });

  it('hold the page after each update, on shared memory too', () => {
    const page = openPage(pixels);
    const own = out();
    const other = out();
    const plans = [
      planOf([face]),
      planOf([face, square(20, 20, 40)]),
      planOf([square(90, 90, 20)]),
    ];
    plans.forEach((plan, i) => {
      const into = i === 1 ? other : own;
      page.update(plan, { out: into });
      expect([...into.labels.data]).toEqual([...page.labels.data]);
      expect([...into.indices.data]).toEqual([...page.flats.indices.data]);
      const whole = page.composeWithin([0, 0, SIDE, SIDE]);
      expect([...into.picture.data]).toEqual([...whole.data]);
    });
  });

  it('that were given to the last update too get only what has changed', () => {
    const page = openPage(pixels);
    const own = out();
    page.update(planOf([face]), { out: own });
    own.labels.data[0] = 77;
    page.update(planOf([face, square(60, 30, 9)]), { out: own });
    expect(own.labels.data[0]).toBe(77);
    expect([...own.labels.data].slice(1)).toEqual([...page.labels.data].slice(1));
    page.update(planOf([face]));
    page.update(planOf([face]), { out: own });
    expect(own.labels.data[0]).toBe(page.labels.data[0]);
  });
});

describe('a look at a page', () => {
  const plan = planOf([face, square(60, 30, 30)]);
  const page = openPage(pixels, { plan });
  const { labels } = page;

  it('at a point gives the region there, 0 outside', () => {
    for (const at of [
      [3.5, 4.2],
      [80, 45],
      [-1, 3],
      [SIDE, 0],
    ] as const) {
      expect(page.regionAt(at)).toBe(regionAt(labels, at));
    }
    expect(() => page.regionAt([Number.NaN, 1])).toThrow(RangeError);
  });

  it('at a region gives its pixels, cropped, and its rings', () => {
    const outlines = outlineRegions(labels);
    for (const { label, rings } of outlines) {
      const { mask, bounds, area } = page.regionMask(label);
      const [x0, y0, x1, y1] = bounds;
      expect(mask.shape).toEqual([x1 - x0, y1 - y0]);
      const whole = labels.data.filter((id) => id === label).length;
      expect(area).toBe(whole);
      expect(mask.data.reduce((sum, v) => sum + v, 0)).toBe(whole);
      expect(
        labels.get(
          x0,
          y0 + [...mask.data].findIndex((v, i) => v === 1 && i % (x1 - x0) === 0) / (x1 - x0),
        ),
      ).toBe(label);
      expect(page.regionOutline(label)).toEqual(rings);
    }
    for (const id of [0, 9999, -1, 1.5]) expect(() => page.regionMask(id)).toThrow(RangeError);
  });

  it('within bounds gives what composeSheet gives', () => {
    const sheet = composeSheet(page.flats, { line: pixels, within: [31, 40, 97, 88] });
    expect(page.composeWithin([31, 40, 97, 88]).data).toEqual(sheet.data);
    const white = composeSheet(page.flats, {
      line: pixels,
      backdrop: '#ffffff',
      within: [0, 0, 9, 9],
    });
    expect(page.composeWithin([0, 0, 9, 9], { backdrop: '#ffffff' }).data).toEqual(white.data);
    expect(() => page.composeWithin([0, 0, SIDE + 1, 3])).toThrow('bounds must be');
  });

  it('of ink alone shows the ink in black, as dark as its coverage', () => {
    const { ink } = layFlats(pixels);
    const inked = openPage({ ink }, { plan });
    const p = ink.data.indexOf(1);
    const [x, y] = [p % SIDE, Math.floor(p / SIDE)];
    expect([...inked.composeWithin([x, y, x + 1, y + 1]).data]).toEqual([0, 0, 0, 255]);
    const pale = raster(
      ink.data.map((v) => 100 * v),
      [SIDE, SIDE],
    );
    const gray = openPage({ ink, coverage: pale }, { plan });
    const under = composeSheet(gray.flats, { within: [x, y, x + 1, y + 1] }).data;
    const shown = gray.composeWithin([x, y, x + 1, y + 1]).data;
    expect(shown[0]).toBe(Math.round((under[0]! * 155) / 255));
  });

  it('for leaks gives those of the study', () => {
    const [a, b] = [
      [2.5, 2.5],
      [80.5, 45.5],
    ] as const;
    const coverage = layFlats(pixels).study;
    expect(page.leaksBetween(a, b).map(({ at }) => at)).toEqual(
      leaksBetween(coverage, a, b).map(({ at }) => at),
    );
  });
});

describe('a page that was saved', () => {
  const plan = planOf([
    face,
    square(60, 30, 30),
    {
      cut: [
        [10, 80],
        [150, 90],
      ],
    },
  ]);

  it('goes on as it would have', () => {
    const page = openPage(pixels, { plan });
    page.update(planOf([face]));
    const again = openPage(structuredClone(page.save()));
    const next = planOf([face, square(40, 90, 25)], { caution: 0.2 });
    const [own, other] = [page.update(next), again.update(next)];
    expect(again.labels.data).toEqual(page.labels.data);
    expect(again.flats.palette).toEqual(page.flats.palette);
    expect(other.report).toEqual(own.report);
    expect(other.changed).toEqual(own.changed);
    expect(again.composeWithin([0, 0, 50, 50]).data).toEqual(
      page.composeWithin([0, 0, 50, 50]).data,
    );
  });

  it('is not changed by what comes after', () => {
    const page = openPage(pixels, { plan });
    const saved = page.save();
    const before = structuredClone(saved);
    page.update(planOf([square(3, 3, 100)], { maxGap: 0, absorb: 30 }));
    expect(saved).toEqual(before);
  });

  it('opens with another plan at once', () => {
    const saved = openPage(pixels, { plan }).save();
    const page = openPage(saved, { plan: planOf([face]) });
    expectLaw(page, layFlats(pixels, { plan: planOf([face]) }));
  });

  it('by another version, or what is no page, is refused', () => {
    const saved = openPage(pixels).save();
    expect(() => openPage({ ...saved, version: 9 } as never)).toThrow(
      new RangeError('saved.version must be 2, the format of this release, got 9'),
    );
    expect(() => openPage({ ...saved, kind: 'underink gap study' } as never)).toThrow(TypeError);
  });
});
