import type { Flats } from '../palette/types.ts';
import { TICK_PIXELS, type Tick } from '../raster/progress.ts';

/** 1 for the places in the palette that a pixel has. O(pixels). */
export function usedIndices({ indices, palette }: Flats, tick?: Tick): Uint8Array {
  const { data } = indices;
  const isUsed = new Uint8Array(palette.length);
  for (let i = 0; i < data.length; i++) {
    if (tick !== undefined && i % TICK_PIXELS === 0) tick(i / data.length);
    isUsed[data[i]!] = 1;
  }
  return isUsed;
}
