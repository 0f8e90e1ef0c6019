import { labelsArgument } from '../raster/arguments.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
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
  const columns: RegionColumns = {
    length,
    ...measureSpans(data, width, height, length, partOf(tick, 0, 0.5)),
    perimeter: new Int32Array(length),
    eulerNumber: new Int32Array(length),
  };
  measureQuads(data, width, height, columns, partOf(tick, 0.5, 1));
  return columns;
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

/** Perimeter and Euler number from 2 × 2 windows; windows of one label are skipped. */
function measureQuads(
  data: Int32Array,
  width: number,
  height: number,
  { length, perimeter, eulerNumber }: RegionColumns,
  tick: Tick | undefined,
): void {
  const quad = new Int32Array(4);
  for (let y = 0; y <= height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / (height + 1));
    const above = (y - 1) * width;
    const row = y * width;
    let a = 0;
    let c = 0;
    for (let x = 0; x <= width; x++) {
      const b = y > 0 && x < width ? data[above + x]! : 0;
      const d = y < height && x < width ? data[row + x]! : 0;
      if (a !== b || c !== d || a !== c) {
        quad[0] = a;
        quad[1] = b;
        quad[2] = d;
        quad[3] = c;
        countQuad(quad, perimeter, eulerNumber);
      }
      a = b;
      c = d;
    }
  }
  for (let id = 1; id < length; id++) {
    perimeter[id]! /= 2;
    eulerNumber[id]! /= 4;
  }
}

/** Each pixel edge is seen by the two windows at its ends: perimeters come out doubled. */
function countQuad(quad: Int32Array, perimeter: Int32Array, eulerNumber: Int32Array): void {
  for (let k = 0; k < 4; k++) {
    const id = quad[k]!;
    if (id === 0) continue;
    const next = quad[(k + 1) & 3]! === id;
    const across = quad[(k + 2) & 3]! === id;
    const last = quad[(k + 3) & 3]! === id;
    if (!next) perimeter[id]! += 1;
    if (!last) perimeter[id]! += 1;
    const pixels = 1 + (next ? 1 : 0) + (across ? 1 : 0) + (last ? 1 : 0);
    if (pixels === 1 || (pixels === 2 && across)) eulerNumber[id]! += 1;
    else if (pixels === 3 && next && last) eulerNumber[id]! -= 1;
  }
}
