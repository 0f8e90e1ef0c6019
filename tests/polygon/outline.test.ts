import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { outlinesToSvg } from '../../src/flats/outlines-to-svg.ts';
import { type Outline, outlineRegions } from '../../src/polygon/outline.ts';
import { rasterizePolygon } from '../../src/polygon/rasterize.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Labels, LabelsLike, Point } from '../../src/raster/types.ts';
import { growUnderInk } from '../../src/regions/grow.ts';
import { labelRegions } from '../../src/regions/label.ts';
import { measureRegions } from '../../src/regions/measure.ts';
import { mergeRegions } from '../../src/regions/merge.ts';
import { splitRegion } from '../../src/regions/split.ts';
import { inkDrawings } from '../flats/drawings.ts';
import {
  grid,
  labels,
  literal,
  mask,
  otherViews,
  symmetries,
  worstCases,
} from '../support/grids.ts';
import { seeded } from '../support/random.ts';

function shoelace(ring: readonly Point[]): number {
  return ring.reduce((sum, [x, y], i) => {
    const [u, v] = ring[(i + 1) % ring.length]!;
    return sum + (x * v - u * y) / 2;
  }, 0);
}

function restore(
  outlines: readonly Outline[],
  [w, h]: readonly [number, number],
  rule: 'evenodd' | 'nonzero',
): Int32Array {
  const data = new Int32Array(w * h);
  for (const { label, rings } of outlines) {
    rasterizePolygon(rings, [w, h], { rule }).data.forEach((v, i) => {
      if (v === 1) data[i]! += label;
    });
  }
  return data;
}

function random(w: number, h: number, ids: number, seed: number): Labels {
  const next = seeded(seed);
  return raster(
    Int32Array.from({ length: w * h }, () => Math.floor(next() * ids)),
    [w, h],
  );
}

/** Regions of a drawing's paper, grown under its ink. */
function regionsOf(ink: Parameters<typeof growUnderInk>[1]): Labels {
  return growUnderInk(labelRegions(ink, { of: 0 }).labels, ink);
}

function checkOutlines(image: LabelsLike & Labels): void {
  const size = image.shape as [number, number];
  const outlines = outlineRegions(image);
  for (const rule of ['evenodd', 'nonzero'] as const) {
    expect(restore(outlines, size, rule)).toEqual(
      Int32Array.from(grid(image).split(/\s+/), (v) => (v === '.' ? 0 : Number(v))),
    );
  }
  const measured = measureRegions(image);
  for (const { label, rings } of outlines) {
    const areas = rings.map(shoelace);
    expect(areas.reduce((a, b) => a + b)).toBe(measured.area[label]);
    const euler = areas.reduce((sum, area) => sum + Math.sign(area), 0);
    expect(euler).toBe(measured.eulerNumber[label]);
  }
}

describe('outlineRegions', () => {
  it('runs clockwise along pixel edges, holes the other way, corners only', () => {
    const image = labels(`
      2 2 2 2
      2 . 2 2
      2 2 2 .`);
    expect(outlineRegions(image)).toEqual([
      {
        label: 2,
        rings: [
          [
            [0, 0],
            [4, 0],
            [4, 2],
            [3, 2],
            [3, 3],
            [0, 3],
          ],
          [
            [1, 1],
            [1, 2],
            [2, 2],
            [2, 1],
          ],
        ],
      },
    ]);
  });

  it('keeps pixels apart that touch at a corner only', () => {
    const image = labels(`
      1 2
      2 1`);
    expect(outlineRegions(image)).toEqual([
      {
        label: 1,
        rings: [
          [
            [0, 0],
            [1, 0],
            [1, 1],
            [0, 1],
          ],
          [
            [1, 1],
            [2, 1],
            [2, 2],
            [1, 2],
          ],
        ],
      },
      {
        label: 2,
        rings: [
          [
            [1, 0],
            [2, 0],
            [2, 1],
            [1, 1],
          ],
          [
            [0, 1],
            [1, 1],
            [1, 2],
            [0, 2],
          ],
        ],
      },
    ]);
  });

  it('gives the labels back, area and Euler number: random, worst cases, symmetries, views', () => {
    for (let seed = 0; seed < 40; seed++)
      checkOutlines(random(3 + (seed % 9), 11, 2 + (seed % 3), seed));
    for (const worst of Object.values(worstCases(33, 21))) {
      checkOutlines(raster(Int32Array.from(worst.data), worst.shape as [number, number]));
    }
    const image = random(7, 5, 3, 1);
    for (const turned of symmetries(image)) {
      for (const view of otherViews(turned)) checkOutlines(view as Labels);
    }
    checkOutlines(random(1, 1, 2, 2));
  });

  it('takes rasters past 65,535', () => {
    const wide = raster(new Int32Array(140_000).fill(1, 70_001), [70_000, 2]);
    expect(outlineRegions(wide)).toEqual([
      {
        label: 1,
        rings: [
          [
            [1, 1],
            [70_000, 1],
            [70_000, 2],
            [1, 2],
          ],
        ],
      },
    ]);
  });

  it('gives the labels of 200 drawings back (openmoji 17, CC BY-SA 4.0)', () => {
    for (const { ink } of inkDrawings(200, 144)) {
      const image = regionsOf(ink);
      const size = image.shape as [number, number];
      const outlines = outlineRegions(image);
      expect(restore(outlines, size, 'nonzero')).toEqual(image.data);
      const measured = measureRegions(image);
      for (const { label, rings } of outlines) {
        const areas = rings.map(shoelace);
        expect(areas.reduce((a, b) => a + b)).toBe(measured.area[label]);
        expect(areas.reduce((n, area) => n + Math.sign(area), 0)).toBe(measured.eulerNumber[label]);
      }
    }
  });
});

