import { Resvg } from '@resvg/resvg-js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isAtOrRight } from '../../src/polygon/exact-side.ts';
import { rasterizePolygon } from '../../src/polygon/rasterize.ts';
import type { Rings } from '../../src/polygon/rings-argument.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Point } from '../../src/raster/types.ts';
import { grid, literal } from '../support/grids.ts';
import { loadOpenCV } from '../support/opencv.ts';
import { seeded } from '../support/random.ts';
import { exact, windingAt } from './winding.ts';

const RULES = ['evenodd', 'nonzero'] as const;

function oracle(rings: Rings, w: number, h: number, rule: (typeof RULES)[number]): Uint8Array {
  return Uint8Array.from({ length: w * h }, (_, i) => {
    const winding = windingAt(rings, i % w, Math.floor(i / w));
    return rule === 'evenodd' ? winding & 1 : winding === 0 ? 0 : 1;
  });
}

// From memory: OpenGL 4.6 §14.6.1, Vulkan "Polygon Rasterization", Direct3D 11 rasterization rules.
describe('the top-left rule', () => {
  it('takes centers on left and level top edges, not on right and bottom ones', () => {
    const square: Point[] = [
      [0.5, 0.5],
      [2.5, 0.5],
      [2.5, 2.5],
      [0.5, 2.5],
    ];
    const expected = literal(`
      1 1 .
      1 1 .
      . . .`);
    expect(grid(rasterizePolygon([square], [3, 3]))).toBe(expected);
    expect(grid(rasterizePolygon([square.toReversed()], [3, 3]))).toBe(expected);
  });

  it('takes centers on slanted left edges', () => {
    const diamond: Point[] = [
      [2.5, 0.5],
      [4.5, 2.5],
      [2.5, 4.5],
      [0.5, 2.5],
    ];
    expect(grid(rasterizePolygon([diamond], [5, 5]))).toBe(
      literal(`
        . . . . .
        . 1 1 . .
        1 1 1 1 .
        . 1 1 . .
        . . . . .`),
    );
  });

  it('gives the two sides of a diagonal through centers every pixel once', () => {
    const upper: Point[] = [
      [0, 0],
      [4, 0],
      [4, 4],
    ];
    const lower: Point[] = [
      [0, 0],
      [4, 4],
      [0, 4],
    ];
    expect(grid(rasterizePolygon([upper], [4, 4]))).toBe(
      literal(`
        1 1 1 1
        . 1 1 1
        . . 1 1
        . . . 1`),
    );
    expect(grid(rasterizePolygon([lower], [4, 4]))).toBe(
      literal(`
        . . . .
        1 . . .
        1 1 . .
        1 1 1 .`),
    );
  });
});

