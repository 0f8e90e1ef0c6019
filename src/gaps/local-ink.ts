import type { Dense } from '../raster/types.ts';

/**
 * Whether 8-connected ink leads from one ink pixel to another without leaving the square of
 * `radius` pixels around the first. O(radius²).
 */
export function connectsNearby(
  { data, width, height }: Dense<Uint8Array>,
  from: number,
  to: number,
  radius: number,
): boolean {
  const centerX = from % width;
  const centerY = Math.floor(from / width);
  const x0 = Math.max(0, centerX - radius);
  const y0 = Math.max(0, centerY - radius);
  const x1 = Math.min(width - 1, centerX + radius);
  const y1 = Math.min(height - 1, centerY + radius);
  const side = x1 - x0 + 1;
  const seen = new Uint8Array(side * (y1 - y0 + 1));
  const stack = new Int32Array(seen.length);
  let size = 1;
  stack[0] = from;
  seen[(centerY - y0) * side + centerX - x0] = 1;
  while (size > 0) {
    const p = stack[--size]!;
    if (p === to) return true;
    const x = p % width;
    const y = (p - x) / width;
    for (let v = Math.max(y0, y - 1); v <= Math.min(y1, y + 1); v++) {
      for (let u = Math.max(x0, x - 1); u <= Math.min(x1, x + 1); u++) {
        const place = (v - y0) * side + u - x0;
        if (seen[place] === 1 || data[v * width + u] === 0) continue;
        seen[place] = 1;
        stack[size++] = v * width + u;
      }
    }
  }
  return false;
}
