import { maskArgument } from '../raster/arguments.ts';
import { checkOneOf, checkOptions } from '../raster/checks.ts';
import { outArgument, outResult } from '../raster/out.ts';
import { type Packed, packMask } from '../raster/pack.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { Connectivity, Labels, MaskLike, RasterView } from '../raster/types.ts';
import { fillSpan } from '../runs/fill-span.ts';
import { findRuns } from '../runs/runs.ts';
import { connectRuns } from '../runs/union.ts';

export interface LabelRegionsOptions {
  /** Which value the regions are made of; paper regions of an ink mask are `of: 0`. @default 1 */
  readonly of?: 0 | 1 | undefined;
  /** Neighbors that connect pixels of that value. @default 4 */
  readonly connectivity?: Connectivity | undefined;
  /** An Int32 raster of the mask's shape to write into. */
  readonly out?: RasterView<Int32Array> | undefined;
}

/** A label raster with its number of regions. */
export interface Labeling {
  labels: Labels;
  /** Regions are numbered 1..count. */
  count: number;
}

/**
 * Labels the connected regions of a mask (connected-component labeling), 1..count by their first
 * pixel, row by row; the other pixels are 0.
 *
 * ```text
 * mask          of: 1, 4-connected    8-connected
 * 1 1 0 0       1 1 0 0               1 1 0 0
 * 0 0 1 0       0 0 2 0               0 0 1 0
 * ```
 *
 * Works on runs of the packed mask, not on pixels: near O(pixels / 32 + runs) to connect and
 * O(pixels) to write; 12 bytes per run beside the result.
 *
 * @param mask - `[w, h]` of 0 or 1.
 * @returns Int32 labels of the same shape, with their count.
 * @throws TypeError or RangeError for a raster that is no mask or an unknown option.
 * @example
 * ```ts
 * import { labelRegions, raster } from 'underink';
 * const mask = raster(new Uint8Array([1, 1, 0, 0, 0, 0, 1, 0]), [4, 2]);
 * console.log(labelRegions(mask).count); // 2
 * console.log(labelRegions(mask, { connectivity: 8 }).count); // 1
 * ```
 */
export function labelRegions(mask: MaskLike, options?: LabelRegionsOptions): Labeling {
  const names = ['of', 'connectivity', 'out'] as const;
  const { of = 1, connectivity = 4, out } = checkOptions(options, 'labelRegions', names);
  checkOneOf(of, 'of', [0, 1]);
  checkOneOf(connectivity, 'connectivity', [4, 8]);
  const dense = maskArgument(mask, 'mask');
  const { width, height } = dense;
  const packed = packMask(dense, 'mask');
  const data = outArgument(out, Int32Array, width, height, [mask.data]);
  if (out !== undefined) data.fill(0);
  const count = labelPacked(packed, of, connectivity, data);
  return { labels: outResult(out, data, width, height), count };
}

/** Writes the labels of a packed mask into zeroed storage; gives their count. */
export function labelPacked(
  packed: Packed,
  of: 0 | 1,
  connectivity: Connectivity,
  labels: Int32Array,
  tick?: Tick,
): number {
  const { width, height } = packed;
  const runs = findRuns(packed, of, partOf(tick, 0, 0.2));
  const { rowStart, start, end } = runs;
  const { ids, count } = connectRuns(runs, connectivity, partOf(tick, 0.2, 0.5));
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(0.5 + y / (2 * height));
    const row = y * width;
    const rowEnd = rowStart[y + 1]!;
    for (let r = rowStart[y]!; r < rowEnd; r++) {
      fillSpan(labels, ids[r]!, row + start[r]!, row + end[r]!);
    }
  }
  return count;
}
