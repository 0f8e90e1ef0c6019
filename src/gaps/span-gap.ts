import type { Dense } from '../raster/types.ts';
import { linePixels } from '../runs/line.ts';
import type { StrokeEnd } from '../strokes/stroke-ends.ts';

/** Paper on a straight line between two ink pixels. */
export interface Span {
  /** The ink pixels at its two sides, as indices. */
  readonly from: number;
  readonly to: number;
  /** Distance between their centers. */
  readonly length: number;
}

/**
 * The paper between two ink pixels on a straight line, with the ink at both sides of it; none where
 * ink lies between, unless it is within half a stroke's width and a pixel of the contacts.
 */
export function spanGap(
  { data, width }: Dense<Uint8Array>,
  from: number,
  to: number,
  fromWidth: number,
  toWidth: number,
): Span | undefined {
  const x0 = from % width;
  const y0 = Math.floor(from / width);
  const line = linePixels(x0, y0, to % width, Math.floor(to / width), width);
  let first = 0;
  let last = line.length - 1;
  while (first < last && data[line[first]!] === 1) first++;
  while (last > first && data[line[last]!] === 1) last--;
  if (first >= last && data[line[first]!] === 1) return undefined;
  for (let i = first; i <= last; i++) {
    if (data[line[i]!] === 0) continue;
    const own = i - first < fromWidth / 2 + 1 || last - i < toWidth / 2 + 1;
    if (!own) return undefined;
  }
  const start = line[first - 1]!;
  const stop = line[last + 1]!;
  const [fromX, fromY] = [start % width, Math.floor(start / width)];
  const [toX, toY] = [stop % width, Math.floor(stop / width)];
  const [dx, dy] = [toX - fromX, toY - fromY];
  return { from: start, to: stop, length: Math.sqrt(dx * dx + dy * dy) };
}

/** Paper pixels of the line between two pixels, as indices, from `from` on. */
export function paperBetween(
  { data, width }: Dense<Uint8Array>,
  from: number,
  to: number,
): Int32Array {
  const [fromX, fromY] = [from % width, Math.floor(from / width)];
  const line = linePixels(fromX, fromY, to % width, Math.floor(to / width), width);
  return line.filter((p) => data[p] === 0);
}

/** The first ink pixel that a ray from an end meets after paper, within reach; -1 for none. */
export function castRay(
  { data, width, height }: Dense<Uint8Array>,
  { x, y, direction: [dx, dy] }: StrokeEnd,
  tangent: number,
  reach: number,
): number {
  const rayX = dx - tangent * dy;
  const rayY = dy + tangent * dx;
  const step = Math.max(Math.abs(rayX), Math.abs(rayY));
  const stride = Math.sqrt(rayX * rayX + rayY * rayY) / step;
  let onPaper = false;
  for (let k = 1; k * stride <= reach; k++) {
    const u = Math.floor(x + (k * rayX) / step);
    const v = Math.floor(y + (k * rayY) / step);
    if (u < 0 || v < 0 || u >= width || v >= height) return -1;
    if (data[v * width + u] === 0) onPaper = true;
    else if (onPaper) return v * width + u;
  }
  return -1;
}
