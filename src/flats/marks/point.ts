import type { Point } from '../../raster/types.ts';
import { checkedPoint } from './geometry.ts';
import type { LayingMark, MarkType } from './mark-type.ts';

/**
 * The region under a point gets a swatch. Points of different swatches, if they are not `over`,
 * enter gap closing: their regions are to be kept apart.
 */
export interface PointMark extends LayingMark {
  readonly point: Point;
}

export const point: MarkType<PointMark> = {
  lays: true,
  reshapes: false,
  check: checkedPoint,
  points: (mark) => [{ path: 'point', point: mark.point }],
  move: (mark, to) => ({ ...mark, point: to(mark.point) }),
  wish: (mark, wishes) => {
    if (mark.over === true) wishes.kept.push(mark.point);
    else wishes.keepApart(mark.swatch, mark.point);
  },
  act: (mark, acting) => acting.layAt(mark.point, mark.swatch, mark.over === true, false),
};
