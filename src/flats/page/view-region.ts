import { outlineOfRuns } from '../../polygon/outline-runs.ts';
import { raster } from '../../raster/raster.ts';
import type { Bounds, Mask, Point } from '../../raster/types.ts';
import { placeIn } from './label-rows.ts';
import type { NumberedRows } from './match-regions.ts';
import { RunList } from './run-lists.ts';

/** The pixels of one region. */
export interface RegionMask {
  /** Of the size of the bounds: 1 where a pixel is the region's. */
  readonly mask: Mask;
  /** Where the mask lies, half-open. */
  readonly bounds: Bounds;
  /** Pixels. */
  readonly area: number;
}

/** The mask of a label within bounds that hold all of it. O(pixels of the bounds). */
export function maskOf(labels: Int32Array, width: number, id: number, bounds: Bounds): RegionMask {
  const [x0, y0, x1, y1] = bounds;
  const mask = new Uint8Array((x1 - x0) * (y1 - y0));
  let area = 0;
  for (let y = y0, k = 0; y < y1; y++) {
    for (let p = y * width + x0; p < y * width + x1; p++, k++) {
      if (labels[p] !== id) continue;
      mask[k] = 1;
      area++;
    }
  }
  return { mask: raster(mask, [x1 - x0, y1 - y0]), bounds, area };
}

/**
 * The rings of a region within bounds that hold all of it, as `outlineRegions` gives them for the
 * whole. O(runs of the bounds).
 */
export function outlineOf(
  { rows, ids }: NumberedRows,
  width: number,
  id: number,
  [x0, y0, x1, y1]: Readonly<Bounds>,
): Point[][] {
  const runs = new RunList();
  for (let y = y0; y < y1; y++) {
    const row = rows[y]!;
    for (let k = placeIn(row, x0); k < row.length && row[k]! < x1; k += 2) {
      if (ids[row[k + 1]!] === id) runs.put(row[k]!, row[k + 2] ?? width);
    }
    runs.endRow();
  }
  return outlineOfRuns(runs.finish(), y0);
}
