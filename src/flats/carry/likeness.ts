import type { Sides } from './sides.ts';
import { inverse, movePoint, type Similarity, scaleOf, through } from './similarity.ts';

/** Regions of one picture with what says where they are. */
export interface PlacedIds extends Sides {
  readonly ids: Int32Array;
  /** What of them is no paper; left out where ids are 0 there. */
  readonly walls?: Uint8Array;
  /** Pixels by id. */
  readonly area: ArrayLike<number>;
  /** `[x0, y0, x1, y1]` by id. */
  readonly bounds: Int32Array;
  /** Mean of the pixel centers by id. */
  readonly centroid: Float64Array;
}

/** How far a region may have strayed beyond half its own width, in pixels of the old picture. */
const ASIDE = 16;

/**
 * How much of both their paper two regions share when the transform is shifted so that their centers
 * lie on each other: intersection over union. 0 where the shift is long. O(pixels of the bounds).
 */
export function likenessOf(
  now: PlacedIds,
  then: PlacedIds,
  transform: Similarity,
): (id: number, old: number) => number {
  const scale = scaleOf(transform);
  const { ids, walls } = now;
  return (id, old) => {
    const [oldArea, area] = [then.area[old]! * scale * scale, now.area[id]!];
    if (oldArea > 2 * area || area > 2 * oldArea) return 0;
    const from = [then.centroid[2 * old]!, then.centroid[2 * old + 1]!] as const;
    const to = [now.centroid[2 * id]!, now.centroid[2 * id + 1]!] as const;
    const [x, y] = movePoint(transform, from);
    const [x0, y0, x1, y1] = now.bounds.subarray(4 * id, 4 * id + 4);
    const reach = ASIDE * scale + Math.min(x1! - x0!, y1! - y0!) / 2;
    if ((x - to[0]) * (x - to[0]) + (y - to[1]) * (y - to[1]) > reach * reach) return 0;
    const back = inverse(through(transform, from, to));
    let common = 0;
    for (let v = y0!; v < y1!; v++) {
      for (let u = x0!; u < x1!; u++) {
        const p = v * now.width + u;
        if (ids[p] !== id || walls?.[p] === 1) continue;
        const [i, j] = movePoint(back, [u + 0.5, v + 0.5]);
        if (i < 0 || j < 0 || i >= then.width || j >= then.height) continue;
        if (then.ids[Math.floor(j) * then.width + Math.floor(i)] === old) common++;
      }
    }
    return common / (area + oldArea - common);
  };
}
