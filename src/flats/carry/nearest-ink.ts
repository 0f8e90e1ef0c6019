import type { Dense, Point } from '../../raster/types.ts';

/**
 * Center of the nearest pixel of ink within reach of a point, ties to the first row by row; undefined
 * without any. A point on ink stays as it is. O(reach²).
 */
export function nearestInk(
  { data, width, height }: Dense<Uint8Array>,
  [px, py]: Point,
  reach: number,
): Point | undefined {
  const [x, y] = [Math.floor(px), Math.floor(py)];
  if (x >= 0 && y >= 0 && x < width && y < height && data[y * width + x] === 1) return [px, py];
  const side = Math.floor(reach);
  let best = reach * reach;
  let found: Point | undefined;
  for (let v = Math.max(0, y - side); v <= Math.min(height - 1, y + side); v++) {
    for (let u = Math.max(0, x - side); u <= Math.min(width - 1, x + side); u++) {
      const square = (u - x) * (u - x) + (v - y) * (v - y);
      if (data[v * width + u] === 0 || square > best || (square === best && found)) continue;
      best = square;
      found = [u + 0.5, v + 0.5];
    }
  }
  return found;
}