describe('simplified outlines', () => {
  it('still tile the plane and keep within the limit', () => {
    let [before, after] = [0, 0];
    for (const { ink } of inkDrawings(24, 128)) {
      const image = regionsOf(ink);
      const size = image.shape as [number, number];
      const whole = outlineRegions(image);
      for (const simplify of [0.5, 1.5, 4]) {
        const outlines = outlineRegions(image, { simplify });
        expect(outlines.map(({ label }) => label)).toEqual(whole.map(({ label }) => label));
        const cover = new Uint8Array(size[0] * size[1]);
        for (const { rings } of outlines) {
          rasterizePolygon(rings, size).data.forEach((v, i) => {
            cover[i]! += v;
          });
        }
        expect(cover.every((v) => v === 1)).toBe(true);
        outlines.forEach(({ rings }, k) => {
          for (const p of whole[k]!.rings.flat())
            expect(nearest(rings, p)).toBeLessThanOrEqual(simplify + 1e-9);
        });
      }
      before += countPoints(whole);
      after += countPoints(outlineRegions(image, { simplify: 1.5 }));
    }
    expect(after).toBeLessThan(0.5 * before);
  });

  it('covers random labels exactly once, without crossings', () => {
    for (let seed = 0; seed < 60; seed++) {
      const image = random(9, 8, 4, 500 + seed);
      const filled = raster(
        image.data.map((v) => v + 1),
        [9, 8],
      );
      const outlines = outlineRegions(filled, { simplify: 2 });
      const cover = new Uint8Array(72);
      for (const { rings } of outlines) {
        rasterizePolygon(rings, [9, 8]).data.forEach((v, i) => {
          cover[i]! += v;
        });
      }
      expect([...cover].every((v) => v === 1)).toBe(true);
      const segments = outlines.flatMap(({ rings }) =>
        rings.flatMap((ring) => ring.map((p, i) => [p, ring[(i + 1) % ring.length]!] as const)),
      );
      const crossing = segments.filter(([a, b]) => segments.some(([c, d]) => cross(a, b, c, d)));
      expect(crossing).toEqual([]);
    }
  });

  it('does not take away a ring', () => {
    const image = labels(`
      1 1 1 1 1
      1 1 2 1 1
      1 1 1 1 1`);
    const [, hole] = outlineRegions(image, { simplify: 100 });
    expect(hole!.rings[0]!.length).toBeGreaterThanOrEqual(3);
  });
});

describe('outlinesToSvg', () => {
  it('drawn by resvg gives the labels back', () => {
    const [drawing] = inkDrawings(1, 200);
    const image = regionsOf(drawing!.ink);
    const [w, h] = image.shape as [number, number];
    const fill = (label: number) => `#${(label * 0x010305).toString(16).padStart(6, '0')}`;
    const svg = outlinesToSvg(outlineRegions(image), [w, h], {
      fill,
      title: (l) => `a<b & "${l}"`,
    });
    const { pixels } = new Resvg(svg, { font: { loadSystemFonts: false } }).render();
    const back = Int32Array.from(
      { length: w * h },
      (_, i) =>
        ((pixels[4 * i]! << 16) | (pixels[4 * i + 1]! << 8) | pixels[4 * i + 2]!) / 0x010305,
    );
    expect(back).toEqual(image.data);
    expect(svg).toContain('<title>a&lt;b &amp; &quot;1&quot;</title>');
    expect(svg.match(/<path /g)!.length).toBe(outlineRegions(image).length);
  });

  it('colors by label, and refuses bad arguments', () => {
    const outlines = outlineRegions(labels('1 2'));
    const colors = [...outlinesToSvg(outlines, [2, 1]).matchAll(/fill="(#[0-9a-f]{6})"/g)];
    expect(new Set(colors.map(([, color]) => color)).size).toBe(2);
    expect(() => outlinesToSvg(outlines, [2, 0])).toThrow('size must be [width, height]');
  });
});

