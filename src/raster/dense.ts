import ndarray from 'ndarray';
import ops from 'ndarray-ops';
import { checkRaster, type RasterKind } from './check-raster.ts';
import type { Dense, RasterData, RasterLike } from './types.ts';

/**
 * Checks a raster argument; gives its samples dense and row-major. Dense storage is shared, not
 * copied; any other view (strided, flipped, transposed) is copied once. O(samples) at most.
 */
export function toDense<D extends RasterData>(
  value: RasterLike<D>,
  name: string,
  kind: RasterKind<D>,
): Dense<D> {
  const { data, width, height, channels, strides, offset } = checkRaster(value, name, kind);
  const size = width * height * channels;
  const isDense =
    (width === 1 || strides[0] === channels) &&
    (height === 1 || strides[1] === channels * width) &&
    (channels === 1 || strides[2] === 1);
  if (isDense) {
    const whole = offset === 0 && data.length === size;
    return {
      data: whole ? data : (data.subarray(offset, offset + size) as D),
      width,
      height,
      channels,
    };
  }
  // A Node Buffer is a Uint8Array whose own constructor is not to be called.
  const Kind = kind.kinds.find((k) => data instanceof k) ?? data.constructor;
  const dense = new (Kind as new (length: number) => D)(size);
  copyView(dense, data, [width, height, channels], strides, offset);
  return { data: dense, width, height, channels };
}

let refused = false;

/** Row-major copy of a strided view, by ndarray-ops; by a plain loop where generated code is refused. */
function copyView<D extends RasterData>(
  dense: D,
  data: D,
  shape: [number, number, number],
  stride: readonly [number, number, number],
  offset: number,
): void {
  const [width, height, channels] = shape;
  if (!refused) {
    try {
      const to = ndarray(dense, shape, [channels, channels * width, 1]);
      ops.assign(to, ndarray(data, shape, [...stride], offset));
      return;
    } catch (error) {
      if (!(error instanceof EvalError)) throw error;
      refused = true;
    }
  }
  const [sx, sy, sc] = stride;
  let i = 0;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = offset + y * sy + x * sx;
      for (let c = 0; c < channels; c++) dense[i++] = data[at + c * sc]!;
    }
  }
}
