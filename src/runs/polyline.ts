import { checkPoint } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Point } from '../raster/types.ts';
import { linePixels } from './line.ts';

/** An argument that holds a line of at least two points, in the picture or not. */
export function checkPolyline(value: unknown, name: string): readonly Point[] {
  const allowed = 'a line of at least two points [[x, y], …]';
  if (!Array.isArray(value)) throw wrongKind(name, allowed, value);
  if (value.length < 2) throw wrongValue(name, allowed, value);
  return Array.from(value, (point: unknown, i) => checkPoint(point, `${name}[${i}]`));
}

/**
 * The pixels of a line through points, each segment a path of 4-neighbors between the pixels of
 * its ends: ascending, each once, however often the line meets it. Parts outside the picture are left
 * out. O(points + steps of the line + pixels of its bounds / 32).
 */
export function polylinePixels(
  points: readonly Point[],
  width: number,
  height: number,
): Int32Array {
  const segments: Ends[] = [];
  let [x0, y0, x1, y1] = [width, height, 0, 0];
  for (let i = 1; i < points.length; i++) {
    const ends = clipSegment(points[i - 1]!, points[i]!, width, height);
    if (ends === undefined) continue;
    segments.push(ends);
    const [fromX, fromY, toX, toY] = ends;
    [x0, y0] = [Math.min(x0, fromX, toX), Math.min(y0, fromY, toY)];
    [x1, y1] = [Math.max(x1, fromX + 1, toX + 1), Math.max(y1, fromY + 1, toY + 1)];
  }
  if (segments.length === 0) return new Int32Array(0);
  const columns = x1 - x0;
  const words = new Uint32Array(Math.ceil((columns * (y1 - y0)) / 32));
  let count = 0;
  for (const [fromX, fromY, toX, toY] of segments) {
    for (const i of linePixels(fromX - x0, fromY - y0, toX - x0, toY - y0, columns)) {
      const bit = 1 << (i & 31);
      if ((words[i >>> 5]! & bit) !== 0) continue;
      words[i >>> 5]! |= bit;
      count++;
    }
  }
  const pixels = new Int32Array(count);
  let n = 0;
  for (let w = 0; n < count; w++) {
    for (let word = words[w]!; word !== 0; word &= word - 1) {
      const i = 32 * w + 31 - Math.clz32(word & -word);
      pixels[n++] = (y0 + Math.floor(i / columns)) * width + x0 + (i % columns);
    }
  }
  return pixels;
}

/** The pixels of a segment's ends: x and y of the first, then of the last. */
type Ends = readonly [number, number, number, number];

/** The part of a segment in the picture, by its parameter (Liang and Barsky 1984); none outside. */
function clipSegment(
  [x0, y0]: Point,
  [x1, y1]: Point,
  width: number,
  height: number,
): Ends | undefined {
  let enter = 0;
  let leave = 1;
  const limits = [
    [x0 - x1, x0],
    [x1 - x0, width - x0],
    [y0 - y1, y0],
    [y1 - y0, height - y0],
  ] as const;
  for (const [step, room] of limits) {
    if (step === 0) {
      if (room < 0) return undefined;
    } else if (step < 0) enter = Math.max(enter, room / step);
    else leave = Math.min(leave, room / step);
  }
  if (enter > leave) return undefined;
  const place = (t: number): [number, number] => {
    const x = Math.floor(t === 0 ? x0 : t === 1 ? x1 : x0 + t * (x1 - x0));
    const y = Math.floor(t === 0 ? y0 : t === 1 ? y1 : y0 + t * (y1 - y0));
    return [Math.min(width - 1, Math.max(0, x)), Math.min(height - 1, Math.max(0, y))];
  };
  return [...place(enter), ...place(leave)];
}