describe('splitRegion', () => {
  it('cuts along a line, which goes to the nearest piece', () => {
    const image = labels(`
      3 3 3 3 3
      3 3 3 3 3
      1 1 1 1 1`);
    expect(
      grid(
        splitRegion(image, 3, [
          [1.5, -4],
          [1.5, 9],
        ]),
      ),
    ).toBe(
      literal(`
        4 3 3 3 3
        4 3 3 3 3
        1 1 1 1 1`)
        .replaceAll('4 3', '4 4')
        .replaceAll('4 4 4', '4 4 3'),
    );
  });

  it('divides what the ink walls off where a line leads from stroke to stroke', () => {
    const ink = mask(`
      . . . 1 . . .
      . . . 1 . . .
      . . . . . . .
      . . . 1 . . .`);
    const grown = raster(new Int32Array(28).fill(1), [7, 4]);
    const cut = splitRegion(
      grown,
      1,
      [
        [3.5, 2.5],
        [3.5, 3],
      ],
      { ink },
    );
    expect(new Set([cut.get(0, 0), cut.get(6, 3)]).size).toBe(2);
    expect(
      splitRegion(grown, 1, [
        [3.5, 2.5],
        [3.5, 3],
      ]).data,
    ).toEqual(grown.data);
  });

  it('leaves parts alone that were apart before, and other regions', () => {
    const image = labels(`
      1 1 1 2 1
      1 1 1 2 1`);
    expect(
      grid(
        splitRegion(image, 1, [
          [1.5, 0],
          [1.5, 2],
        ]),
      ),
    ).toBe(
      literal(`
        1 1 3 2 1
        1 1 3 2 1`),
    );
    expect(
      splitRegion(image, 1, [
        [0, 0],
        [0, 1],
      ]).data,
    ).toEqual(image.data);
  });

  it('keeps pieces 4-connected and covers what was there, on any line', () => {
    for (let seed = 0; seed < 100; seed++) {
      const next = seeded(seed);
      const image = random(12, 9, 2, seed);
      const line = Array.from({ length: 3 }, (): Point => [next() * 30 - 9, next() * 20 - 5]);
      if (!image.data.includes(1)) continue;
      const cut = splitRegion(image, 1, line);
      image.data.forEach((v, i) => {
        expect(v === 1 ? cut.data[i]! >= 1 : cut.data[i] === v).toBe(true);
      });
    }
  });

  it('refuses bad arguments', () => {
    const image = labels('1 1');
    expect(() =>
      splitRegion(image, 2, [
        [0, 0],
        [1, 1],
      ]),
    ).toThrow(new RangeError('id must occur in labels, got 2'));
    expect(() => splitRegion(image, 1, [[0, 0]])).toThrow(
      'polyline must be a line of at least two points',
    );
  });
});

describe('mergeRegions', () => {
  it('gives the first id to all', () => {
    expect(grid(mergeRegions(labels('1 2 3 2'), [2, 3, 3]))).toBe('1 2 2 2');
    expect(() => mergeRegions(labels('1 2'), [1, 4])).toThrow(
      new RangeError('ids[1] must occur in labels, got 4'),
    );
    expect(() => mergeRegions(labels('1 2'), [])).toThrow(
      'ids must be a list of at least one region id',
    );
  });
});

function countPoints(outlines: readonly Outline[]): number {
  return outlines.flatMap(({ rings }) => rings.flat()).length;
}

function nearest(rings: readonly (readonly Point[])[], [x, y]: Point): number {
  return Math.min(
    ...rings.flatMap((ring) =>
      ring.map(([ax, ay], i) => {
        const [bx, by] = ring[(i + 1) % ring.length]!;
        const [dx, dy] = [bx - ax, by - ay];
        const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
        return Math.hypot(x - ax - t * dx, y - ay - t * dy);
      }),
    ),
  );
}

/** Whether two segments cross inside both. */
function cross(a: Point, b: Point, c: Point, d: Point): boolean {
  const side = (p: Point, q: Point, r: Point) =>
    Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

describe('outlinesToSvg refuses', () => {
  const rings = [
    [
      [0, 0],
      [1, 0],
      [1, 1],
    ],
  ] as const;
  const of = (outline: unknown) => () => outlinesToSvg([outline as Outline], [1, 1]);

  it('a label that is no whole number, which would be markup in an id', () => {
    expect(of({ label: '1"/><script>', rings })).toThrow(TypeError);
    expect(of({ label: '1"/><script>', rings })).toThrow(/^outlines\[0\]\.label must be a whole/);
    expect(of({ label: 1.5, rings })).toThrow(RangeError);
    expect(of(undefined)).toThrow('outlines[0] must be an outline { label, rings }, got undefined');
  });

  it('colors and titles of another kind', () => {
    const outlines: Outline[] = [{ label: 1, rings: rings.map((ring) => [...ring]) }];
    const svg = (options: object) => () => outlinesToSvg(outlines, [1, 1], options);
    expect(svg({ title: () => 7 })).toThrow(
      new TypeError('title(1) must be a string or undefined, got 7'),
    );
    expect(svg({ fill: () => 'red' })).toThrow('fill(1) must be a color \'#rrggbb\', got "red"');
    expect(svg({ title: () => '<shell>' })()).toContain('<title>&lt;shell&gt;</title>');
  });
});
