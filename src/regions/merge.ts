import { labelsArgument } from '../raster/arguments.ts';
import { checkList, checkNumber } from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import { raster } from '../raster/raster.ts';
import type { Labels, LabelsLike } from '../raster/types.ts';

/**
 * Makes some regions one, whether they touch or not; it has the first of the ids.
 *
 * O(pixels).
 *
 * @param labels - `[w, h]` Int32 ids.
 * @param ids - Regions to make one; one that does not occur is a RangeError.
 * @returns New labels of the same shape.
 * @throws TypeError or RangeError for bad arguments.
 * @example
 * ```ts
 * import { mergeRegions, raster } from 'underink';
 * const labels = raster(new Int32Array([1, 2, 3]), [3, 1]);
 * console.log(mergeRegions(labels, [3, 1]).data.join(' ')); // 3 2 3
 * ```
 */
export function mergeRegions(labels: LabelsLike, ids: readonly number[]): Labels {
  const list = checkList(ids, 'ids', 'a list of region ids');
  if (list.length === 0) throw wrongValue('ids', 'a list of at least one region id', ids);
  list.forEach((id, i) => {
    checkNumber(id, `ids[${i}]`, { min: 1, integer: true });
  });
  const { data, width, height } = labelsArgument(labels, 'labels');
  const merged = new Int32Array(data.length);
  const wanted = new Set(list);
  const seen = new Set<number>();
  const first = list[0]!;
  let last = 0;
  let now = 0;
  for (let i = 0; i < data.length; i++) {
    const id = data[i]!;
    if (id !== last) {
      last = id;
      now = wanted.has(id) ? first : id;
      if (now === first) seen.add(id);
    }
    merged[i] = now;
  }
  list.forEach((id, i) => {
    if (!seen.has(id)) throw new RangeError(`ids[${i}] must occur in labels, got ${id}`);
  });
  return raster(merged, [width, height]);
}
