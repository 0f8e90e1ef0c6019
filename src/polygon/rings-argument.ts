import { checkPoint } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Point } from '../raster/types.ts';

/** Closed lines of points; the last point of each is joined to its first. */
export type Rings = readonly (readonly Point[])[];

/** Bound of a coordinate: with it the slope of an edge keeps far from what doubles can hold. */
const LARGEST_COORDINATE = 2 ** 30;

/** An argument that holds rings; errors name the path, such as `rings[0][3]`. O(points). */
export function checkRings(value: unknown, name: string): Rings {
  if (!Array.isArray(value)) {
    throw wrongKind(name, 'a list of rings, [[[x, y], …], …]', value);
  }
  for (let i = 0; i < value.length; i++) {
    const ring: unknown = value[i];
    if (!Array.isArray(ring)) {
      throw wrongKind(`${name}[${i}]`, 'a ring, a list of points [x, y]', ring);
    }
    if (typeof ring[0] === 'number') {
      throw wrongKind(`${name}[${i}]`, 'a ring, a list of points [x, y]; one ring is [ring]', ring);
    }
    for (let j = 0; j < ring.length; j++) checkFarPoint(ring[j], `${name}[${i}][${j}]`);
  }
  return value as Rings;
}

/** A point that may lie far outside of any picture, but not farther than edges can be exact. */
export function checkFarPoint(value: unknown, name: string): Point {
  const point = checkPoint(value, name);
  if (Math.abs(point[0]) > LARGEST_COORDINATE || Math.abs(point[1]) > LARGEST_COORDINATE) {
    throw wrongValue(name, 'coordinates within ±2^30', value);
  }
  return point;
}
