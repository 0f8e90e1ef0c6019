import { raster } from '../raster/raster.ts';
import type { Bounds, Connectivity } from '../raster/types.ts';
import { labelRegions } from '../regions/label.ts';
import { measureRegions } from '../regions/measure.ts';

/** A connected place of a mask. */
export interface Place {
  readonly count: number;
  readonly bounds: Bounds;
  /** Index of its first pixel, row by row. */
  readonly first: number;
}

/** The connected places of a mask, in the order of their first pixel. O(pixels). */
export function placesOf(
  mask: Uint8Array,
  width: number,
  height: number,
  connectivity: Connectivity,
): { places: Place[]; labels: Int32Array } {
  const { labels, count } = labelRegions(raster(mask, [width, height]), { connectivity });
  if (count === 0) return { places: [], labels: labels.data };
  return { places: measurePlaces(labels.data, width, height, count), labels: labels.data };
}

/** Places of labels that are numbered by first pixel. */
export function measurePlaces(
  labels: Int32Array,
  width: number,
  height: number,
  count: number,
): Place[] {
  const { area, bounds } = measureRegions(raster(labels, [width, height]));
  const firsts = new Int32Array(count + 1);
  for (let i = 0, next = 1; next <= count; i++) if (labels[i] === next) firsts[next++] = i;
  return Array.from({ length: count }, (_, k) => ({
    count: area[k + 1]!,
    bounds: [...bounds.subarray(4 * k + 4, 4 * k + 8)] as Bounds,
    first: firsts[k + 1]!,
  }));
}