describe('rasterizePolygon', () => {
  it('tells the two rules apart where rings of one direction overlap', () => {
    const square = (near: number, far: number): Point[] => [
      [near, near],
      [far, near],
      [far, far],
      [near, far],
    ];
    const rings = [square(0, 4), square(1, 5)];
    expect(grid(rasterizePolygon(rings, [5, 5], { rule: 'nonzero' }))).toBe(
      literal(`
        1 1 1 1 .
        1 1 1 1 1
        1 1 1 1 1
        1 1 1 1 1
        . 1 1 1 1`),
    );
    expect(grid(rasterizePolygon(rings, [5, 5]))).toBe(
      literal(`
        1 1 1 1 .
        1 . . . 1
        1 . . . 1
        1 . . . 1
        . 1 1 1 1`),
    );
    const against = [square(0, 4), square(1, 5).toReversed()];
    const { data } = rasterizePolygon(rings, [5, 5]);
    expect(rasterizePolygon(against, [5, 5], { rule: 'nonzero' }).data).toEqual(data);
  });

  it('gives nothing for rings without area', () => {
    const flat: Rings = [
      [],
      [[1, 1]],
      [
        [0, 0],
        [5, 5],
      ],
      [
        [0, 0],
        [4, 4],
        [2, 2],
      ],
      [
        [1, 1],
        [3, 1],
        [2, 1],
      ],
    ];
    for (const rule of RULES) {
      expect(rasterizePolygon(flat, [5, 5], { rule }).data.every((v) => v === 0)).toBe(true);
    }
    expect(rasterizePolygon([], [1, 3]).data).toEqual(new Uint8Array(3));
  });

  it('equals the winding number in exact fractions', () => {
    const coordinate = fc.oneof(
      fc.integer({ min: -4, max: 44 }).map((v) => v / 2),
      fc.integer({ min: -10, max: 90 }).map((v) => v / 4),
      fc.double({ min: -3, max: 24, noNaN: true }),
      fc.constantFrom(
        -(2 ** 30),
        2 ** 30,
        2 ** 30 - 0.25,
        1e-300,
        -1e-300,
        0.5 + 2 ** -53,
        0.1 + 0.2,
      ),
    );
    const ring = fc.array(fc.tuple(coordinate, coordinate), { maxLength: 9 });
    fc.assert(
      fc.property(
        fc.array(ring, { minLength: 1, maxLength: 3 }),
        fc.integer({ min: 1, max: 21 }),
        fc.constantFrom(...RULES),
        (rings, side, rule) => {
          const [w, h] = [side, 22 - side];
          expect(rasterizePolygon(rings, [w, h], { rule }).data).toEqual(oracle(rings, w, h, rule));
        },
      ),
      { numRuns: 500 },
    );
  });

  it('holds at 2^30 and with edges that pass centers closely', () => {
    const random = seeded(11);
    for (let k = 0; k < 300; k++) {
      // Edges through, or a last place beside, a center far from both their ends.
      const [cx, cy] = [Math.floor(random() * 9) + 0.5, Math.floor(random() * 9) + 0.5];
      const [dx, dy] = [(random() - 0.5) * 2 ** 30, random() * 2 ** 29];
      const nudge = (Math.floor(random() * 3) - 1) * 2 ** -23;
      const ring: Point[] = [
        [cx - dx, cy - dy],
        [cx + dx + nudge, cy + dy],
        [random() * 9, cy - dy],
      ];
      expect(rasterizePolygon([ring], [9, 9]).data).toEqual(oracle([ring], 9, 9, 'evenodd'));
    }
  });

  it('covers planar subdivisions exactly once', () => {
    let triangles = 0;
    for (let seed = 0; seed < 1000; seed++) {
      const random = seeded(seed);
      const parts = subdivision(random, 24, 3 + (seed % 4));
      const sum = new Uint8Array(24 * 24);
      for (const part of parts) {
        const { data } = rasterizePolygon([part], [24, 24]);
        for (let i = 0; i < sum.length; i++) sum[i]! += data[i]!;
      }
      triangles += parts.length;
      expect(
        sum.every((v) => v === 1),
        `seed ${seed}`,
      ).toBe(true);
    }
    expect(triangles).toBeGreaterThan(20_000);
  });

  it('covers a rectangle by a simple polygon and its complement exactly once', () => {
    for (let seed = 0; seed < 1000; seed++) {
      const random = seeded(seed);
      const ring = star(random, 20);
      const frame: Point[] = [
        [-2, -2],
        [22, -2],
        [22, 22],
        [-2, 22],
      ];
      const inside = rasterizePolygon([ring], [20, 20], { rule: 'nonzero' }).data;
      const complement = [frame, area(ring) > 0 ? ring.toReversed() : ring];
      for (const rule of RULES) {
        const { data } = rasterizePolygon(complement, [20, 20], { rule });
        expect(
          data.every((v, i) => v + inside[i]! === 1),
          `seed ${seed}`,
        ).toBe(true);
      }
    }
  });

  it('does not change with the direction, the first point, or repeated and collinear points', () => {
    for (let seed = 0; seed < 200; seed++) {
      const random = seeded(seed);
      const ring = Array.from({ length: 7 }, (): Point => [half(random, 30), half(random, 30)]);
      const same = rasterizePolygon([ring], [30, 30]).data;
      const turned = [...ring.slice(3), ...ring.slice(0, 3)].toReversed();
      const dense = turned.flatMap(([x, y], i): Point[] => {
        const [u, v] = turned[(i + 1) % turned.length]!;
        return [
          [x, y],
          [x, y],
          [(x + u) / 2, (y + v) / 2],
        ];
      });
      expect(rasterizePolygon([turned], [30, 30]).data).toEqual(same);
      expect(rasterizePolygon([dense], [30, 30]).data).toEqual(same);
    }
  });

  it('turns and mirrors with the picture where no center lies on an edge', () => {
    const random = seeded(5);
    const ring = Array.from(
      { length: 12 },
      (): Point => [
        Math.floor(random() * 40) + 0.1 + random() * 0.1,
        Math.floor(random() * 40) + 0.61 + random() * 0.1,
      ],
    );
    const at = rasterizePolygon([ring], [40, 40]);
    const mirrored = rasterizePolygon([ring.map(([x, y]): Point => [40 - x, y])], [40, 40]);
    const turned = rasterizePolygon([ring.map(([x, y]): Point => [40 - y, x])], [40, 40]);
    for (let y = 0; y < 40; y++) {
      for (let x = 0; x < 40; x++) {
        expect(mirrored.get(39 - x, y)).toBe(at.get(x, y));
        expect(turned.get(39 - y, x)).toBe(at.get(x, y));
      }
    }
  });

  it('takes rasters past 65,535 and polygons of 100,000 points', () => {
    const wide: Point[] = [
      [-10, 0.25],
      [70_010, 0.25],
      [70_010, 2.75],
      [35_000.5, 1.5],
    ];
    expect(rasterizePolygon([wide], [70_000, 3]).data).toEqual(
      oracle([wide], 70_000, 3, 'evenodd'),
    );
    const zigzag: Point[] = Array.from({ length: 100_000 }, (_, i) => [i / 4, i % 2 === 0 ? 0 : 5]);
    zigzag.push([25_000, -1], [0, -1]);
    for (const rule of RULES) {
      const { data } = rasterizePolygon([zigzag], [25_001, 6], { rule });
      for (let i = 0; i < data.length; i += 97) {
        const winding = windingNear(zigzag, i % 25_001, Math.floor(i / 25_001));
        expect(data[i]).toBe(rule === 'evenodd' ? winding & 1 : winding === 0 ? 0 : 1);
      }
    }
  });

  it('writes into a given mask', () => {
    const out = raster(new Uint8Array(9).fill(7), [3, 3]);
    const triangle: Point[] = [
      [0, 0],
      [3, 0],
      [0, 3],
    ];
    expect(rasterizePolygon([triangle], [3, 3], { out })).toBe(out);
    expect(grid(out)).toBe(literal('1 1 .\n1 . .\n. . .'));
  });

  it('refuses bad arguments', () => {
    const ring = [
      [0, 0],
      [1, 0],
      [0, 1],
    ];
    const call =
      (rings: unknown, size: unknown = [2, 2], options?: object) =>
      () =>
        rasterizePolygon(rings as Rings, size as [number, number], options);
    expect(call(ring)).toThrow(
      'rings[0] must be a ring, a list of points [x, y]; one ring is [ring], got [0, 0]',
    );
    expect(
      call([
        [
          [0, 0],
          [Number.NaN, 1],
        ],
      ]),
    ).toThrow('rings[0][1] must be a point of finite numbers');
    expect(
      call([
        [
          [0, 0],
          [2 ** 30 + 1, 1],
        ],
      ]),
    ).toThrow('rings[0][1] must be coordinates within ±2^30');
    expect(call([ring], [2, 0])).toThrow(
      'size must be [width, height] in whole pixels >= 1, got [2, 0]',
    );
    expect(call([ring], [2, 2], { rule: 'odd' })).toThrow(
      'rule must be one of "evenodd", "nonzero", got "odd"',
    );
  });
});

