import type { Point } from '../../raster/types.ts';
import { checkedPoint } from './geometry.ts';
import type { LayingMark, MarkType } from './mark-type.ts';

/**
 * What is bare round a point gets a swatch; with `over` on what is laid, the patch of one swatch
 * round the point does. Keeps no gap closed: a fill acts on what stands when its turn comes.
 */
export interface FillMark extends LayingMark {
  readonly fill: Point;
}

export const fill: MarkType<FillMark> = {
  lays: true,
  reshapes: false,
  check: checkedPoint,
  points: (mark) => [{ path: 'fill', point: mark.fill }],
  move: (mark, to) => ({ ...mark, fill: to(mark.fill) }),
  wish: (mark, wishes) => {
    wishes.kept.push(mark.fill);
  },
  act: (mark, acting) => acting.layAt(mark.fill, mark.swatch, mark.over === true, true),
};
