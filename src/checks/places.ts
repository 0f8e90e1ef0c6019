import { maskArgument } from '../raster/arguments.ts';
import { packMask } from '../raster/pack.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { Bounds, Connectivity, MaskLike, Point } from '../raster/types.ts';
import { findRuns } from '../runs/runs.ts';
import { connectRuns } from '../runs/union.ts';
import type { Finding } from './finding.ts';

/** The places beyond this many become one, the last: a person looks at no more. */
export const MOST_PLACES = 10_000;

/** Pixels that belong together, as spans `y, x0, x1` row by row. */
export interface Place {
  readonly spans: Int32Array;
  /** More than 1 for what is left when there are too many. */
  readonly places: number;
}

/** Visits horizontal runs, `[x0, x1)` of row y, row by row, with the number of what they belong to. */
type EachRun = (
  visit: (id: number, y: number, x0: number, x1: number) => void,
  tick?: Tick,
) => void;

/** The connected places of a mask, in the order of first pixels. O(pixels). */
export function placesOfMask(mask: MaskLike, connectivity: Connectivity, tick?: Tick): Place[] {
  const packed = packMask(maskArgument(mask, 'mask'), 'mask', partOf(tick, 0, 0.6));
  const runs = findRuns(packed, 1);
  const { ids, count } = connectRuns(runs, connectivity);
  const { rowStart, start, end } = runs;
  const eachRun: EachRun = (visit, step) => {
    for (let y = 0; y < packed.height; y++) {
      if (y % TICK_ROWS === 0) step?.(y / packed.height);
      for (let r = rowStart[y]!; r < rowStart[y + 1]!; r++) visit(ids[r]!, y, start[r]!, end[r]!);
    }
  };
  return placesOf(eachRun, count, () => true, partOf(tick, 0.6, 1));
}

/** The places of those of the labels 1..count that are wanted, by their number and area. O(pixels). */
export function placesOfLabels(
  labels: Int32Array,
  width: number,
  count: number,
  isWanted: (label: number, area: number) => boolean = () => true,
  tick?: Tick,
): Place[] {
  return placesOf(runsOfEqual(labels, width), count, isWanted, tick);
}

/** The pixels of each of the values, those that occur. O(pixels). */
export function spansOfValues(
  data: Uint8Array | Uint16Array,
  width: number,
  values: readonly number[],
  tick?: Tick,
): Map<number, Int32Array> {
  const slot = new Int32Array(0x10000).fill(-1);
  values.forEach((value, k) => {
    slot[value] = k;
  });
  const pieces = new Int32Array(values.length);
  const eachRun = runsOfEqual(data, width);
  eachRun(
    (value) => {
      if (slot[value]! >= 0) pieces[slot[value]!]! += 1;
    },
    partOf(tick, 0, 0.5),
  );
  const spans = Array.from(pieces, (count) => new Int32Array(3 * count));
  collectSpans(eachRun, slot, spans, partOf(tick, 0.5, 1));
  return new Map(values.flatMap((value, k) => (spans[k]!.length > 0 ? [[value, spans[k]!]] : [])));
}

function runsOfEqual(data: Uint8Array | Uint16Array | Int32Array, width: number): EachRun {
  const height = data.length / width;
  return (visit, tick) => {
    for (let y = 0, i = 0; y < height; y++) {
      if (y % TICK_ROWS === 0) tick?.(y / height);
      const row = i;
      const end = i + width;
      while (i < end) {
        const from = i;
        const value = data[i]!;
        while (++i < end && data[i] === value);
        visit(value, y, from - row, i - row);
      }
    }
  };
}

/** The places of the numbers 1..count that are wanted. */
function placesOf(
  eachRun: EachRun,
  count: number,
  isWanted: (id: number, area: number) => boolean,
  tick?: Tick,
): Place[] {
  const area = new Int32Array(count + 1);
  const pieces = new Int32Array(count + 1);
  eachRun(
    (id, _, x0, x1) => {
      area[id]! += x1 - x0;
      pieces[id]! += 1;
    },
    partOf(tick, 0, 0.5),
  );
  const slot = new Int32Array(count + 1).fill(-1);
  const sizes: number[] = [];
  let places = 0;
  for (let id = 1; id <= count; id++) {
    if (!isWanted(id, area[id]!)) continue;
    slot[id] = Math.min(places++, MOST_PLACES);
    sizes[slot[id]!] = (sizes[slot[id]!] ?? 0) + pieces[id]!;
  }
  if (places === 0) return [];
  const spans = sizes.map((size) => new Int32Array(3 * size));
  collectSpans(eachRun, slot, spans, partOf(tick, 0.5, 1));
  return spans.map((own, k) => ({ spans: own, places: k < MOST_PLACES ? 1 : places - k }));
}

/** Fills the spans of each slot; numbers of slot -1 have none. */
function collectSpans(
  eachRun: EachRun,
  slot: Int32Array,
  spans: readonly Int32Array[],
  tick?: Tick,
): void {
  const filled = new Int32Array(spans.length);
  eachRun((id, y, x0, x1) => {
    const k = slot[id]!;
    if (k < 0) return;
    const own = spans[k]!;
    const at = filled[k]!;
    own[at] = y;
    own[at + 1] = x0;
    own[at + 2] = x1;
    filled[k] = at + 3;
  }, tick);
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

/** The pixel of a point, or the nearest one to it where it lies outside the picture. */
export function nearestPixel(
  [x, y]: Point,
  [width, height]: readonly [number, number],
): readonly [number, number] {
  return [
    Math.min(width - 1, Math.max(0, Math.floor(x))),
    Math.min(height - 1, Math.max(0, Math.floor(y))),
  ];
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
