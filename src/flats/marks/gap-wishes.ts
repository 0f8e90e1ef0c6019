import type { Gap } from '../../gaps/asked.ts';
import type { Point } from '../../raster/types.ts';

/** What marks ask of gap closing. */
export class GapWishes {
  /** Points of different swatches, by swatch: their regions are to be kept apart. */
  readonly apart: Map<string, Point[]> = new Map();
  readonly together: (readonly Point[])[] = [];
  /** Points that name a region when their turn comes: no other claims it before. */
  readonly kept: Point[] = [];
  readonly bridge: Gap[] = [];
  readonly open: Gap[] = [];

  keepApart(swatch: string, point: Point): void {
    const group = this.apart.get(swatch);
    if (group === undefined) this.apart.set(swatch, [point]);
    else group.push(point);
  }
}
