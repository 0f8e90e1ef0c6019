import { TICK_ROWS, type Tick } from '../../raster/progress.ts';
import type { Sides } from './sides.ts';
import { inverse, type Similarity } from './similarity.ts';

/**
 * For every pixel of a new picture the id that the old one has at the place from which a transform
 * brings it; 0 on ink, and for what comes from beyond the old picture. O(pixels).
 *
 * @param ids - Of the old picture, 0 on ink.
 * @param ink - Of the new one.
 */
export function lookBack(
  ids: Int32Array,
  old: Sides,
  ink: Uint8Array,
  { width, height }: Sides,
  transform: Similarity,
  tick?: Tick,
): Int32Array {
  const { a, b, dx, dy } = inverse(transform);
  const seen = new Int32Array(width * height);
  for (let y = 0, p = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    const rowU = a * 0.5 - b * (y + 0.5) + dx;
    const rowV = b * 0.5 + a * (y + 0.5) + dy;
    for (let x = 0; x < width; x++, p++) {
      if (ink[p] !== 0) continue;
      const u = Math.floor(rowU + a * x);
      const v = Math.floor(rowV + b * x);
      if (u < 0 || v < 0 || u >= old.width || v >= old.height) continue;
      seen[p] = ids[v * old.width + u]!;
    }
  }
  return seen;
}
