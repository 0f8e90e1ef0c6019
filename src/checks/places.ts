import { raster } from '../raster/raster.ts';
import type { Bounds, Connectivity, Point } from '../raster/types.ts';
import { labelRegions } from '../regions/label.ts';
import type { Finding } from './finding.ts';

/** The places beyond this many become one, the last: a person looks at no more. */
export const MOST_PLACES = 10_000;

/** Pixels that belong together, as spans `y, x0, x1` row by row. */
export interface Place {
  readonly spans: Int32Array;
  /** More than 1 for what is left when there are too many. */
  readonly places: number;
}

/** The connected places of a mask, in the order of first pixels. O(pixels). */
export function placesOfMask(
  mask: Uint8Array,
  width: number,
  height: number,
  connectivity: Connectivity,
): Place[] {
  const { labels, count } = labelRegions(raster(mask, [width, height]), { connectivity });
  return count === 0 ? [] : placesOfLabels(labels.data, width, count);
}

/** The places of labels 1..count, without those of more than `maxArea` pixels. O(pixels). */
export function placesOfLabels(
  labels: Int32Array,
  width: number,
  count: number,
  maxArea: number = Number.POSITIVE_INFINITY,
): Place[] {
  const { area, pieces } = measureLabels(labels, width, count);
  const slot = new Int32Array(count + 1).fill(-1);
  const sizes: number[] = [];
  let places = 0;
  for (let label = 1; label <= count; label++) {
    if (area[label]! > maxArea) continue;
    slot[label] = Math.min(places++, MOST_PLACES);
    sizes[slot[label]!] = (sizes[slot[label]!] ?? 0) + pieces[label]!;
  }
  if (places === 0) return [];
  const spans = sizes.map((size) => new Int32Array(3 * size));
  collectSpans(labels, width, slot, spans);
  return spans.map((own, k) => ({ spans: own, places: k < MOST_PLACES ? 1 : places - k }));
}

/** The pixels of each of the labels 1..count. O(pixels). */
export function spansOfLabels(labels: Int32Array, width: number, count: number): Int32Array[] {
  const { pieces } = measureLabels(labels, width, count);
  const spans = Array.from({ length: count }, (_, k) => new Int32Array(3 * pieces[k + 1]!));
  collectSpans(
    labels,
    width,
    Int32Array.from({ length: count + 1 }, (_, label) => label - 1),
    spans,
  );
  return spans;
}

/** Pixels and horizontal pieces of each label. */
function measureLabels(
  labels: Int32Array,
  width: number,
  count: number,
): { area: Int32Array; pieces: Int32Array } {
  const area = new Int32Array(count + 1);
  const pieces = new Int32Array(count + 1);
  for (let i = 0; i < labels.length; ) {
    const end = i + width;
    while (i < end) {
      const from = i;
      const label = labels[i]!;
      while (++i < end && labels[i] === label);
      area[label]! += i - from;
      pieces[label]! += 1;
    }
  }
  return { area, pieces };
}

/** Fills the spans of each slot; labels of slot -1 have none. */
function collectSpans(
  labels: Int32Array,
  width: number,
  slot: Int32Array,
  spans: readonly Int32Array[],
): void {
  const filled = new Int32Array(spans.length);
  for (let y = 0, i = 0; i < labels.length; y++) {
    const row = i;
    const end = i + width;
    while (i < end) {
      const from = i;
      const label = labels[i]!;
      while (++i < end && labels[i] === label);
      const k = slot[label]!;
      if (k < 0) continue;
      const at = filled[k]!;
      spans[k]![at] = y;
      spans[k]![at + 1] = from - row;
      spans[k]![at + 2] = i - row;
      filled[k] = at + 3;
    }
  }
}

/** What a finding says of its place. O(spans). */
export function describePlace(
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
export function where({ spans, places }: Place): string {
  const first = `at [${spans[1]}, ${spans[0]}]`;
  return places === 1 ? first : `at ${places} more places, the first ${first}`;
}