describe('isAtOrRight', () => {
  it('equals whole numbers where doubles round', () => {
    const value = fc.oneof(
      fc.double({ min: -(2 ** 30), max: 2 ** 30, noNaN: true }),
      fc.integer({ min: -50, max: 50 }).map((v) => v / 8),
      fc.constantFrom(1e-310, 2 ** 30, 0.1, 1 / 3, 2 ** -40),
    );
    fc.assert(
      fc.property(fc.tuple(value, value, value, value, value, value), ([x, y, x0, u, x1, v]) => {
        const [y0, y1] = u < v ? [u, v] : [v, u];
        const [a, b, c, d, e, f] = [x, y, x0, y0, x1, y1].map(exact) as bigint[];
        const side = (a! - c!) * (f! - d!) - (b! - d!) * (e! - c!);
        expect(isAtOrRight(x, y, x0, y0, x1, y1)).toBe(side >= 0n);
      }),
      { numRuns: 5000 },
    );
  });
});

describe('other rasterizers, off the edges', () => {
  // OpenCV's fillPoly draws the border too (pixels that an edge passes belong to the polygon), and
  // takes pixel centers for whole coordinates. So both are compared where no edge is near.
  it('agrees with OpenCV fillPoly farther than 1 from every edge', async () => {
    const { cv } = await loadOpenCV();
    for (let seed = 0; seed < 60; seed++) {
      const random = seeded(seed);
      const points = Array.from(
        { length: 3 + (seed % 30) },
        (): Point => [Math.floor(random() * 120), Math.floor(random() * 120)],
      );
      const mat = cv.Mat.zeros(120, 120, cv.CV_8UC1);
      const contour = cv.matFromArray(points.length, 1, cv.CV_32SC2, points.flat());
      const contours = new cv.MatVector();
      contours.push_back(contour);
      cv.fillPoly(mat, contours, new cv.Scalar(1));
      const ring = points.map(([x, y]): Point => [x + 0.5, y + 0.5]);
      compareOff(rasterizePolygon([ring], [120, 120]).data, mat.data, [ring], 1, `seed ${seed}`);
      for (const item of [mat, contour, contours]) item.delete();
    }
  });

  // resvg without antialiasing samples on a finer grid of scanlines with fixed-point coordinates, so
  // an edge may come out up to about half a pixel off.
  it('agrees with resvg crisp edges farther than 1 from every edge, under both rules', () => {
    for (let seed = 0; seed < 60; seed++) {
      const random = seeded(1000 + seed);
      const ring = Array.from(
        { length: 3 + (seed % 20) },
        (): Point => [random() * 100, random() * 100],
      );
      for (const rule of RULES) {
        const path = `M${ring.map(([x, y]) => `${x} ${y}`).join('L')}Z`;
        const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100"><path d="${path}" fill-rule="${rule}" shape-rendering="crispEdges"/></svg>`;
        const { pixels } = new Resvg(svg, { font: { loadSystemFonts: false } }).render();
        const theirs = Uint8Array.from({ length: 10_000 }, (_, i) =>
          pixels[4 * i + 3]! > 127 ? 1 : 0,
        );
        const ours = rasterizePolygon([ring], [100, 100], { rule }).data;
        compareOff(ours, theirs, [ring], 1, `seed ${seed} ${rule}`);
      }
    }
  });
});

