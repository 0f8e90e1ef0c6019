import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/raster/types.ts';
import { linePixels } from '../../src/runs/line.ts';
import { checkPolyline, polylinePixels } from '../../src/runs/polyline.ts';

const [width, height] = [9, 6];

/** Points of a segment, close together. */
function samples([x0, y0]: Point, [x1, y1]: Point): [number, number][] {
  const count = 400;
  return Array.from({ length: count + 1 }, (_, i) => {
    const t = i / count;
    return [x0 + t * (x1 - x0), y0 + t * (y1 - y0)];
  });
}

/** Ascending, each once. */
const sorted = (...lists: Int32Array[]) =>
  [...new Set(lists.flatMap((list) => [...list]))].sort((a, b) => a - b);

describe('polylinePixels', () => {
  it('joins the lines between the pixels of its points', () => {
    const points: Point[] = [
      [0.5, 0.5],
      [8.9, 2.1],
      [8, 5.999],
      [8, 5.999],
    ];
    expect([...polylinePixels(points, width, height)]).toEqual(
      sorted(linePixels(0, 0, 8, 2, width), linePixels(8, 2, 8, 5, width)),
    );
  });

  it('leaves out what is outside, and runs along the border where the line does', () => {
    const pixels = (...points: Point[]) => [...polylinePixels(points, width, height)];
    expect(pixels([-5, 2.5], [20, 2.5])).toEqual(sorted(linePixels(0, 2, 8, 2, width)));
    expect(pixels([3.5, 99], [3.5, -7])).toEqual(sorted(linePixels(3, 5, 3, 0, width)));
    expect(pixels([0, -3], [0, 9])).toEqual(sorted(linePixels(0, 0, 0, 5, width)));
    expect(pixels([width, 2], [width, 4])).toEqual(sorted(linePixels(8, 2, 8, 4, width)));
    expect(pixels([2, height], [4, height])).toEqual(sorted(linePixels(2, 5, 4, 5, width)));
    expect(pixels([-1, 0.5], [-1, 4])).toEqual([]);
    expect(pixels([9.1, 0.5], [9.1, 4])).toEqual([]);
    expect(pixels([1, -0.1], [5, -0.1])).toEqual([]);
    expect(pixels([1, 6.1], [5, 6.1])).toEqual([]);
    expect(pixels([-3, 2], [2, -3])).toEqual([]);
    expect(pixels([-3, 2], [2, 2], [2, -3])).toEqual(
      sorted(linePixels(0, 2, 2, 2, width), linePixels(2, 2, 2, 0, width)),
    );
  });

  it('is a path of 4-neighbors beside the segment, all along what of it is inside', () => {
    const coordinate = fc.double({ min: -6, max: 15, noNaN: true });
    const point = fc.tuple(coordinate, coordinate);
    fc.assert(
      fc.property(point, point, (a, b) => {
        const pixels = [...polylinePixels([a, b], width, height)];
        const places = pixels.map((p) => [p % width, Math.floor(p / width)] as const);
        // In the order of the path, whose steps all go the way of the segment.
        const [right, down] = [Math.sign(b[0] - a[0]), Math.sign(b[1] - a[1])];
        places.sort(([x, y], [u, v]) => right * (x - u) + down * (y - v));
        expect(places.every(([x, y]) => x >= 0 && y >= 0 && x < width && y < height)).toBe(true);
        places.slice(1).forEach(([x, y], i) => {
          expect(Math.abs(x - places[i]![0]) + Math.abs(y - places[i]![1])).toBe(1);
        });
        const near = ([x, y]: readonly [number, number], [u, v]: readonly [number, number]) =>
          Math.hypot(u + 0.5 - x, v + 0.5 - y) < 1.5;
        const along = samples(a, b);
        expect(places.every((place) => along.some((at) => near(at, place)))).toBe(true);
        const inside = along.filter(([x, y]) => x > 0 && y > 0 && x < width && y < height);
        expect(inside.every((at) => places.some((place) => near(at, place)))).toBe(true);
        const [begin, end] = [inside[0], inside.at(-1)];
        if (begin === undefined || end === undefined) return;
        expect(near(begin, places[0]!) && near(end, places.at(-1)!)).toBe(true);
      }),
      { numRuns: 400 },
    );
  });
});

describe('polylinePixels of many points', () => {
  it('gives the pixels of all segments, ascending, each once', () => {
    const point = fc.tuple(
      fc.double({ min: 0, max: width - 0.01, noNaN: true }),
      fc.double({ min: 0, max: height - 0.01, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 12 }), (points) => {
        const segments = points.slice(1).map((to, i) => {
          const [x0, y0, x1, y1] = [...points[i]!, ...to].map(Math.floor);
          return linePixels(x0!, y0!, x1!, y1!, width);
        });
        expect([...polylinePixels(points, width, height)]).toEqual(sorted(...segments));
      }),
    );
  });
});

describe('checkPolyline', () => {
  it('takes two points and more, wherever they lie', () => {
    expect(
      checkPolyline(
        [
          [-1, 2.5],
          [1e6, 0],
        ],
        'line',
      ),
    ).toEqual([
      [-1, 2.5],
      [1e6, 0],
    ]);
  });

  it('refuses what is no line', () => {
    expect(() => checkPolyline('line', 'line')).toThrow(TypeError);
    expect(() => checkPolyline([[1, 2]], 'line')).toThrow(RangeError);
    expect(() => checkPolyline([[1, 2], [3]], 'line')).toThrow(/^line\[1\] must be /);
  });
});
