import type { Swatch } from '../palette/types.ts';
import type { Point } from '../raster/types.ts';

/** What every mark may hold. */
export interface NotedMark {
  /** A text for people. */
  readonly note?: string;
}

/** What every mark that lays color holds. */
export interface LayingMark extends NotedMark {
  /** Name of a swatch of the plan's palette. */
  readonly swatch: string;
  /** Whether the mark may cover what is laid. @default false */
  readonly over?: boolean;
}

/**
 * The region under a point gets a swatch. Points of different swatches, if they are not `over`,
 * enter gap closing: their regions are to be kept apart.
 */
export interface PointMark extends LayingMark {
  readonly point: Point;
}

/** Pixels inside a polygon get a swatch, where nothing is laid yet or the mark is `over`. */
export interface PolygonMark extends LayingMark {
  /** Rings of points, each closed by itself, even-odd; parts outside the picture are left out. */
  readonly polygon: readonly (readonly Point[])[];
}

/**
 * What is bare round a point gets a swatch; with `over` on what is laid, the patch of one swatch
 * round the point does. Says nothing to gap closing: a fill acts on what stands when its turn comes.
 */
export interface FillMark extends LayingMark {
  readonly fill: Point;
}

/** The regions that a line divides, with the ink for walls, become two or more. */
export interface CutMark extends NotedMark {
  /** Points of the line; parts outside the picture are left out. */
  readonly cut: readonly Point[];
}

/** The regions under the points become one. No bridge is to separate them. */
export interface JoinMark extends NotedMark {
  readonly join: readonly Point[];
}

/** A gap between two points that is closed, however unlikely it looks. */
export interface BridgeMark extends NotedMark {
  readonly bridge: readonly [Point, Point];
}

/** A gap between two points that stays open, however likely a bridge there looks. */
export interface OpenMark extends NotedMark {
  readonly open: readonly [Point, Point];
}

/**
 * One decision of a person. Coordinates are continuous; the pixel of a point is the floor of its
 * coordinates.
 */
export type Mark = PointMark | PolygonMark | FillMark | CutMark | JoinMark | BridgeMark | OpenMark;

/**
 * A person's decisions as plain data, applied again to any revision of a drawing. The package holds
 * a JSON Schema of it, `underink/plan.schema.json`.
 */
export interface Plan {
  readonly version: 1;
  /** `[width, height]` of the drawing that the plan was made for, in pixels. */
  readonly size: readonly [number, number];
  /** Swatches to lay; `bare` is reserved. */
  readonly palette: readonly Swatch[];
  /** Marks act in order. */
  readonly marks: readonly Mark[];
}

/** Whether a mark may change the regions themselves, beside their swatches. */
export function mayChangeRegions(mark: Mark): boolean {
  return !('point' in mark || 'fill' in mark);
}

/** The single points of a mark that must lie in the picture, with their path within the mark. */
export function pointsOf(mark: Mark): { path: string; point: Point }[] {
  if ('point' in mark) return [{ path: 'point', point: mark.point }];
  if ('fill' in mark) return [{ path: 'fill', point: mark.fill }];
  if ('polygon' in mark || 'cut' in mark) return [];
  const kind = 'join' in mark ? 'join' : 'bridge' in mark ? 'bridge' : 'open';
  const points = 'join' in mark ? mark.join : 'bridge' in mark ? mark.bridge : mark.open;
  return points.map((point, i) => ({ path: `${kind}[${i}]`, point }));
}
