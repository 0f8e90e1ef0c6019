import type { Point } from '../../raster/types.ts';
import { OPEN } from '../marked-map.ts';
import { checkedPoints, listPoints } from './geometry.ts';
import type { MarkType, NotedMark } from './mark-type.ts';

/** The regions under the points become one. No bridge is to separate them. */
export interface JoinMark extends NotedMark {
  readonly join: readonly Point[];
}

export const join: MarkType<JoinMark> = {
  lays: false,
  reshapes: true,
  check: (value, name) => checkedPoints(value, name),
  points: (mark) => listPoints('join', mark.join),
  move: (mark, to) => ({ ...mark, join: mark.join.map(to) }),
  fewest: 2,
  wish: (mark, wishes) => {
    wishes.together.push(mark.join);
  },
  act: (mark, acting) => {
    const { regions } = acting;
    const ids: number[] = [];
    let keeps = 0;
    for (const point of mark.join) {
      const [x, y] = [Math.floor(point[0]), Math.floor(point[1])];
      if (x < 0 || y < 0 || x >= regions.width || y >= regions.height) continue;
      const region = acting.regionAt(point);
      if (region === 0) continue;
      ids.push(region);
      const has = regions.swatch(region);
      if (has === OPEN) continue;
      if (keeps === 0) keeps = region;
      else if (has !== regions.swatch(keeps)) acting.conflict(point, has, keeps);
    }
    if (ids.length > 0) regions.merge(ids, keeps === 0 ? ids[0]! : keeps);
  },
};
