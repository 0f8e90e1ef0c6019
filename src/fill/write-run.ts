import type { RasterData } from '../raster/types.ts';

/** Shorter runs are written faster by a loop than by a call of `fill`. */
const FILL_FROM = 48;

/** Writes one value into the samples `[from, to)`. */
export function writeRun(data: RasterData, value: number, from: number, to: number): void {
  if (to - from >= FILL_FROM) data.fill(value, from, to);
  else for (let i = from; i < to; i++) data[i] = value;
}
