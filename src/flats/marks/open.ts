import type { Point } from '../../raster/types.ts';
import { OPEN } from '../marked-map.ts';
import { checkedGap, listPoints } from './geometry.ts';
import type { MarkType, NotedMark } from './mark-type.ts';

/** A gap between two points that stays open, however likely a bridge there looks. */
export interface OpenMark extends NotedMark {
  readonly open: readonly [Point, Point];
}

export const open: MarkType<OpenMark> = {
  lays: false,
  reshapes: true,
  ofGap: true,
  check: checkedGap,
  points: (mark) => listPoints('open', mark.open),
  move: (mark, to) => ({ ...mark, open: [to(mark.open[0]), to(mark.open[1])] }),
  wish: (mark, wishes) => {
    wishes.open.push(mark.open);
  },
  /** Joins the regions that meet at the middle of a closed gap; the swatch that came first stays. */
  act: (mark, acting) => {
    const { regions } = acting;
    const [[x0, y0], [x1, y1]] = mark.open;
    const length = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
    const [ux, uy] = length === 0 ? [1, 0] : [(x1 - x0) / length, (y1 - y0) / length];
    const pointAt = (t: number): Point => [(x0 + x1) / 2 - t * uy, (y0 + y1) / 2 + t * ux];
    const side = (t: number): number => {
      const [x, y] = pointAt(t).map(Math.floor) as [number, number];
      return x < 0 || y < 0 || x >= regions.width || y >= regions.height ? 0 : regions.at(x, y);
    };
    for (let t = 1; t <= Math.max(4, length); t++) {
      const [a, b] = [side(t), side(-t)];
      if (a === 0 || b === 0 || a === b) continue;
      const [hasA, hasB] = [regions.swatch(a), regions.swatch(b)];
      const bKeeps = hasA === OPEN || (hasB !== OPEN && regions.laidBy(b) < regions.laidBy(a));
      const [keeps, other] = bKeeps ? [b, a] : [a, b];
      if (hasA !== OPEN && hasB !== OPEN && hasA !== hasB) {
        acting.conflict(pointAt(bKeeps ? t : -t), regions.swatch(other), keeps);
      }
      regions.merge(regions.name(a) < regions.name(b) ? [a, b] : [b, a], keeps);
      return;
    }
    acting.note('no two regions meet between the points');
  },
};
