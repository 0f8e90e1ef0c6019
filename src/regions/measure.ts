import { labelsArgument } from '../raster/arguments.ts';
import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { LabelsLike, Owned } from '../raster/types.ts';
import { columnLength } from './columns.ts';

/** What {@link measureRegions} gives: one column per property, read at the region's id. */
export interface RegionColumns {
  /** Length of each column: the highest id + 1. Entry 0 and unused ids hold zeros. */
  readonly length: number;
  /** Pixels. */
  readonly area: Owned<Int32Array>;
  /** Four per id, `[x0, y0, x1, y1]` in whole pixels, half-open. */
  readonly bounds: Owned<Int32Array>;
  /** Two per id, `[x, y]`: mean of the pixel centers. */
  readonly centroid: Owned<Float64Array>;
  /** Pixel edges between the region and anything else, the picture's border included. */
  readonly perimeter: Owned<Int32Array>;
  /** 4-connected components minus holes. */
  readonly eulerNumber: Owned<Int32Array>;
}

/**
 * Measures every region (region properties): area, bounds, centroid, perimeter, Euler number.
 *
 * The Euler number counts bit quads (Gray 1971, "Local properties of binary images in two
 * dimensions", DOI 10.1109/T-C.1971.223289): over all 2 × 2 windows of a padded picture, a region
 * with one pixel in the window adds 1/4, with three takes 1/4 away, with two on a diagonal adds 2/4.
 *
 * O(pixels); 40 bytes per id.
 *
 * @param labels - `[w, h]` Int32 ids; 0 is not measured.
 * @returns Columns by id.
 * @throws TypeError or RangeError for a raster that holds no labels, or ids far above its pixels.
 * @example
 * ```ts
 * import { measureRegions, raster } from 'underink';
 * const { area, perimeter } = measureRegions(raster(new Int32Array([1, 1, 0, 1]), [2, 2]));
 * console.log(area[1], perimeter[1]); // 3 8
 * ```
 */
export function measureRegions(labels: LabelsLike): RegionColumns {
  const { data, width, height } = labelsArgument(labels, 'labels');
  return measureLabels(data, width, height, columnLength(data, 'labels'));
}

/** The same on flat labels below `length`. */
export function measureLabels(
  data: Int32Array,
  width: number,
  height: number,
  length: number,
  tick?: Tick,
): RegionColumns {
  const places = new RegionPlaces(length);
  const perimeter = new Int32Array(length);
  const eulerNumber = new Int32Array(length);
  let above = new RowRuns(width);
  let here = new RowRuns(width);
  for (let y = 0; y <= height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / (height + 1));
    [above, here] = [here, above];
    if (y < height) here.read(data, y * width, width);
    else here.clear(width);
    for (let r = 0, from = 0; r < here.count; r++) {
      const [id, to] = [here.id[r]!, here.end[r]!];
      if (id !== 0) places.add(id, y, from, to);
      from = to;
    }
    countWindows(above, here, width, perimeter, eulerNumber);
  }
  for (let id = 1; id < length; id++) {
    perimeter[id]! /= 2;
    eulerNumber[id]! /= 4;
  }
  return { length, ...places.finish(), perimeter, eulerNumber };
}

/** Area, bounds and centroid, a span of equal labels at a time. */
export function measureSpans(
  data: Int32Array,
  width: number,
  height: number,
  length: number,
  tick?: Tick,
): Pick<RegionColumns, 'area' | 'bounds' | 'centroid'> {
  const places = new RegionPlaces(length);
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    const row = y * width;
    for (let x = 0; x < width; ) {
      const from = x;
      const id = data[row + x]!;
      while (++x < width && data[row + x] === id);
      if (id !== 0) places.add(id, y, from, x);
    }
  }
  return places.finish();
}

/** Gathers area, bounds and centroid by id from spans, which come row by row. */
export class RegionPlaces {
  private readonly area: Owned<Int32Array>;
  private readonly bounds: Owned<Int32Array>;
  private readonly centroid: Owned<Float64Array>;

  constructor(length: number) {
    this.area = new Int32Array(length);
    this.bounds = new Int32Array(4 * length);
    this.centroid = new Float64Array(2 * length);
  }

