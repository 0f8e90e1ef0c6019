/**
 * Plans, names and textures that are made to break a program: each is answered, by a result or by an
 * error that can be read. What grows with the square of its size would not end in the time of a test.
 */
import { describe, expect, it } from 'vitest';
import * as underink from '../../src/index.ts';
import { mask } from '../support/grids.ts';

const MANY = 100_000;
const [WIDTH, HEIGHT] = [400, 300];
const FUR = { name: 'fur', color: '#8a5d42' };

/** Cells of 20 × 20 pixels with a gap in every wall that runs across. */
const ink = underink.raster(new Uint8Array(WIDTH * HEIGHT), [WIDTH, HEIGHT]);
for (let y = 0; y < HEIGHT; y++) {
  for (let x = 0; x < WIDTH; x++) {
    if (x % 20 === 0 || (y % 20 === 0 && x % 20 !== 10)) ink.set(x, y, 1);
  }
}
const study = underink.studyGaps(ink);
const pointOf = (i: number): underink.Point => [
  ((i * 389) % WIDTH) + 0.5,
  ((i * 611 + Math.floor(i / 7)) % HEIGHT) + 0.5,
];
const planOf = (
  marks: readonly underink.Mark[],
  palette: readonly underink.Swatch[] = [FUR],
): underink.Plan => ({ version: 1, size: [WIDTH, HEIGHT], palette, marks });
const list = <T>(make: (i: number) => T, count = MANY): T[] =>
  Array.from({ length: count }, (_, i) => make(i));
const ring = () => list(pointOf);

const PLANS: Record<string, () => underink.Plan> = {
  'points of one swatch': () => planOf(list((i) => ({ point: pointOf(i), swatch: 'fur' }))),
  'points of 60,000 swatches': () => {
    const palette = list((i) => ({ name: `swatch ${i}`, color: colorOf(i) }), 60_000);
    return planOf(
      list((i) => ({ point: pointOf(i), swatch: `swatch ${i % 60_000}` })),
      palette,
    );
  },
  'fills of two swatches over each other': () => {
    const two = [FUR, { name: 'shell', color: '#d2603a' }];
    return planOf(
      list((i) => ({ fill: pointOf(i), swatch: two[i % 2]!.name, over: true })),
      two,
    );
  },
  'one polygon of that many points': () => planOf([{ polygon: [ring()], swatch: 'fur' }]),
  'one polygon of that many rings': () => {
    const rings = list((i) => [0, 1, 2].map((k) => pointOf(3 * i + k)));
    return planOf([{ polygon: rings, swatch: 'fur' }]);
  },
  'triangles of a few pixels': () =>
    planOf(
      list((i): underink.Mark => {
        const [x, y] = pointOf(i);
        return { polygon: [[pointOf(i), [x + 3, y], [x, y + 3]]], swatch: 'fur' };
      }),
    ),
  'one cut of that many points': () => planOf([{ cut: ring() }]),
  'one join of that many points': () => planOf([{ join: ring() }]),
  'joins of two points': () => planOf(list((i) => ({ join: [pointOf(i), pointOf(i + 1)] }))),
  bridges: () =>
    planOf(
      list((i): underink.Mark => {
        const [x, y] = [20 * (i % 19) + 9.5, 20 * (Math.floor(i / 19) % 15) + 0.5];
        return {
          bridge: [
            [x, y],
            [x + 2, y],
          ],
        };
      }),
    ),
};
const colorOf = (i: number): string => `#${(i + 1).toString(16).padStart(6, '0')}`;

describe('a plan of 100,000', () => {
  const plain = underink.layFlats({ ink }, { study });

  it.each(Object.keys(PLANS))('%s is laid, applied and corrected', (name) => {
    const plan = PLANS[name]!();
    const before = JSON.stringify(plan);
    const laid = underink.layFlats({ ink }, { plan, study });
    expect(covers(laid.flats)).toBe(true);
    const applied = underink.applyPlan(laid.labels, plan, { ink });
    expect(covers(applied.flats)).toBe(true);
    const page = underink.openPage({ ink }, { study });
    page.update(plan);
    const undone = page.update(planOf([]));
    expect(undone.report.regions).toBe(plain.report.regions);
    expect(JSON.stringify(plan)).toBe(before);
  });

  it('marks outside is reported, or refused at the first', () => {
    const plan = planOf(list((i) => ({ point: [WIDTH + i, -1 - i], swatch: 'fur' })));
    const { report } = underink.layFlats({ ink }, { plan, study, outside: 'report' });
    expect(report.outside.length).toBe(MANY);
    expect(() => underink.layFlats({ ink }, { plan, study })).toThrow(RangeError);
  });

  it('points is scaled, drafted anew and carried over', () => {
    const plan = PLANS['points of one swatch']!();
    expect(underink.scalePlan(plan, [2 * WIDTH, 2 * HEIGHT]).marks.length).toBe(MANY);
    expect(underink.carryPlan(plan, ink, ink).plan.marks.length).toBe(MANY);
  });
});

/** Whether every pixel has a swatch of the palette. */
function covers({ indices, palette }: underink.Flats): boolean {
  return indices.data.every((index: number) => index > 0 && index < palette.length);
}

