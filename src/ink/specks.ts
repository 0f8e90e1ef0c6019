import { maskArgument } from '../raster/arguments.ts';
import { checkNumber, checkOneOf, checkOptions } from '../raster/checks.ts';
import { outArgument, outResult } from '../raster/out.ts';
import { packMask } from '../raster/pack.ts';
import type { Connectivity, Mask, MaskLike, RasterView } from '../raster/types.ts';
import { findRuns } from '../runs/runs.ts';
import { componentAreas, connectRuns } from '../runs/union.ts';

/** What `removeSpecks` and `fillPinholes` take. */
export interface SmallPartOptions {
  /** Parts of so many pixels, a whole number >= 0, and smaller ones go. @default 8 */
  readonly maxArea?: number | undefined;
  /**
   * Which pixels make one part: those that share an edge, or corners too.
   * @default 8 for the ink of `removeSpecks`, 4 for the paper of `fillPinholes`
   */
  readonly connectivity?: Connectivity | undefined;
  /** A Uint8 raster `[w, h]` to write into. */
  readonly out?: RasterView<Uint8Array> | undefined;
}

/**
 * Removes specks: parts of the ink of at most `maxArea` pixels become paper.
 *
 * ```text
 * ink, maxArea: 2       8-connected           4-connected
 * 1 . . . 1 1           1 . . . . .           . . . . . .
 * . 1 . . . .           . 1 . . . .           . . . . . .
 * . . 1 . . .           . . 1 . . .           . . . . . .
 * ```
 *
 * Ink is 8-connected by default, so that a diagonal line one pixel wide is one part and no row of
 * specks. Parts at the picture's border go like any other. Near O(pixels); 12 bytes per run and 4
 * per part beside the result.
 *
 * @param mask - `[w, h]` of 0 or 1, 1 where ink is.
 * @returns Mask of the same shape.
 * @throws TypeError or RangeError for a raster that is no mask, or a bad option.
 * @example
 * ```ts
 * import { raster, removeSpecks } from 'underink';
 * const ink = raster(new Uint8Array([1, 0, 1, 1, 1, 1]), [6, 1]);
 * console.log([...removeSpecks(ink, { maxArea: 3 }).data].join(' ')); // 0 0 1 1 1 1
 * ```
 */
export function removeSpecks(mask: MaskLike, options?: SmallPartOptions): Mask {
  return withoutSmallParts(mask, options, 'removeSpecks', 1, 8);
}

/**
 * Fills pinholes: parts of the paper of at most `maxArea` pixels become ink.
 *
 * Paper is 4-connected by default, the dual of 8-connected ink: a pinhole does not leak through a
 * corner between two pixels of ink. Parts at the picture's border are filled like any other. Near
 * O(pixels); 12 bytes per run and 4 per part beside the result.
 *
 * @param mask - `[w, h]` of 0 or 1, 1 where ink is.
 * @returns Mask of the same shape.
 * @throws TypeError or RangeError for a raster that is no mask, or a bad option.
 * @example
 * ```ts
 * import { fillPinholes, raster } from 'underink';
 * const ink = raster(new Uint8Array([1, 0, 1, 0, 0, 0]), [6, 1]);
 * console.log([...fillPinholes(ink, { maxArea: 2 }).data].join(' ')); // 1 1 1 0 0 0
 * ```
 */
export function fillPinholes(mask: MaskLike, options?: SmallPartOptions): Mask {
  return withoutSmallParts(mask, options, 'fillPinholes', 0, 4);
}

function withoutSmallParts(
  mask: MaskLike,
  options: SmallPartOptions | undefined,
  call: string,
  of: 0 | 1,
  usual: Connectivity,
): Mask {
  const names = ['maxArea', 'connectivity', 'out'] as const;
  const { maxArea = 8, connectivity = usual, out } = checkOptions(options, call, names);
  checkNumber(maxArea, 'maxArea', { integer: true, unit: 'pixels' });
  checkOneOf(connectivity, 'connectivity', [4, 8]);
  const dense = maskArgument(mask, 'mask');
  const { width, height } = dense;
  const runs = findRuns(packMask(dense, 'mask'), of);
  const result = outArgument(out, Uint8Array, width, height, [mask.data]);
  result.set(dense.data);
  const parts = connectRuns(runs, connectivity);
  const areas = componentAreas(runs, parts);
  const { ids } = parts;
  const { rowStart, start, end } = runs;
  for (let y = 0; y < height; y++) {
    const row = y * width;
    const rowEnd = rowStart[y + 1]!;
    for (let r = rowStart[y]!; r < rowEnd; r++) {
      if (areas[ids[r]!]! <= maxArea) result.fill(1 - of, row + start[r]!, row + end[r]!);
    }
  }
  return outResult(out, result, width, height);
}
