import { checkRings } from '../../polygon/rings-argument.ts';
import type { Point } from '../../raster/types.ts';
import { OPEN } from '../marked-map.ts';
import { copyPoint } from './geometry.ts';
import type { LayingMark, MarkType } from './mark-type.ts';

/** Pixels inside a polygon get a swatch, where nothing is laid yet or the mark is `over`. */
export interface PolygonMark extends LayingMark {
  /** Rings of points, each closed by itself, even-odd; parts outside the picture are left out. */
  readonly polygon: readonly (readonly Point[])[];
}

export const polygon: MarkType<PolygonMark> = {
  lays: true,
  reshapes: true,
  check: (value, name) => checkRings(value, name).map((ring) => ring.map(copyPoint)),
  points: () => [],
  move: (mark, to) => ({ ...mark, polygon: mark.polygon.map((ring) => ring.map(to)) }),
  act: (mark, acting) => {
    const index = acting.indexOf(mark.swatch);
    const mayTake = (has: number): boolean => mark.over === true || has === OPEN;
    const took = acting.regions.take(mark.polygon, index, acting.mark, mayTake);
    if (took === 'empty') acting.note('the polygon holds no pixel of the picture');
    else if (took === 'kept out') acting.note('everything inside the polygon is laid already');
  },
};