describe('a name of 100,000 letters', () => {
  const name = 'scarf '.repeat(MANY / 6).trim();
  const palette = [{ name, color: '#c86400' }];
  const flats = {
    indices: underink.raster(new Uint8Array([0, 1, 1, 1]), [2, 2]),
    palette: [{ name: 'bare', color: '#000000' }, ...palette],
  };

  it('is kept by files, tables and layers', () => {
    expect(underink.readFlats(underink.writeFlats(flats).bytes).flats.palette[1]!.name).toBe(name);
    expect(underink.readVariants(underink.writeVariants(flats.palette)).rows[0]!.swatch).toBe(name);
    const { layers } = underink.readLayers(underink.writeLayers(flats));
    expect(layers.map((layer) => layer.name)).toContain(name);
    const { bytes } = underink.writeFlats({
      ...flats,
      palette: [flats.palette[0]!, { name: 'a', color: '#c86400' }],
    });
    const names = underink.namesToJson(flats);
    expect(underink.readFlats(bytes, { names }).flats.palette[1]!.name).toBe(name);
  });

  it('is laid, found and recolored', () => {
    const plan = planOf([{ point: [5.5, 5.5], swatch: name }], palette);
    expect(underink.layFlats({ ink }, { plan, study }).report.named).toBe(1);
    expect(underink.recolor(flats, { [name]: '#402060' }).palette[1]!.color).toBe('#402060');
    expect(underink.selectSwatch(flats, name).data.join()).toBe('0,1,1,1');
  });

  it('that is unknown gives an error that can be read', () => {
    const wrong = `${name}!`;
    const calls = [
      () => underink.recolor(flats, { [wrong]: '#402060' }),
      () => underink.selectSwatch(flats, wrong),
      () => underink.renameSwatch(flats, wrong, 'b'),
      () =>
        underink.layFlats({ ink }, { plan: planOf([{ point: [1, 1], swatch: wrong }], palette) }),
      () => underink.layFlats({ ink }, { [wrong]: 1 } as never),
      () => underink.layFlats({ ink }, { threshold: { method: wrong } } as never),
      () => underink.checkFlats(flats, { checks: [wrong] } as never),
    ];
    for (const call of calls) expect(messageOf(call).length).toBeLessThan(1000);
  });
});

function messageOf(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    expect(error instanceof RangeError || error instanceof TypeError).toBe(true);
    return (error as Error).message;
  }
  throw new Error('nothing was thrown');
}

describe('a call that is ended', () => {
  const small = mask(`
    1 1 1 1 1 1 1 1 1 1 1 1
    1 0 0 0 0 1 0 0 0 0 0 1
    1 0 0 0 0 0 0 0 0 0 0 1
    1 0 0 0 0 1 0 0 0 0 0 1
    1 1 1 1 1 1 1 1 0 1 1 1
  `);
  const plan: underink.Plan = {
    ...{ version: 1, size: [12, 5], palette: [FUR] },
    marks: [{ point: [2.5, 2.5], swatch: 'fur' }],
  };
  const coverage = underink.raster(
    small.data.map((v) => 255 * v),
    [12, 5],
  );
  const { flats } = underink.layFlats({ ink: small }, { plan });
  const solid = underink.paintFlats(flats);

  type Watch = { onProgress: () => void; signal: AbortSignal };
  const CALLS: Record<string, (watch: Watch) => unknown> = {
    layFlats: (watch) => underink.layFlats({ ink: small, coverage }, { plan, ...watch }),
    carryFlats: (watch) => underink.carryFlats(flats, small, small, watch),
    carryPlan: (watch) => underink.carryPlan(plan, small, small, watch),
    hardenEdges: (watch) => underink.hardenEdges(solid, watch),
    checkFlats: (watch) => underink.checkFlats(flats, { ink: small, coverage, ...watch }),
    checkSheets: (watch) => underink.checkSheets([{ name: 'one', flats, ink: small }], watch),
    openPage: (watch) => underink.openPage({ ink: small }, { plan, ...watch }),
  };
  const given = () => JSON.stringify([small.data, coverage.data, plan, flats, solid.data]);

  it.each(Object.keys(CALLS))(
    '%s ends at any look, with its reason, and changes nothing',
    (name) => {
      const call = CALLS[name]!;
      let looks = 0;
      const never = new AbortController().signal;
      call({ onProgress: () => looks++, signal: never });
      expect(looks).toBeGreaterThan(0);
      const before = given();
      for (let last = 1; last <= looks; last++) {
        for (const how of ['signal', 'onProgress']) {
          const reason = new Error(`${how} ${last}`);
          const controller = new AbortController();
          let seen = 0;
          const onProgress = (): void => {
            if (++seen !== last) return;
            if (how === 'onProgress') throw reason;
            controller.abort(reason);
          };
          let thrown: unknown;
          try {
            call({ onProgress, signal: controller.signal });
          } catch (error) {
            thrown = error;
          }
          // an abort at the last look may come too late to be seen
          if (how === 'onProgress' || last < looks) expect(thrown).toBe(reason);
        }
      }
      expect(given()).toBe(before);
    },
  );

  it('leaves a page as it was, at any look of an update', () => {
    const line: underink.Point[] = [
      [1, 2.5],
      [11, 2.5],
    ];
    const next: underink.Plan = { ...plan, marks: [...plan.marks, { cut: line }] };
    const open = () => underink.openPage({ ink: small }, { plan });
    const stateOf = ({ labels, flats, report, plan }: underink.Page) =>
      JSON.stringify([labels.data, flats, report, plan]);
    let looks = 0;
    open().update(next, { onProgress: () => looks++ });
    expect(looks).toBeGreaterThan(1);
    for (let last = 1; last <= looks; last++) {
      // a page of its own: what an update has worked out until it ends, the next need not
      const page = open();
      const before = stateOf(page);
      let seen = 0;
      const onProgress = (): void => {
        if (++seen === last) throw new Error('ended');
      };
      expect(() => page.update(next, { onProgress })).toThrow('ended');
      expect(stateOf(page)).toBe(before);
    }
  });
});
