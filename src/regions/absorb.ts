import { labelsArgument } from '../raster/arguments.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import { TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { Labels, LabelsLike } from '../raster/types.ts';
import { KeyHeap } from '../runs/key-heap.ts';
import { findRoot, singleSets } from '../runs/union.ts';
import { adjacencyOf, type RegionAdjacency } from './adjacency.ts';
import { columnLength } from './columns.ts';

export interface AbsorbOptions {
  /** Largest area that is given away, in pixels. @default 8 */
  readonly maxArea?: number | undefined;
  /**
   * Area by id, where it is not that of `labels`: the paper that regions had before they grew under
   * the ink, say. @default the areas in `labels`
   */
  readonly areas?: ArrayLike<number> | undefined;
}

/**
 * Gives each small region to the neighbor with which it shares the longest border (region merging):
 * the smallest region first, ties to the lower id, never to 0. A region that has taken others in counts with its
 * new area. A small region with no neighbor stays.
 *
 * O(pixels + pairs · log); about 40 bytes per pair of neighbors.
 *
 * @param labels - `[w, h]` Int32 ids. For regions that ink keeps apart, grow them first.
 * @returns New labels; ids that are left keep their number.
 * @throws TypeError or RangeError for a raster that holds no labels, or a bad option.
 * @example
 * ```ts
 * import { absorbRegions, raster } from 'underink';
 * const labels = raster(new Int32Array([1, 1, 1, 1, 2, 3, 3, 3, 3]), [3, 3]);
 * console.log([...absorbRegions(labels, { maxArea: 1 }).data].join(' ')); // 1 1 1 1 1 3 3 3 3
 * ```
 */
export function absorbRegions(labels: LabelsLike, options?: AbsorbOptions): Labels {
  const { maxArea = 8, areas } = checkOptions(options, 'absorbRegions', ['maxArea', 'areas']);
  checkNumber(maxArea, 'maxArea', { unit: 'pixels' });
  const { data, width, height } = labelsArgument(labels, 'labels');
  const own = areasOf(data, columnLength(data, 'labels'));
  if (areas !== undefined) checkAreas(areas, own);
  const absorbed = data.slice();
  absorbInPlace(absorbed, width, height, maxArea, areas ?? own);
  return raster(absorbed, [width, height]);
}

/** Each id that occurs must have an area of at least 1. */
function checkAreas(areas: ArrayLike<number>, own: Int32Array): void {
  if (typeof areas !== 'object' || areas === null || typeof areas.length !== 'number') {
    throw wrongKind('areas', 'areas by id', areas);
  }
  for (let id = 1; id < own.length; id++) {
    if (own[id]! > 0) checkNumber(areas[id], `areas[${id}]`, { min: 1, unit: 'pixels' });
  }
}

/** Pixels by id, for ids below `length`. */
export function areasOf(labels: Int32Array, length: number, tick?: Tick): Int32Array {
  const areas = new Int32Array(length);
  for (let from = 0; from < labels.length; from += TICK_PIXELS) {
    tick?.(from / labels.length);
    const to = Math.min(labels.length, from + TICK_PIXELS);
    for (let i = from; i < to; ) {
      const start = i;
      const label = labels[i]!;
      while (++i < to && labels[i] === label);
      areas[label]! += i - start;
    }
  }
  return areas;
}

export function absorbInPlace(
  labels: Int32Array,
  width: number,
  height: number,
  maxArea: number,
  areas: ArrayLike<number>,
  tick?: Tick,
): void {
  const length = columnLength(labels, 'labels');
  const owner = mergeSmall(adjacencyOf(labels, width, height, tick), length, maxArea, areas);
  for (let i = 0; i < labels.length; i++) labels[i] = owner[labels[i]!]!;
}

/** For each id the id that holds it in the end. */
export function mergeSmall(
  pairs: RegionAdjacency,
  length: number,
  maxArea: number,
  areas: ArrayLike<number>,
): Int32Array {
  const area = Float64Array.from({ length }, (_, id) => areas[id] ?? 0);
  const root = singleSets(length);
  const borders = new BorderLists(pairs, length);
  const queue = new KeyHeap();
  for (let id = 1; id < length; id++) {
    if (borders.has(id) && area[id]! <= maxArea) queue.push(area[id]!, id);
  }
  while (queue.size > 0) {
    const was = queue.leastKey;
    const id = queue.pop();
    if (root[id] !== id || area[id] !== was) continue;
    const to = borders.longest(id, root);
    if (to === 0) continue;
    root[id] = to;
    area[to]! += area[id]!;
    borders.append(to, id);
    if (area[to]! <= maxArea) queue.push(area[to]!, to);
  }
  for (let id = 1; id < length; id++) root[id] = findRoot(root, id);
  return root;
}

/** Borders of each region as linked lists that are joined in O(1) when regions merge. */
class BorderLists {
  private readonly other: Int32Array;
  private readonly border: Int32Array;
  private readonly next: Int32Array;
  private readonly head: Int32Array;
  private readonly tail: Int32Array;
  private readonly sum: Float64Array;

  constructor({ a, b, borderLength }: RegionAdjacency, length: number) {
    const entries = 2 * a.length;
    this.other = new Int32Array(entries);
    this.border = new Int32Array(entries);
    this.next = new Int32Array(entries).fill(-1);
    this.head = new Int32Array(length).fill(-1);
    this.tail = new Int32Array(length).fill(-1);
    this.sum = new Float64Array(length);
    for (let k = 0; k < a.length; k++) {
      this.link(2 * k, a[k]!, b[k]!, borderLength[k]!);
      this.link(2 * k + 1, b[k]!, a[k]!, borderLength[k]!);
    }
  }

  private link(entry: number, from: number, to: number, border: number): void {
    this.other[entry] = to;
    this.border[entry] = border;
    if (this.head[from]! < 0) this.head[from] = entry;
    else this.next[this.tail[from]!] = entry;
    this.tail[from] = entry;
  }

  has(id: number): boolean {
    return this.head[id]! >= 0;
  }

  append(to: number, from: number): void {
    if (this.head[from]! < 0) return;
    if (this.head[to]! < 0) this.head[to] = this.head[from]!;
    else this.next[this.tail[to]!] = this.head[from]!;
    this.tail[to] = this.tail[from]!;
  }

  /** The neighbor with the longest border, ties to the lower id; 0 when there is none. */
  longest(id: number, root: Int32Array): number {
    let best = 0;
    for (let e = this.head[id]!; e >= 0; e = this.next[e]!) {
      const to = findRoot(root, this.other[e]!);
      if (to === id) continue;
      const sum = (this.sum[to]! += this.border[e]!);
      const lead = best === 0 ? 1 : sum - this.sum[best]!;
      if (lead > 0 || (lead === 0 && to < best)) best = to;
    }
    for (let e = this.head[id]!; e >= 0; e = this.next[e]!) {
      this.sum[findRoot(root, this.other[e]!)] = 0;
    }
    return best;
  }
}
