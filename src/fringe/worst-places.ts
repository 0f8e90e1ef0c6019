import type { Bounds, Point } from '../raster/types.ts';
import { numberRoots, unite } from '../runs/union.ts';

/** A connected component of blended pixels. */
export interface FringePlace {
  /** The center of its first pixel, row by row. */
  readonly at: Point;
  /** Pixels. */
  readonly count: number;
  /** `[x0, y0, x1, y1]`, half-open. */
  readonly bounds: Bounds;
}

/**
 * The largest 8-connected components of some pixels, most pixels first, ties in the order of their first
 * pixels. `pixels` are ascending. Near O(pixels), whatever the picture's size.
 */
export function worstPlaces(pixels: Int32Array, width: number, most: number): FringePlace[] {
  const parent = new Int32Array(pixels.length);
  for (let k = 0, above = 0; k < pixels.length; k++) {
    const i = pixels[k]!;
    const x = i % width;
    parent[k] = k;
    if (x > 0 && k > 0 && pixels[k - 1] === i - 1) unite(parent, k - 1, k);
    const from = i - width - (x > 0 ? 1 : 0);
    const to = i - width + (x < width - 1 ? 1 : 0);
    while (pixels[above]! < from) above++;
    for (let j = above; pixels[j]! <= to; j++) unite(parent, j, k);
  }
  const count = numberRoots(parent);
  const area = new Int32Array(count + 1);
  for (let k = 0; k < parent.length; k++) area[parent[k]!]!++;
  const order = Array.from({ length: count }, (_, k) => k + 1);
  order.sort((a, b) => area[b]! - area[a]! || a - b);
  const slot = new Int32Array(count + 1).fill(-1);
  const places = order.slice(0, most).map((label, k) => {
    slot[label] = k;
    return {
      at: [0, 0] as [number, number],
      count: area[label]!,
      bounds: [width, Number.POSITIVE_INFINITY, 0, 0] as Bounds,
    };
  });
  for (let k = 0; k < parent.length; k++) {
    const s = slot[parent[k]!]!;
    if (s < 0) continue;
    const { at, bounds } = places[s]!;
    const x = pixels[k]! % width;
    const y = (pixels[k]! - x) / width;
    if (bounds[2] === 0) {
      at[0] = x + 0.5;
      at[1] = y + 0.5;
    }
    if (x < bounds[0]) bounds[0] = x;
    if (y < bounds[1]) bounds[1] = y;
    if (x >= bounds[2]) bounds[2] = x + 1;
    if (y >= bounds[3]) bounds[3] = y + 1;
  }
  return places;
}
