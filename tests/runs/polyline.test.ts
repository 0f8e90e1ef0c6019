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

describe('polylinePixels', () => {
  it('joins the lines between the pixels of its points', () => {
    const points: Point[] = [
      [0.5, 0.5],
      [8.9, 2.1],
      [8, 5.999],
      [8, 5.999],
    ];
    expect([...polylinePixels(points, width, height)]).toEqual([
      ...linePixels(0, 0, 8, 2, width),
      ...linePixels(8, 2, 8, 5, width),
      ...linePixels(8, 5, 8, 5, width),
    ]);
  });

  it('leaves out what is outside, and runs along the border where the line does', () => {
    const pixels = (...points: Point[]) => [...polylinePixels(points, width, height)];
    expect(pixels([-5, 2.5], [20, 2.5])).toEqual([...linePixels(0, 2, 8, 2, width)]);
    expect(pixels([3.5, 99], [3.5, -7])).toEqual([...linePixels(3, 5, 3, 0, width)]);
    expect(pixels([0, -3], [0, 9])).toEqual([...linePixels(0, 0, 0, 5, width)]);
    expect(pixels([width, 2], [width, 4])).toEqual([...linePixels(8, 2, 8, 4, width)]);
    expect(pixels([2, height], [4, height])).toEqual([...linePixels(2, 5, 4, 5, width)]);
    expect(pixels([-1, 0.5], [-1, 4])).toEqual([]);
    expect(pixels([9.1, 0.5], [9.1, 4])).toEqual([]);
    expect(pixels([1, -0.1], [5, -0.1])).toEqual([]);
    expect(pixels([1, 6.1], [5, 6.1])).toEqual([]);
    expect(pixels([-3, 2], [2, -3])).toEqual([]);
    expect(pixels([-3, 2], [2, 2], [2, -3])).toEqual([
      ...linePixels(0, 2, 2, 2, width),
      ...linePixels(2, 2, 2, 0, width),
    ]);
  });

  it('is a path of 4-neighbors beside the segment, all along what of it is inside', () => {
    const coordinate = fc.double({ min: -6, max: 15, noNaN: true });
    const point = fc.tuple(coordinate, coordinate);
    fc.assert(
      fc.property(point, point, (a, b) => {
        const pixels = [...polylinePixels([a, b], width, height)];
        const places = pixels.map((p) => [p % width, Math.floor(p / width)] as const);
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
