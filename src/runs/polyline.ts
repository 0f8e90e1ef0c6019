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
 * its ends; parts outside the picture are left out. O(points + pixels of the line).
 */
export function polylinePixels(
  points: readonly Point[],
  width: number,
  height: number,
): Int32Array {
  const parts: Int32Array[] = [];
  let length = 0;
  for (let i = 1; i < points.length; i++) {
    const part = segmentPixels(points[i - 1]!, points[i]!, width, height);
    parts.push(part);
    length += part.length;
  }
  const pixels = new Int32Array(length);
  let at = 0;
  for (const part of parts) {
    pixels.set(part, at);
    at += part.length;
  }
  return pixels;
}

/** Clips a segment to the picture by its parameter (Liang and Barsky 1984), then walks it. */
function segmentPixels(
  [x0, y0]: Point,
  [x1, y1]: Point,
  width: number,
  height: number,
): Int32Array {
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
      if (room < 0) return new Int32Array(0);
    } else if (step < 0) enter = Math.max(enter, room / step);
    else leave = Math.min(leave, room / step);
  }
  if (enter > leave) return new Int32Array(0);
  const place = (t: number): [number, number] => {
    const x = Math.floor(t === 0 ? x0 : t === 1 ? x1 : x0 + t * (x1 - x0));
    const y = Math.floor(t === 0 ? y0 : t === 1 ? y1 : y0 + t * (y1 - y0));
    return [Math.min(width - 1, Math.max(0, x)), Math.min(height - 1, Math.max(0, y))];
  };
  const [fromX, fromY] = place(enter);
  const [toX, toY] = place(leave);
  return linePixels(fromX, fromY, toX, toY, width);
}
