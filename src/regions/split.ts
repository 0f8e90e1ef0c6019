import { checkSameSize, labelsArgument, maskArgument } from '../raster/arguments.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import { checkMaskValues } from '../raster/mask-values.ts';
import { raster } from '../raster/raster.ts';
import type { Bounds, Labels, LabelsLike, MaskLike, Point } from '../raster/types.ts';
import { checkPolyline, polylinePixels } from '../runs/polyline.ts';
import { divideRegion } from './divide.ts';

export interface SplitRegionOptions {
  /**
   * Ink mask `[w, h]` that the regions have grown under: it walls the region off, so that a line
   * from stroke to stroke divides it. @default none: the line must divide the region by itself
   */
  readonly ink?: MaskLike | undefined;
}

/**
 * Cuts a region along a drawn line.
 *
 * The region's pixels off the line (and off the ink) fall into pieces by their 4 neighbors. The
 * largest piece keeps the id, a tie goes to the one whose first pixel comes first, row by row; the
 * others get the ids after the highest, in the order of their first pixels. The line's own pixels
 * and those on ink go to the nearest piece. Parts that were apart before, and that the line does not
 * divide, keep the id. A line that divides nothing changes nothing.
 *
 * ```text
 * 1 1 1 1 1      1 1 1 2 2
 * 1 1 1 1 1  →   1 1 1 2 2      cut from [3, 0] to [3, 1]
 * ```
 *
 * O(pixels), about 10 bytes for each pixel of the region's bounds.
 *
 * @param labels - `[w, h]` Int32 ids.
 * @param id - Region to cut; an id that does not occur is a RangeError.
 * @param polyline - At least two points in continuous coordinates, each the pixel at its floor; parts
 * outside the picture are left out.
 * @returns New labels of the same shape.
 * @throws TypeError or RangeError for bad arguments.
 * @example
 * ```ts
 * import { raster, splitRegion } from 'underink';
 * const labels = raster(new Int32Array(10).fill(1), [5, 2]);
 * const cut = splitRegion(labels, 1, [[3, 0], [3, 2]]);
 * console.log(cut.data.join(' ')); // 1 1 1 1 2 1 1 1 1 2
 * ```
 */
export function splitRegion(
  labels: LabelsLike,
  id: number,
  polyline: readonly Point[],
  options?: SplitRegionOptions,
): Labels {
  const { ink } = checkOptions(options, 'splitRegion', ['ink']);
  checkNumber(id, 'id', { min: 1, integer: true });
  const points = checkPolyline(polyline, 'polyline');
  const dense = labelsArgument(labels, 'labels');
  const { width, height } = dense;
  const walls = ink === undefined ? undefined : maskArgument(ink, 'ink');
  if (walls !== undefined) {
    checkSameSize(dense, 'labels', walls, 'ink');
    checkMaskValues(walls, 'ink');
  }
  const data = dense.data.slice();
  const { bounds, highest } = boundsOf(data, width, id);
  const isBefore = (p: number): boolean => data[p] === id && walls?.data[p] !== 1;
  const line = polylinePixels(points, width, height);
  divideRegion({ labels: data, width, bounds, id, isBefore, line, nextId: highest + 1 });
  return raster(data, [width, height]);
}

function boundsOf(
  labels: Int32Array,
  width: number,
  id: number,
): { bounds: Bounds; highest: number } {
  const bounds: Bounds = [width, labels.length / width, 0, 0];
  let highest = 0;
  for (let p = 0, x = 0, y = 0; p < labels.length; p++) {
    const label = labels[p]!;
    if (label > highest) highest = label;
    if (label === id) {
      if (x < bounds[0]) bounds[0] = x;
      if (y < bounds[1]) bounds[1] = y;
      if (x >= bounds[2]) bounds[2] = x + 1;
      bounds[3] = y + 1;
    }
    if (++x === width) {
      x = 0;
      y++;
    }
  }
  if (bounds[3] === 0) throw new RangeError(`id must occur in labels, got ${id}`);
  return { bounds, highest };
}
