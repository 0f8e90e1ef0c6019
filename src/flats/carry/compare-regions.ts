import { pixelCenter } from '../../raster/pixel-center.ts';
import { partOf, TICK_ROWS, type Tick } from '../../raster/progress.ts';
import type { Dense, Point } from '../../raster/types.ts';
import { type InscribedDiscs, inscribedDiscs } from '../../regions/inscribed.ts';
import { measureSpans } from '../../regions/measure.ts';
import { cutLengths } from './cut-lengths.ts';
import { measureInk } from './ink-in-common.ts';
import { joinParts } from './join-parts.ts';
import { likenessOf, type PlacedIds } from './likeness.ts';
import type { LookBack } from './look-back.ts';
import { type Matches, matchRegions } from './match-regions.ts';
import { type Overlaps, overlapsOf } from './overlaps.ts';
import { partAtSeams } from './part-at-seams.ts';
import { rowInside } from './row-inside.ts';
import type { Sides } from './sides.ts';
import { type Similarity, scaleOf } from './similarity.ts';

/** The paper of the old picture's regions. */
export interface OldRegions extends PlacedIds {
  readonly discs: InscribedDiscs;
}

/** Places and widest discs of ids below `length` that are 0 on ink. O(pixels). */
export function oldRegions(
  ids: Int32Array,
  width: number,
  height: number,
  length: number,
  tick?: Tick,
): OldRegions {
  const spans = measureSpans(ids, width, height, length, partOf(tick, 0, 0.4));
  const discs = inscribedDiscs(ids, width, height, length, undefined, partOf(tick, 0.4, 1));
  return { ids, width, height, ...spans, discs };
}

/** Of its old radius, the widest disc of a region must keep so much, for its point to be evidence. */
const STAYS = 0.5;

/** A point for each old region that is still there, at the widest place of what shows it. */
export function stayingPoints(
  { discs: { square } }: OldRegions,
  seen: LookBack,
  transform: Similarity,
  tick?: Tick,
): { id: number; point: Point }[] {
  const { width, height } = seen;
  const shown = seen.raster(partOf(tick, 0, 0.3));
  const rest = partOf(tick, 0.3, 1);
  const now = inscribedDiscs(shown, width, height, square.length, undefined, rest);
  const least = STAYS * STAYS * scaleOf(transform) * scaleOf(transform);
  const points: { id: number; point: Point }[] = [];
  for (let id = 1; id < square.length; id++) {
    const p = now.center[id]!;
    if (p < 0 || now.square[id]! < least * square[id]!) continue;
    points.push({ id, point: pixelCenter(p, width) });
  }
  return points;
}

export interface Comparison {
  /** New regions; changed where seams are kept. */
  readonly labels: Int32Array;
  /** One past the highest id. */
  readonly count: number;
  /** The new ink. */
  readonly ink: Dense<Uint8Array>;
  /** With its gaps closed: what of the regions is no paper. */
  readonly walls: Uint8Array;
  readonly seen: LookBack;
  readonly old: OldRegions;
  readonly transform: Similarity;
  /**
   * Whether two old regions that share a new one may be parted again. Left out, regions stay as they
   * are; else those that only a bridge parts within an old one are joined, too.
   */
  readonly mayPart?: (a: number, b: number) => boolean;
  readonly tick?: Tick | undefined;
}

export interface ComparedRegions {
  readonly overlaps: Overlaps;
  readonly matches: Matches;
  /** Widest discs of the new regions, on their paper. */
  readonly discs: InscribedDiscs;
  /** How long the longest cut is that parts each new region from another of the same old one. */
  readonly cuts: Int32Array;
  /** Mean stroke width of the new ink. */
  readonly stroke: number;
  /** Old regions that reach beyond the new picture. */
  readonly cropped: ReadonlySet<number>;
}

/** Of its paper, a region that does not reach beyond the new picture has more than so much in it. */
const WHOLE = 0.95;

/** Matches the regions of two pictures, and keeps the seams between old ones that now share one. */
export function compareRegions(comparison: Comparison): ComparedRegions {
  const { tick, mayPart, ink, old, transform } = comparison;
  const { stroke } = measureInk(ink);
  const { labels, walls } = comparison;
  const { width, height } = ink;
  const inside = areasInside(old, ink, transform, partOf(tick, 0, 0.1));
  let compared = compareAs(comparison, comparison.count, inside, partOf(tick, 0.1, 0.4));
  if (mayPart !== undefined) {
    const seams = partOf(tick, 0.4, 0.5);
    const count = partAtSeams(comparison, compared, stroke, mayPart, seams);
    if (count > comparison.count)
      compared = compareAs(comparison, count, inside, partOf(tick, 0.5, 0.6));
    const matched = compared.matches.old;
    if (joinParts(labels, ink.data, width, matched, partOf(tick, 0.6, 0.7))) {
      compared = compareAs(comparison, matched.length, inside, partOf(tick, 0.7, 0.8));
    }
  }
  const length = compared.matches.old.length;
  const discs = inscribedDiscs(labels, width, height, length, walls, partOf(tick, 0.8, 0.95));
  const { overlaps, matches } = compared;
  const cuts = cutLengths(labels, width, matches.old, old, transform, partOf(tick, 0.95, 1));
  const square = scaleOf(transform) * scaleOf(transform);
  const cropped = new Set<number>();
  for (let id = 1; id < old.area.length; id++) {
    if (overlaps.oldArea[id]! < WHOLE * square * old.area[id]!) cropped.add(id);
  }
  return { overlaps, matches, discs, cuts, stroke, cropped };
}

/** What is known of both before seams are kept. */
export type Compared = Pick<ComparedRegions, 'overlaps' | 'matches'>;

function compareAs(
  { labels, walls, seen, old, transform }: Comparison,
  count: number,
  oldArea: Float64Array,
  tick: Tick | undefined,
): Compared {
  const { width, height } = seen;
  const readSeen = (y: number, into: Int32Array): void => seen.readRow(y, into);
  const overlaps = overlapsOf(labels, walls, width, count, readSeen, oldArea, partOf(tick, 0, 0.8));
  const now = { ids: labels, walls, width, height, ...overlaps };
  const isOpen = (id: number): boolean => {
    const [x0, y0, x1, y1] = old.bounds.subarray(4 * id, 4 * id + 4);
    return x0 === 0 || y0 === 0 || x1 === old.width || y1 === old.height;
  };
  const likeness = likenessOf(now, old, transform);
  const matches = matchRegions(overlaps, isOpen, likeness, partOf(tick, 0.8, 1));
  return { overlaps, matches };
}

/**
 * Paper of old regions that a transform takes into the new picture, in pixels of that: all but what it
 * takes beyond. O(rows + pixels beyond).
 */
function areasInside(
  { ids, area, width, height }: OldRegions,
  size: Sides,
  transform: Similarity,
  tick?: Tick,
): Float64Array {
  const inside = Float64Array.from(area);
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    const [from, to] = rowInside(transform, y, width, size);
    const row = y * width;
    for (let p = row; p < row + from; p++) inside[ids[p]!]! -= 1;
    for (let p = row + to; p < row + width; p++) inside[ids[p]!]! -= 1;
  }
  inside[0] = 0;
  const square = transform.a * transform.a + transform.b * transform.b;
  return inside.map((pixels) => pixels * square);
}
