import { checkNumber, checkOptions } from '../../raster/checks.ts';
import type { Point } from '../../raster/types.ts';

/**
 * Shift, scale and rotation from one picture to another: `(x, y)` goes to
 * `(a·x − b·y + dx, b·x + a·y + dy)`. The scale is the square root of a² + b².
 */
export interface Similarity {
  readonly a: number;
  readonly b: number;
  readonly dx: number;
  readonly dy: number;
}

export const IDENTITY: Similarity = { a: 1, b: 0, dx: 0, dy: 0 };

/** A similarity given as an option. */
export function checkSimilarity(value: Similarity, name: string): Similarity {
  const { a, b, dx, dy } = checkOptions(value, name, ['a', 'b', 'dx', 'dy']);
  const any = { min: Number.NEGATIVE_INFINITY };
  for (const [key, number] of Object.entries({ a, b, dx, dy })) {
    checkNumber(number, `${name}.${key}`, any);
  }
  if (a * a + b * b === 0) throw new RangeError(`${name} must have a scale above 0, got a = b = 0`);
  return { a, b, dx, dy };
}

export function movePoint({ a, b, dx, dy }: Similarity, [x, y]: Point): Point {
  return [a * x - b * y + dx, b * x + a * y + dy];
}

export function inverse({ a, b, dx, dy }: Similarity): Similarity {
  const square = a * a + b * b;
  const [c, d] = [a / square, -b / square];
  return { a: c, b: d, dx: -(c * dx - d * dy), dy: -(d * dx + c * dy) };
}

export function scaleOf({ a, b }: Similarity): number {
  return Math.sqrt(a * a + b * b);
}

/** The same with the shift changed so that one point goes to another. */
export function through({ a, b }: Similarity, [x, y]: Point, [u, v]: Point): Similarity {
  return { a, b, dx: u - (a * x - b * y), dy: v - (b * x + a * y) };
}

/** How far apart two similarities take a corner of a picture at most. */
export function farthestApart(
  p: Similarity,
  q: Similarity,
  [width, height]: readonly [number, number],
): number {
  let most = 0;
  for (const corner of [
    [0, 0],
    [width, 0],
    [0, height],
    [width, height],
  ] as const) {
    const [x0, y0] = movePoint(p, corner);
    const [x1, y1] = movePoint(q, corner);
    most = Math.max(most, (x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
  }
  return Math.sqrt(most);
}
