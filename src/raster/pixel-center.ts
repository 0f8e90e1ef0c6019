import type { Point } from './types.ts';

/** Center of the pixel of an index. */
export function pixelCenter(pixel: number, width: number): Point {
  return [(pixel % width) + 0.5, Math.floor(pixel / width) + 0.5];
}
