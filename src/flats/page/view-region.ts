import { outlineRegions } from '../../polygon/outline.ts';
import { raster } from '../../raster/raster.ts';
import type { Bounds, Mask, Point } from '../../raster/types.ts';

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

/** The rings of a region, as `outlineRegions` gives them for the whole. O(pixels of the mask). */
export function outlineOf({ mask, bounds }: RegionMask): Point[][] {
  const [x0, y0] = bounds;
  const own = raster(Int32Array.from(mask.data), mask.shape);
  const rings = outlineRegions(own).flatMap((outline) => outline.rings);
  return rings.map((ring) => ring.map(([x, y]): Point => [x + x0, y + y0]));
}
