import { rasterArgument } from './arguments.ts';
import type { Bounds, Dense, RasterLike, RasterView } from './types.ts';

/** A raster that a call changes, as its kernel sees it. */
export interface Target {
  /** The raster's own memory where it is dense, else a copy. */
  readonly dense: Dense;
  /** Brings what the kernel changed within the bounds into the raster. */
  commit(bounds: Bounds | null): void;
}

/** A raster argument that is to be written. */
export function targetArgument(value: RasterLike, name: string): Target {
  const dense = rasterArgument(value, name);
  const own = value.data.buffer === dense.data.buffer;
  return {
    dense,
    commit: (bounds) => {
      if (!own && bounds !== null) writeBack(dense, value as RasterView, bounds);
    },
  };
}

/** Copies the samples within the bounds into a strided view. */
function writeBack(
  { data, width, channels }: Dense,
  view: RasterView,
  [x0, y0, x1, y1]: Bounds,
): void {
  const [strideX, strideY, strideC = 0] = view.stride;
  for (let y = y0; y < y1; y++) {
    for (let x = x0; x < x1; x++) {
      for (let c = 0; c < channels; c++) {
        const to = view.offset + x * strideX! + y * strideY! + c * strideC;
        view.data[to] = data[(y * width + x) * channels + c]!;
      }
    }
  }
}