  /** The span `[from, to)` of row y belongs to a region. */
  add(id: number, y: number, from: number, to: number): void {
    const { area, bounds, centroid } = this;
    if (area[id] === 0) {
      bounds[4 * id] = from;
      bounds[4 * id + 1] = y;
    } else if (from < bounds[4 * id]!) bounds[4 * id] = from;
    if (to > bounds[4 * id + 2]!) bounds[4 * id + 2] = to;
    bounds[4 * id + 3] = y + 1;
    const n = to - from;
    area[id]! += n;
    centroid[2 * id]! += (n * (from + to)) / 2;
    centroid[2 * id + 1]! += n * (y + 0.5);
  }

  /** The columns, once all spans have come. */
  finish(): Pick<RegionColumns, 'area' | 'bounds' | 'centroid'> {
    const { area, bounds, centroid } = this;
    for (let id = 1; id < area.length; id++) {
      if (area[id] === 0) continue;
      centroid[2 * id]! /= area[id]!;
      centroid[2 * id + 1]! /= area[id]!;
    }
    return { area, bounds, centroid };
  }
}

/** The runs of equal labels of a row, which they tile. */
class RowRuns {
  count = 1;
  readonly end: Int32Array;
  readonly id: Int32Array;

  /** A row outside of the picture. */
  constructor(width: number) {
    this.end = new Int32Array(width);
    this.id = new Int32Array(width);
    this.end[0] = width;
  }

  clear(width: number): void {
    this.count = 1;
    this.id[0] = 0;
    this.end[0] = width;
  }

  read(data: Int32Array, row: number, width: number): void {
    const { end, id } = this;
    let count = 0;
    let last = data[row]!;
    for (let x = 1; x < width; x++) {
      const next = data[row + x]!;
      if (next === last) continue;
      id[count] = last;
      end[count++] = x;
      last = next;
    }
    id[count] = last;
    end[count++] = width;
    this.count = count;
  }
}

/** The 2 × 2 windows over two rows; between two runs, one over the other, all but the first are alike. */
function countWindows(
  above: RowRuns,
  here: RowRuns,
  width: number,
  perimeter: Int32Array,
  eulerNumber: Int32Array,
): void {
  let [a, c] = [0, 0];
  for (let x = 0, i = 0, j = 0; x < width; ) {
    const b = above.id[i]!;
    const d = here.id[j]!;
    countWindow(a, b, d, c, perimeter, eulerNumber);
    const end = Math.min(above.end[i]!, here.end[j]!);
    if (b !== d) {
      const edges = 2 * (end - x - 1);
      if (b !== 0) perimeter[b]! += edges;
      if (d !== 0) perimeter[d]! += edges;
    }
    if (above.end[i] === end) i++;
    if (here.end[j] === end) j++;
    [x, a, c] = [end, b, d];
  }
  countWindow(a, 0, 0, c, perimeter, eulerNumber);
}

/** A window with its labels in turn round the middle. */
function countWindow(
  a: number,
  b: number,
  d: number,
  c: number,
  perimeter: Int32Array,
  eulerNumber: Int32Array,
): void {
  if (a === b && b === d && d === c) return;
  countCorner(a, b, d, c, perimeter, eulerNumber);
  countCorner(b, d, c, a, perimeter, eulerNumber);
  countCorner(d, c, a, b, perimeter, eulerNumber);
  countCorner(c, a, b, d, perimeter, eulerNumber);
}

/** One pixel of a window. Each pixel edge is seen by the two windows at its ends: perimeters are doubled. */
function countCorner(
  id: number,
  right: number,
  opposite: number,
  left: number,
  perimeter: Int32Array,
  eulerNumber: Int32Array,
): void {
  if (id === 0) return;
  const next = right === id;
  const across = opposite === id;
  const last = left === id;
  if (!next) perimeter[id]! += 1;
  if (!last) perimeter[id]! += 1;
  const pixels = 1 + (next ? 1 : 0) + (across ? 1 : 0) + (last ? 1 : 0);
  if (pixels === 1 || (pixels === 2 && across)) eulerNumber[id]! += 1;
  else if (pixels === 3 && next && last) eulerNumber[id]! -= 1;
}
