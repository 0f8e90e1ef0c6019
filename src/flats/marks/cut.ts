import { checkFarPoint } from '../../polygon/rings-argument.ts';
import type { Point } from '../../raster/types.ts';
import { polylinePixels } from '../../runs/polyline.ts';
import { checkedPoints } from './geometry.ts';
import type { MarkType, NotedMark } from './mark-type.ts';

/** The regions that a line divides, with the ink for walls, become two or more. */
export interface CutMark extends NotedMark {
  /** Points of the line; parts outside the picture are left out. */
  readonly cut: readonly Point[];
}

export const cut: MarkType<CutMark> = {
  lays: false,
  reshapes: true,
  check: (value, name) => checkedPoints(value, name, checkFarPoint),
  points: () => [],
  move: (mark, to) => ({ ...mark, cut: mark.cut.map(to) }),
  act: (mark, acting) => {
    const { width, height } = acting.regions;
    if (acting.regions.cut(polylinePixels(mark.cut, width, height))) return;
    acting.note('the cut divides no region; draw it from ink to ink, or past it');
  },
};
