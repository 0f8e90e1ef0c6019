import { rasterArgument } from '../raster/arguments.ts';
import { checkNumber, checkOneOf, checkOptions } from '../raster/checks.ts';
import { partOf, TICK_PIXELS, TICK_ROWS, type Tick } from '../raster/progress.ts';
import { raster as rasterOf } from '../raster/raster.ts';
import type { Connectivity, Dense, Owned, RasterLike } from '../raster/types.ts';
import { fillSpan } from '../runs/fill-span.ts';
import { numberRoots, unite } from '../runs/union.ts';
import type { Labeling } from './label.ts';

export interface LabelEqualOptions {
  /** Neighbors that connect pixels of equal value. @default 4 */
  readonly connectivity?: Connectivity | undefined;
  /** A value (in every channel) whose pixels get label 0. @default none */
  readonly background?: number | undefined;
}

/**
 * Labels the connected regions of equal value: indices of flats, labels, or pixels that agree in
 * every channel. Numbered 1..count by first pixel, row by row.
 *
 * ```text
 * raster        labels
 * 7 7 0         1 1 2
 * 0 7 7         3 1 1
 * ```
 *
 * Near O(samples); 8 bytes per run beside the result.
 *
 * @param raster - `[w, h]` or `[w, h, 1 to 4]` of any sample type.
 * @returns Int32 labels `[w, h]` with their count.
 * @throws TypeError or RangeError for a bad raster or option.
 * @example
 * ```ts
 * import { labelEqual, raster } from 'underink';
 * const indices = raster(new Uint8Array([7, 7, 0, 0, 7, 7]), [3, 2]);
 * console.log(labelEqual(indices).count); // 3
 * console.log(labelEqual(indices, { background: 0 }).count); // 1
 * ```
 */
export function labelEqual(raster: RasterLike, options?: LabelEqualOptions): Labeling {
  const names = ['connectivity', 'background'] as const;
  const { connectivity = 4, background } = checkOptions(options, 'labelEqual', names);
  checkOneOf(connectivity, 'connectivity', [4, 8]);
  if (background !== undefined) {
    checkNumber(background, 'background', { min: Number.NEGATIVE_INFINITY });
  }
  const dense = rasterArgument(raster, 'raster');
  const { labels, count } = labelValues(dense, connectivity, background);
  return { labels: rasterOf(labels, [dense.width, dense.height]), count };
}

/** The same on flat data. */
export function labelValues(
  dense: Dense,
  connectivity: Connectivity,
  background: number | undefined,
  tick?: Tick,
): { labels: Owned<Int32Array>; count: number } {
  const starts = valueRuns(dense, partOf(tick, 0, 0.5));
  const { ids, count } = connectEqual(
    dense,
    starts,
    connectivity,
    background,
    partOf(tick, 0.5, 0.8),
  );
  const labels = new Int32Array(dense.width * dense.height);
  let told = 0;
  for (let r = 0; r < ids.length; r++) {
    if (tick !== undefined && starts[r]! >= told) {
      tick(0.8 + (0.2 * told) / labels.length);
      told += TICK_PIXELS;
    }
    fillSpan(labels, ids[r]!, starts[r]!, starts[r + 1]!);
  }
  return { labels, count };
}

/** Pixel number at which each run of equal values starts; a row starts a run; closed by the end. */
function valueRuns({ data, width, height, channels }: Dense, tick: Tick | undefined): Int32Array {
  const size = width * height;
  const step = TICK_ROWS * width;
  let count = 0;
  for (let i = 0, x = 0; i < size; i++) {
    if (tick !== undefined && i % step === 0) tick((0.5 * i) / size);
    if (x === 0 || differs(data, i, i - 1, channels)) count++;
    if (++x === width) x = 0;
  }
  const starts = new Int32Array(count + 1);
  let r = 0;
  for (let i = 0, x = 0; i < size; i++) {
    if (tick !== undefined && i % step === 0) tick(0.5 + (0.5 * i) / size);
    if (x === 0 || differs(data, i, i - 1, channels)) starts[r++] = i;
    if (++x === width) x = 0;
  }
  starts[count] = size;
  return starts;
}

/** Ids of the runs; runs tile each row, so the row above is walked beside the row itself. */
function connectEqual(
  { data, width, channels }: Dense,
  starts: Int32Array,
  connectivity: Connectivity,
  background: number | undefined,
  tick: Tick | undefined,
): { ids: Int32Array; count: number } {
  const runs = starts.length - 1;
  const parent = new Int32Array(runs);
  const reach = connectivity === 8 ? 1 : 0;
  let above = 0;
  let aboveEnd = 0;
  let rowStart = 0;
  for (let r = 0; r < runs; r++) {
    parent[r] = r;
    const from = starts[r]!;
    if (from % width === 0) {
      if (tick !== undefined && from % (TICK_ROWS * width) === 0) tick(r / runs);
      above = rowStart;
      aboveEnd = from === 0 ? 0 : r;
      rowStart = r;
    }
    const left = from - width - reach;
    const right = starts[r + 1]! - width + reach;
    while (above < aboveEnd && starts[above + 1]! <= left) above++;
    for (let a = above; a < aboveEnd && starts[a]! < right; a++) {
      if (!differs(data, starts[a]!, from, channels)) unite(parent, a, r);
    }
  }
  const isBackground =
    background === undefined
      ? undefined
      : (run: number) => isValue(data, starts[run]!, background, channels);
  return { ids: parent, count: numberRoots(parent, isBackground) };
}

function differs(data: Dense['data'], a: number, b: number, channels: number): boolean {
  for (let c = 0; c < channels; c++) {
    if (data[a * channels + c] !== data[b * channels + c]) return true;
  }
  return false;
}

function isValue(data: Dense['data'], at: number, value: number, channels: number): boolean {
  for (let c = 0; c < channels; c++) if (data[at * channels + c] !== value) return false;
  return true;
}
