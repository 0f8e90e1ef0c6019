import type { CheckException } from '../../palette/exceptions.ts';
import { pixelCenter } from '../../raster/pixel-center.ts';
import type { Dense, Point } from '../../raster/types.ts';
import { type Mark, typeOf } from '../marks/table.ts';
import { nearestInk } from './nearest-ink.ts';
import { movePoint, type Similarity, scaleOf } from './similarity.ts';

/** A mark that has nothing to act on in the new picture, as it was. */
export interface AsideMark {
  readonly mark: Mark;
  /** Its place in the old plan. */
  readonly index: number;
  readonly why: string;
}

/** Where marks stood, and where they may stand. */
export interface Ground {
  readonly transform: Similarity;
  readonly from: Dense<Uint8Array>;
  readonly to: Dense<Uint8Array>;
  /** Old region under a point, grown under the ink; 0 for none. */
  readonly regionAt: (point: Point) => number;
  /** Swatches of the old regions that marks have named. */
  readonly named: ReadonlyMap<number, string>;
  /** Old region that a pixel of the new picture shows, 0 for none. */
  readonly seenAt: (pixel: number) => number;
  /** Pixel of the new picture at the widest place of an old region, -1 for none. */
  readonly centerOf: (old: number) => number;
  /** How far from its place ink is looked for, in pixels of the new picture. */
  readonly reach: number;
}

/** A mark on the new picture, or why it has none there. */
export type MovedMark = { readonly mark: Mark } | { readonly why: string };

/**
 * Moves a mark. Points that say a region stay in it: where the transform takes them, or at its widest
 * place; one that a later mark has covered follows the transform. The ends of a gap, and those of a cut that stood on ink, go to the ink nearest to where the
 * transform takes them. Polygons follow the transform.
 */
export function moveMark(mark: Mark, ground: Ground): MovedMark {
  let why: string | undefined;
  const to = (point: Point): Point => movePoint(ground.transform, point);
  const inRegion = (point: Point): Point => {
    const moved = placeInRegion(point, ground, 'point' in mark ? mark.swatch : undefined);
    if (moved === undefined) why = 'its region is gone';
    return moved ?? point;
  };
  const onInk = (point: Point): Point => {
    const moved = nearestInk(ground.to, to(point), ground.reach);
    if (moved === undefined) why = 'there is no ink where it ended';
    return moved ?? point;
  };
  const isGap = 'bridge' in mark || 'open' in mark;
  const step = isGap ? onInk : 'point' in mark || 'fill' in mark || 'join' in mark ? inRegion : to;
  let moved = typeOf(mark).move(mark, step);
  if ('cut' in moved && 'cut' in mark)
    moved = { ...moved, cut: endsOnInk(mark.cut, moved.cut, ground) };
  return why === undefined ? { mark: moved } : { why };
}

function placeInRegion(point: Point, ground: Ground, swatch?: string): Point | undefined {
  const { transform, to, regionAt, named, seenAt, centerOf } = ground;
  const old = regionAt(point);
  const moved = movePoint(transform, point);
  const [x, y] = moved;
  const isInside = x >= 0 && y >= 0 && x < to.width && y < to.height;
  const isCovered = swatch !== undefined && named.get(old) !== swatch;
  if (old === 0 || isCovered) return isInside ? moved : undefined;
  if (isInside && seenAt(pixelOf(moved, to)) === old) return moved;
  const center = centerOf(old);
  if (center < 0) return undefined;
  return pixelCenter(center, to.width);
}

function endsOnInk(was: readonly Point[], now: readonly Point[], ground: Ground): Point[] {
  const { from, to, reach } = ground;
  const last = now.length - 1;
  return now.map((point, i) => {
    const isEnd = i === 0 || i === last;
    if (!isEnd || from.data[pixelOf(was[i]!, from)] !== 1) return point;
    return nearestInk(to, point, reach) ?? point;
  });
}

/** Index of the pixel of a point; -1 outside. */
export function pixelOf([x, y]: Point, { width, height }: Dense<Uint8Array>): number {
  if (x < 0 || y < 0 || x >= width || y >= height) return -1;
  return Math.floor(y) * width + Math.floor(x);
}

/** An exception whose place and bounds follow a transform; bounds grow to whole pixels. */
export function moveException(
  { bounds, at, ...others }: CheckException,
  transform: Similarity,
): CheckException {
  const rest = at === undefined ? others : { ...others, at: movePoint(transform, at) };
  if (bounds === undefined) return rest;
  const [x0, y0, x1, y1] = bounds;
  const corners = [
    [x0, y0],
    [x1, y0],
    [x0, y1],
    [x1, y1],
  ] as const;
  const moved = corners.map((corner) => movePoint(transform, corner));
  const [xs, ys] = [moved.map(([x]) => x), moved.map(([, y]) => y)];
  const [left, top] = [Math.floor(Math.min(...xs)), Math.floor(Math.min(...ys))];
  return { ...rest, bounds: [left, top, Math.ceil(Math.max(...xs)), Math.ceil(Math.max(...ys))] };
}

/** How far ink is looked for: as far as a line may be moved, 12 pixels of the old picture. */
export function reachOf(transform: Similarity): number {
  return 12 * Math.max(1, scaleOf(transform));
}
