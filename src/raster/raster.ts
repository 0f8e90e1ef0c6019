import type { NdArray } from 'ndarray';
import { wrongKind, wrongValue } from './errors.ts';
import { NdView } from './nd-view.ts';
import type { RasterData } from './types.ts';

/**
 * A row-major view of `data`: shape `[width, height]` (stride `[1, w]`) or
 * `[width, height, channels]` (stride `[c, c·w, 1]`), offset 0. Nothing is copied.
 *
 * ```text
 * raster([a b c d e f], [3, 2])      x → 0 1 2
 *                                y 0     a b c
 *                                  1     d e f     r.get(2, 1) is f
 * ```
 *
 * A bare `ndarray(data, [w, h])` would be column-major. The view has all that an ndarray has (`get`,
 * `set`, `lo`, `hi`, `step`, `transpose`, `pick`, …) and generates no code, as ndarray does.
 *
 * @param data - Samples, at least as many as the shape asks for.
 * @param shape - `[w, h]` or `[w, h, c]`, whole numbers of at least 1.
 * @returns The view. O(1).
 * @throws TypeError when `data` is no typed array, RangeError for a bad shape or too few samples.
 * @example
 * ```ts
 * import { raster } from 'underink';
 * const r = raster(new Uint8Array([1, 2, 3, 4, 5, 6]), [3, 2]);
 * console.log(r.get(2, 1)); // 6
 * ```
 */
export function raster<D extends RasterData>(data: D, shape: readonly number[]): NdArray<D> {
  if (!ArrayBuffer.isView(data) || data instanceof DataView) {
    throw wrongKind('data', 'a typed array', data);
  }
  if (!Array.isArray(shape) || (shape.length !== 2 && shape.length !== 3)) {
    throw wrongKind('shape', '[width, height] or [width, height, channels]', shape);
  }
  if (![...shape].every((side) => Number.isInteger(side) && side >= 1)) {
    throw wrongValue('shape', 'whole numbers >= 1', shape);
  }
  const [w = 1, h = 1, c = 1] = shape as number[];
  if (w * h * c > data.length) {
    throw wrongValue('data', `at least ${w * h * c} samples for shape [${shape}]`, data);
  }
  const stride = shape.length === 2 ? [1, w] : [c, c * w, 1];
  return viewOf(data, [...shape], stride, 0);
}

/** A view, typed as the ndarray that it is to all who take one. */
export function viewOf<D extends RasterData>(
  data: D,
  shape: number[],
  stride: number[],
  offset: number,
): NdArray<D> {
  return new NdView(data, shape, stride, offset) as unknown as NdArray<D>;
}
