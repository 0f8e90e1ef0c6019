import { type BridgeMark, bridge } from './bridge.ts';
import { type CutMark, cut } from './cut.ts';
import { type FillMark, fill } from './fill.ts';
import { type JoinMark, join } from './join.ts';
import type { MarkType } from './mark-type.ts';
import { type OpenMark, open } from './open.ts';
import { type PointMark, point } from './point.ts';
import { type PolygonMark, polygon } from './polygon.ts';

/** The types of marks, each by the field that holds its geometry. A new type: a file and a line. */
interface Marks {
  point: PointMark;
  polygon: PolygonMark;
  fill: FillMark;
  cut: CutMark;
  join: JoinMark;
  bridge: BridgeMark;
  open: OpenMark;
}

const TYPES: { readonly [K in MarkKind]: MarkType<Marks[K]> } = {
  point,
  polygon,
  fill,
  cut,
  join,
  bridge,
  open,
};

/** The field that says of which type a mark is. */
export type MarkKind = keyof Marks;

/**
 * One decision of a person. Coordinates are continuous; the pixel of a point is the floor of its
 * coordinates.
 */
export type Mark = Marks[MarkKind];

export const KINDS: readonly MarkKind[] = Object.keys(TYPES) as MarkKind[];

export function markType(kind: MarkKind): MarkType<Mark> {
  return TYPES[kind] as MarkType<Mark>;
}

/** The type of a checked mark. */
export function typeOf(mark: Mark): MarkType<Mark> {
  return markType(KINDS.find((kind) => kind in mark)!);
}
