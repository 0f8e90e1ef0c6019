import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linePixels } from '../../src/runs/line.ts';
import { polylinePixels } from '../../src/runs/polyline.ts';

const [WIDTH, HEIGHT] = [37, 23];

describe('polylinePixels', () => {
  it('gives the pixels of all segments, ascending, each once', () => {
    const point = fc.tuple(
      fc.double({ min: 0, max: WIDTH - 0.01, noNaN: true }),
      fc.double({ min: 0, max: HEIGHT - 0.01, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 12 }), (points) => {
        const wanted = new Set<number>();
        for (let i = 1; i < points.length; i++) {
          const [a, b] = [points[i - 1]!.map(Math.floor), points[i]!.map(Math.floor)];
          for (const p of linePixels(a[0]!, a[1]!, b[0]!, b[1]!, WIDTH)) wanted.add(p);
        }
        const ascending = [...wanted].sort((a, b) => a - b);
        expect([...polylinePixels(points, WIDTH, HEIGHT)]).toEqual(ascending);
      }),
    );
  });

  it('leaves out what is outside the picture', () => {
    const across = polylinePixels(
      [
        [-10, 3.5],
        [100, 3.5],
      ],
      WIDTH,
      HEIGHT,
    );
    expect([...across]).toEqual(Array.from({ length: WIDTH }, (_, x) => 3 * WIDTH + x));
    const beside = polylinePixels(
      [
        [-10, -1],
        [100, -1],
      ],
      WIDTH,
      HEIGHT,
    );
    expect(beside.length).toBe(0);
  });
});
