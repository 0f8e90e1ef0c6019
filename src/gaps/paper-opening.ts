import { type Levels, radiusOf } from '../passages/levels.ts';

/** Distances to ink at 1 / `scale` of the picture's size. */
interface Clearance {
  readonly levels: Levels;
  readonly scale: number;
}

/** Half widths of a gap at which the paper beside its middle is looked at. */
const STEPS = [1, 1.5, 2, 3, 4, 6];

/** How far the paper opens on one side of a proposal, in half lengths of it. */
export function opening(
  clearance: Clearance,
  x: number,
  y: number,
  dx: number,
  dy: number,
  half: number,
): number {
  let widest = 0;
  for (const step of STEPS) {
    const clear = clearanceAt(clearance, x + step * half * dx, y + step * half * dy);
    if (clear === 0) break;
    widest = Math.max(widest, clear);
  }
  return widest / half;
}

/** Distance to ink; 0 outside the picture. */
export function clearanceAt({ levels, scale }: Clearance, x: number, y: number): number {
  const { level, stride, width, height } = levels;
  const u = Math.round((x + 0.5) / scale - 0.5);
  const v = Math.round((y + 0.5) / scale - 0.5);
  if (u < 0 || v < 0 || u >= width || v >= height) return 0;
  return scale * radiusOf(level[(v + 1) * stride + u]!);
}
