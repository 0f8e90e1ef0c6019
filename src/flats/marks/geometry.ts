import { checkPoint } from '../../raster/checks.ts';
import { wrongKind, wrongValue } from '../../raster/errors.ts';
import type { Point } from '../../raster/types.ts';
import type { MarkPoint } from './mark-type.ts';

/** A point, checked and copied. */
export function checkedPoint(value: unknown, name: string): Point {
  return copyPoint(checkPoint(value, name));
}

/** A list of at least two points, checked and copied. */
export function checkedPoints(
  value: unknown,
  name: string,
  check: (point: unknown, name: string) => Point = checkPoint,
): Point[] {
  const allowed = 'a list of at least 2 points [x, y]';
  if (!Array.isArray(value)) throw wrongKind(name, allowed, value);
  if (value.length < 2) throw wrongValue(name, allowed, value);
  return Array.from(value, (point: unknown, i) => copyPoint(check(point, `${name}[${i}]`)));
}

/** The two ends of a gap, checked and copied. */
export function checkedGap(value: unknown, name: string): Point[] {
  if (!Array.isArray(value) || value.length !== 2) {
    throw wrongKind(name, 'two points [[x, y], [x, y]]', value);
  }
  return checkedPoints(value, name);
}

export function copyPoint([x, y]: Point): Point {
  return [x, y];
}

/** Points with their paths, such as `join[1]`. */
export function listPoints(key: string, points: readonly Point[]): MarkPoint[] {
  return points.map((point, i) => ({ path: `${key}[${i}]`, point }));
}
