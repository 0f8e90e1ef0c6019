import { labelsArgument } from '../raster/arguments.ts';
import { raster } from '../raster/raster.ts';
import type { LabelsLike } from '../raster/types.ts';
import type { Labeling } from './label.ts';

/**
 * Renumbers labels 1..count by the first pixel of each, row by row (sequential labels); 0 stays 0. Regions of one id
 * keep one id, connected or not. O(pixels).
 *
 * @param labels - `[w, h]` Int32 ids.
 * @returns New labels with their count.
 * @throws TypeError or RangeError for a raster that holds no labels.
 * @example
 * ```ts
 * import { raster, relabel } from 'underink';
 * const { labels, count } = relabel(raster(new Int32Array([9, 0, 4, 9]), [4, 1]));
 * console.log([...labels.data].join(' '), count); // 1 0 2 1 2
 * ```
 */
export function relabel(labels: LabelsLike): Labeling {
  const { data, width, height } = labelsArgument(labels, 'labels');
  const renumbered = new Int32Array(data.length);
  const ids = new Map<number, number>([[0, 0]]);
  let last = 0;
  let id = 0;
  for (let i = 0; i < data.length; i++) {
    const label = data[i]!;
    if (label !== last) {
      const known = ids.get(label);
      id = known ?? ids.size;
      if (known === undefined) ids.set(label, id);
      last = label;
    }
    renumbered[i] = id;
  }
  return { labels: raster(renumbered, [width, height]), count: ids.size - 1 };
}
