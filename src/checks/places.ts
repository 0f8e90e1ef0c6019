import type { Bounds, Connectivity, MaskLike, Point } from '../raster/types.ts';
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
export function placesOfMask(mask: MaskLike, connectivity: Connectivity): Place[] {
  const { labels, count } = labelRegions(mask, { connectivity });
  const width = labels.shape[0]!;
  return count === 0 ? [] : placesOfLabels(labels.data, width, count);
}

/** The places of those of the labels 1..count that are wanted, by their number and area. O(pixels). */
export function placesOfLabels(
  labels: Int32Array,
  width: number,
  count: number,
  isWanted: (label: number, area: number) => boolean = () => true,
): Place[] {
  const { area, pieces } = measureLabels(labels, width, count);
  const slot = new Int32Array(count + 1).fill(-1);
  const sizes: number[] = [];
  let places = 0;
  for (let label = 1; label <= count; label++) {
    if (!isWanted(label, area[label]!)) continue;
    slot[label] = Math.min(places++, MOST_PLACES);
    sizes[slot[label]!] = (sizes[slot[label]!] ?? 0) + pieces[label]!;
  }
  if (places === 0) return [];
  const spans = sizes.map((size) => new Int32Array(3 * size));
  collectSpans(labels, width, slot, spans);
  return spans.map((own, k) => ({ spans: own, places: k < MOST_PLACES ? 1 : places - k }));
}

/** The pixels of each of the values, those that occur. O(pixels). */
export function spansOfValues(
  data: Uint8Array | Uint16Array,
  width: number,
  values: readonly number[],
): Map<number, Int32Array> {
  const labelOf = new Int32Array(0x10000);
  values.forEach((value, k) => {
    labelOf[value] = k + 1;
  });
  const labels = Int32Array.from(data, (index) => labelOf[index]!);
  const { pieces } = measureLabels(labels, width, values.length);
  const spans = values.map((_, k) => new Int32Array(3 * pieces[k + 1]!));
  const slot = Int32Array.from({ length: values.length + 1 }, (_, label) => label - 1);
  collectSpans(labels, width, slot, spans);
  return new Map(values.flatMap((value, k) => (spans[k]!.length > 0 ? [[value, spans[k]!]] : [])));
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
): Required<Pick<Finding, 'at' | 'bounds' | 'area' | 'spans'>> {
  return { ...measureSpans(spans), spans: Array.from(spans) };
}

/** The same without the spans themselves, which hold a pixel at least. */
export function measureSpans(
  spans: ArrayLike<number>,
): Required<Pick<Finding, 'at' | 'bounds' | 'area'>> {
  let area = 0;
  let left = spans[1]!;
  let right = 0;
  for (let k = 0; k < spans.length; k += 3) {
    const x0 = spans[k + 1]!;
    const x1 = spans[k + 2]!;
    area += x1 - x0;
    if (x0 < left) left = x0;
    if (x1 > right) right = x1;
  }
  const bounds: Bounds = [left, spans[0]!, right, spans[spans.length - 3]! + 1];
  const at: Point = [spans[1]! + 0.5, spans[0]! + 0.5];
  return { at, bounds, area };
}

/** The place of what is nowhere in the picture: all of it, by its first pixel. */
export function wholePicture([width, height]: readonly [number, number]): Required<
  Pick<Finding, 'at' | 'bounds' | 'area'>
> {
  return { at: [0.5, 0.5], bounds: [0, 0, width, height], area: 0 };
}

/** `3 pixels`, `1 pixel`. */
export function amount(count: number, unit: string): string {
  return `${count} ${unit}${count === 1 ? '' : 's'}`;
}

/** ` between "fur" and "eye"`; nothing where more places than one are told of. */
export function between({ places }: Pick<Place, 'places'>, swatches: readonly string[]): string {
  return places === 1 ? ` between "${swatches[0]}" and "${swatches[1]}"` : '';
}

/** `at [x, y]` of the first pixel. */
export function where({ spans, places }: Place): string {
  const first = `at [${spans[1]}, ${spans[0]}]`;
  return places === 1 ? first : `at ${places} more places, the first ${first}`;
}
