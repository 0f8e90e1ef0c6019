import { checkPoint } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Point } from '../raster/types.ts';
import type { Faces } from './faces.ts';

/** An option that holds groups of points inside the picture: `[[[x, y], …], …]`. */
export function checkGroups(
  value: unknown,
  name: string,
  width: number,
  height: number,
): readonly (readonly Point[])[] {
  if (value === undefined) return [];
  const allowed = 'a list of groups of points, [[[x, y], …], …]';
  if (!Array.isArray(value)) throw wrongKind(name, allowed, value);
  value.forEach((group: unknown, i) => {
    if (!Array.isArray(group)) throw wrongKind(`${name}[${i}]`, 'a list of points', group);
    group.forEach((point: unknown, j) => {
      const [x, y] = checkPoint(point, `${name}[${i}][${j}]`);
      if (x < 0 || y < 0 || x >= width || y >= height) {
        throw wrongValue(
          `${name}[${i}][${j}]`,
          `inside the picture of ${width} × ${height}`,
          point,
        );
      }
    });
  });
  return value as readonly (readonly Point[])[];
}

/** The nodes of the points; those on ink are left out. */
export function groupNodes(faces: Faces, groups: readonly (readonly Point[])[]): number[][] {
  return groups.map((points) =>
    points.map(([x, y]) => faces.nodeAt(Math.floor(x), Math.floor(y))).filter((node) => node !== 0),
  );
}
