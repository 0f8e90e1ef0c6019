import type { RasterData } from '../raster/types.ts';

/** Shorter spans are written faster by a loop: `fill` has a fixed cost per call. */
const FILL_FROM = 24;

/** Writes one value over the samples `[from, to)`. */
export function fillSpan(data: RasterData, value: number, from: number, to: number): void {
  if (to - from >= FILL_FROM) data.fill(value, from, to);
  else for (let i = from; i < to; i++) data[i] = value;
}
