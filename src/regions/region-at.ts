import { labelsHead } from '../raster/arguments.ts';
import { checkPoint } from '../raster/checks.ts';
import type { LabelsLike, Point } from '../raster/types.ts';

/**
 * The region under a point: what a click hits.
 *
 * @param labels - `[w, h]` Int32 ids; of dense ones a single pixel is read.
 * @param point - Continuous coordinates; the pixel is the floor of them.
 * @returns The id; 0 where there is no region, and outside the picture. O(1) on dense labels.
 * @throws TypeError or RangeError for labels that are none, and for a point that is not finite.
 * @example
 * ```ts
 * import { raster, regionAt } from 'underink';
 * const labels = raster(new Int32Array([1, 1, 2, 2]), [2, 2]);
 * console.log(regionAt(labels, [0.5, 1.9]), regionAt(labels, [-0.1, 0])); // 2 0
 * ```
 */
export function regionAt(labels: LabelsLike, point: Point): number {
  const { data, width, height } = labelsHead(labels, 'labels');
  const [x, y] = checkPoint(point, 'point').map(Math.floor) as [number, number];
  return x < 0 || y < 0 || x >= width || y >= height ? 0 : data[y * width + x]!;
}