function compareOff(
  ours: Uint8Array,
  theirs: Uint8Array,
  rings: Rings,
  far: number,
  message: string,
): void {
  const side = Math.sqrt(ours.length);
  let compared = 0;
  for (let i = 0; i < ours.length; i++) {
    const [x, y] = [(i % side) + 0.5, Math.floor(i / side) + 0.5];
    if (nearEdge(rings, x, y, far)) continue;
    compared++;
    if (ours[i] !== theirs[i]) expect.fail(`${message}: differs at ${x}, ${y}`);
  }
  expect(compared).toBeGreaterThan(0.05 * ours.length);
}

function nearEdge(rings: Rings, x: number, y: number, far: number): boolean {
  return rings.some((ring) =>
    ring.some(([bx, by], i) => {
      const [ax, ay] = ring[(i + ring.length - 1) % ring.length]!;
      const [dx, dy] = [bx - ax, by - ay];
      const t = Math.min(
        1,
        Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)),
      );
      const [ex, ey] = [x - ax - t * dx, y - ay - t * dy];
      return ex * ex + ey * ey <= far * far;
    }),
  );
}

/** Winding number round a pixel of a ring of which only the edges near it are looked at. */
function windingNear(ring: readonly Point[], x: number, y: number): number {
  const from = Math.max(0, 4 * (x - 3));
  const near = ring.slice(from, 4 * (x + 4));
  // Closed far above, where the whole ring closes too.
  return windingAt([[...near, [near.at(-1)![0], -1], [near[0]![0], -1]]], x, y);
}

