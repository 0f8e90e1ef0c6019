import { raster } from '../raster/raster.ts';
import type { Bounds, Connectivity, Point } from '../raster/types.ts';
import { labelRegions } from '../regions/label.ts';
import type { Finding } from './finding.ts';

/** Spans `y, x0, x1` of each connected place of a mask, in the order of first pixels. O(pixels). */
export function spansOfMask(
  mask: Uint8Array,
  width: number,
  height: number,
  connectivity: Connectivity,
): Int32Array[] {
  const { labels, count } = labelRegions(raster(mask, [width, height]), { connectivity });
  return count === 0 ? [] : spansOfLabels(labels.data, width, count);
}

/** The same of labels 1..count, without those of more than `maxArea` pixels. O(pixels). */
export function spansOfLabels(
  labels: Int32Array,
  width: number,
  count: number,
  maxArea: number = Number.POSITIVE_INFINITY,
): Int32Array[] {
  const height = labels.length / width;
  const area = new Int32Array(count + 1);
  const pieces = new Int32Array(count + 1);
  for (let y = 0, i = 0; y < height; y++) {
    const end = i + width;
    while (i < end) {
      const from = i;
      const label = labels[i]!;
      while (++i < end && labels[i] === label);
      area[label]! += i - from;
      pieces[label]! += 1;
    }
  }
  const places: Int32Array[] = [];
  const placeOf = new Int32Array(count + 1).fill(-1);
  for (let label = 1; label <= count; label++) {
    if (area[label]! > maxArea) continue;
    placeOf[label] = places.length;
    places.push(new Int32Array(3 * pieces[label]!));
    pieces[label] = 0;
  }
  if (places.length === 0) return places;
  for (let y = 0, i = 0; y < height; y++) {
    const row = i;
    const end = i + width;
    while (i < end) {
      const from = i;
      const label = labels[i]!;
      while (++i < end && labels[i] === label);
      const place = placeOf[label]!;
      if (place < 0) continue;
      const at = 3 * pieces[label]!++;
      const spans = places[place]!;
      spans[at] = y;
      spans[at + 1] = from - row;
      spans[at + 2] = i - row;
    }
  }
  return places;
}

/** What a finding says of its place. O(spans). */
export function placeOf(
  spans: Int32Array,
): Required<Pick<Finding, 'count' | 'bounds' | 'at' | 'spans'>> {
  let count = 0;
  let left = spans[1]!;
  let right = 0;
  for (let k = 0; k < spans.length; k += 3) {
    const x0 = spans[k + 1]!;
    const x1 = spans[k + 2]!;
    count += x1 - x0;
    if (x0 < left) left = x0;
    if (x1 > right) right = x1;
  }
  const bounds: Bounds = [left, spans[0]!, right, spans[spans.length - 3]! + 1];
  const at: Point = [spans[1]! + 0.5, spans[0]! + 0.5];
  return { count, bounds, at, spans };
}

/** `3 pixels`, `1 pixel`. */
export function amount(count: number, unit: string): string {
  return `${count} ${unit}${count === 1 ? '' : 's'}`;
}

/** `at [x, y]` of the first pixel. */
export function atFirst(spans: Int32Array): string {
  return `at [${spans[1]}, ${spans[0]}]`;
}
