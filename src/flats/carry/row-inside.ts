import type { Sides } from './sides.ts';
import type { Similarity } from './similarity.ts';

/**
 * The pixels `[from, to)` of row y whose centers a transform takes into a picture. They are one piece,
 * as rounding keeps the order along a row, so only those outside are looked at, and one at each end.
 */
export function rowInside(
  { a, b, dx, dy }: Similarity,
  y: number,
  width: number,
  into: Sides,
): [from: number, to: number] {
  const rowU = a * 0.5 - b * (y + 0.5) + dx;
  const rowV = b * 0.5 + a * (y + 0.5) + dy;
  const isInside = (x: number): boolean => {
    const [u, v] = [rowU + a * x, rowV + b * x];
    return u >= 0 && v >= 0 && u < into.width && v < into.height;
  };
  let from = 0;
  let to = width;
  while (from < to && !isInside(from)) from++;
  while (to > from && !isInside(to - 1)) to--;
  return [from, to];
}
