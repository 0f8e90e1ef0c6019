import { indexStorage } from '../palette/flats-argument.ts';
import type { Flats } from '../palette/types.ts';
import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import { fillSpan } from '../runs/fill-span.ts';
import type { Assignment } from './assign.ts';

/** Flats of labeled regions: each pixel has its region's index. O(pixels). */
export function paintRegions(
  labels: Int32Array,
  width: number,
  height: number,
  { palette, indexOf, ground }: Assignment,
  tick?: Tick,
): Flats {
  const data = indexStorage(labels.length, palette.length);
  const rows = TICK_ROWS * width;
  for (let from = 0; from < labels.length; from += rows) {
    tick?.(from / labels.length);
    const to = Math.min(labels.length, from + rows);
    for (let i = from; i < to; ) {
      const label = labels[i]!;
      const start = i;
      do i++;
      while (i < to && labels[i] === label);
      fillSpan(data, indexOf[label]!, start, i);
    }
  }
  const flats = { indices: raster(data, [width, height]), palette };
  return ground === undefined ? flats : { ...flats, ground };
}