function half(random: () => number, side: number): number {
  return Math.floor(random() * (2 * side + 1)) / 2;
}

/** Triangles that tile the square: splits of triangles at half-integers, near their edges too. */
function subdivision(random: () => number, side: number, depth: number): Point[][] {
  const corners: Point[] = [
    [0, 0],
    [side, 0],
    [side, side],
    [0, side],
  ];
  let parts: Point[][] = [
    [corners[0]!, corners[1]!, corners[2]!],
    [corners[0]!, corners[2]!, corners[3]!],
  ];
  for (let d = 0; d < depth; d++) {
    parts = parts.flatMap((part) => {
      const p = pointInside(part, random);
      const [a, b, c] = part as [Point, Point, Point];
      return p === undefined
        ? [part]
        : [
            [a, b, p],
            [b, c, p],
            [c, a, p],
          ];
    });
  }
  return parts;
}

/** A point within a triangle or on its border, wherever it falls on doubles or half-integers. */
function pointInside(part: readonly Point[], random: () => number): Point | undefined {
  const [a, b, c] = part as [Point, Point, Point];
  let [u, v] = [random(), random()];
  if (u + v > 1) [u, v] = [1 - u, 1 - v];
  if (random() < 0.3) v *= 1e-12;
  let p: Point = [
    a[0] + u * (b[0] - a[0]) + v * (c[0] - a[0]),
    a[1] + u * (b[1] - a[1]) + v * (c[1] - a[1]),
  ];
  if (random() < 0.5) p = [Math.round(2 * p[0]) / 2, Math.round(2 * p[1]) / 2];
  // The three triangles round p tile this one if p is inside it, which the exact predicate tells.
  const sides = [
    [a, b],
    [b, c],
    [c, a],
  ].map(([s, e]) => sideOf(s!, e!, p));
  return sides.every((s) => s > 0) ? p : undefined;
}

function sideOf(a: Point, b: Point, p: Point): number {
  const cross =
    (exact(b[0]) - exact(a[0])) * (exact(p[1]) - exact(a[1])) -
    (exact(b[1]) - exact(a[1])) * (exact(p[0]) - exact(a[0]));
  return cross > 0n ? 1 : cross < 0n ? -1 : 0;
}

function star(random: () => number, side: number): Point[] {
  const count = 3 + Math.floor(random() * 12);
  const angles = Array.from({ length: count }, () => random() * 2 * Math.PI).sort((p, q) => p - q);
  return angles.map((angle): Point => {
    const radius = (0.1 + 0.4 * random()) * side;
    const [x, y] = [side / 2 + radius * Math.cos(angle), side / 2 + radius * Math.sin(angle)];
    return [Math.round(2 * x) / 2, Math.round(2 * y) / 2];
  });
}

function area(ring: readonly Point[]): number {
  return ring.reduce((sum, [x, y], i) => {
    const [u, v] = ring[(i + 1) % ring.length]!;
    return sum + x * v - u * y;
  }, 0);
}
