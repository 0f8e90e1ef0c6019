import { wrongValue } from '../raster/errors.ts';
import type { Dense, Point } from '../raster/types.ts';
import { linePixels } from '../runs/line.ts';
import type { Candidate } from './bridge.ts';
import { checkGroups } from './groups.ts';
import { CERTAIN } from './odds.ts';

/** Two places, the ends of a gap. */
export type Gap = readonly [Point, Point];

/** An option that holds gaps inside the picture: `[[[x, y], [x, y]], …]`. */
export function checkGaps(
  value: unknown,
  name: string,
  width: number,
  height: number,
): readonly Gap[] {
  const gaps = checkGroups(value, name, width, height);
  gaps.forEach((gap, i) => {
    if (gap.length !== 2) throw wrongValue(`${name}[${i}]`, 'two points [[x, y], [x, y]]', gap);
  });
  return gaps as readonly Gap[];
}

/** How far from a place its ink may lie, at strokes of that width. */
function reachOf(width: number): number {
  return Math.max(4, width);
}

/** Whether a bridge leads from about one of two places to about the other. */
export function leadsBetween(
  from: Point,
  to: Point,
  width: number,
  [a, b]: readonly [Point, Point],
): boolean {
  const reach = reachOf(width) * reachOf(width);
  const near = (p: Point, q: Point): boolean => {
    const [dx, dy] = [p[0] - q[0], p[1] - q[1]];
    return dx * dx + dy * dy <= reach;
  };
  return (near(from, a) && near(to, b)) || (near(from, b) && near(to, a));
}

/**
 * The bridge between two places that a person asks for. Each end goes to the nearest ink within
 * reach, ties to the first row by row, and stays on the paper where there is none.
 */
export function askedBridge(
  ink: Dense<Uint8Array>,
  [a, b]: readonly [Point, Point],
  strokeWidth: number,
): Candidate {
  const [fromX, fromY] = contact(ink, a, reachOf(strokeWidth));
  const [toX, toY] = contact(ink, b, reachOf(strokeWidth));
  const [dx, dy] = [toX - fromX, toY - fromY];
  const pixels = linePixels(fromX, fromY, toX, toY, ink.width).filter((p) => ink.data[p] === 0);
  const length = Math.sqrt(dx * dx + dy * dy);
  const ends = { fromX, fromY, toX, toY, length, width: strokeWidth, a: -1, b: -1 };
  return { ...ends, odds: CERTAIN, seen: 'asked for', pixels };
}

function contact(
  { data, width, height }: Dense<Uint8Array>,
  [px, py]: Point,
  reach: number,
): readonly [number, number] {
  const [x, y] = [Math.floor(px), Math.floor(py)];
  const side = Math.floor(reach);
  let best = reach * reach;
  let found: readonly [number, number] = [x, y];
  let none = true;
  for (let v = Math.max(0, y - side); v <= Math.min(height - 1, y + side); v++) {
    for (let u = Math.max(0, x - side); u <= Math.min(width - 1, x + side); u++) {
      const square = (u - x) * (u - x) + (v - y) * (v - y);
      if (data[v * width + u] === 0 || square > best || (square === best && !none)) continue;
      none = false;
      best = square;
      found = [u, v];
    }
  }
  return found;
}
