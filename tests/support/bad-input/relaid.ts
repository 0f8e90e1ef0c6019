import type { NdArray } from 'ndarray';
import type { RasterData } from '../../../src/raster/index.ts';
import { type Layout, relaidRaster } from '../grids.ts';

/** Arguments whose rasters are views of other memory with the same samples; `out` is left as it is. */
export function relaid(value: unknown, layout: Layout): unknown {
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return value;
  if (Array.isArray(value)) return value.map((own) => relaid(own, layout));
  if ('data' in value && 'shape' in value && 'stride' in value) {
    return relaidRaster(value as NdArray<RasterData>, layout);
  }
  if (Object.getPrototypeOf(value) !== Object.prototype) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, own]) => [key, key === 'out' ? own : relaid(own, layout)]),
  );
}
