import type { NdArray } from 'ndarray';
import { wrongKind, wrongValue } from './errors.ts';
import { raster } from './raster.ts';
import type { Owned, RasterData, RasterView } from './types.ts';

/**
 * The storage of an `out` option: dense, of exactly this shape and sample type, sharing no memory
 * with an input's `data` as the caller gave it. Without `out`, fresh storage.
 */
export function outArgument<D extends RasterData>(
  out: RasterView<D> | undefined,
  kind: { new (length: number): D; readonly name: string },
  width: number,
  height: number,
  inputs: readonly RasterData[],
): D {
  if (out === undefined) return new kind(width * height);
  const data = out?.data;
  if (!(data instanceof kind)) throw wrongKind('out', `a raster over a ${kind.name}`, data ?? out);
  const { shape, stride, offset } = out;
  const fits = shape?.length === 2 && shape[0] === width && shape[1] === height;
  if (!fits) throw wrongValue('out', `a raster of shape [${width}, ${height}]`, shape);
  const dense = (width === 1 || stride?.[0] === 1) && (height === 1 || stride?.[1] === width);
  const inside = Number.isInteger(offset) && offset >= 0 && offset + width * height <= data.length;
  if (!dense || stride?.length !== 2 || !inside) {
    throw wrongValue('out', 'dense and row-major', stride);
  }
  const storage = data.subarray(offset, offset + width * height) as D;
  if (inputs.some((input) => overlap(input, storage))) {
    throw new RangeError('out must share no memory with an input');
  }
  return storage;
}

/**
 * What a call returns for its `out`: `out` itself where it is an ndarray, an ndarray on its memory
 * where it is a plain view, a new one without it. `data` is what `outArgument` gave. Shared memory in
 * `out` is not told by the type.
 */
export function outResult<D extends RasterData>(
  out: RasterView | undefined,
  data: D,
  width: number,
  height: number,
): NdArray<Owned<D>> {
  return out !== undefined && 'get' in out
    ? (out as NdArray<Owned<D>>)
    : raster(data as Owned<D>, [width, height]);
}

/** Whether two arrays share memory. */
export function overlap(a: RasterData, b: RasterData): boolean {
  return (
    a.buffer === b.buffer &&
    a.byteOffset < b.byteOffset + b.byteLength &&
    b.byteOffset < a.byteOffset + a.byteLength
  );
}
