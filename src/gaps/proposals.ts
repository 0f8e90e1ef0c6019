import type { Found, PassageList } from '../passages/list.ts';
import type { Tick } from '../raster/progress.ts';
import type { Dense } from '../raster/types.ts';
import { PairIndex } from '../runs/pair-index.ts';
import type { StrokeEnd } from '../strokes/stroke-ends.ts';
import { buildEndGrid, type EndGrid, visitNear } from './end-grid.ts';
import { castRay, type Span, spanGap } from './span-gap.ts';
import type { Texture } from './texture.ts';

/** A place where a bridge might be meant, before anything is known of it. */
export interface Proposal extends Span {
  /** Index of the stroke's end at `from`, and at `to`; -1 for none. */
  readonly a: number;
  readonly b: number;
  /** The passage that lies there. */
  readonly passage: Pick<Found, 'width' | 'opens' | 'around'> | undefined;
}

/** Pairs looked at per end, the nearest and straightest first. */
const PAIRS_PER_END = 5;
/** Strokes ahead that an end may meet. */
const HITS_PER_END = 4;
/** Tangents of the rays sent out from an end: up to 56° to either side. */
const RAYS = [0, 0.12, -0.12, 0.25, -0.25, 0.42, -0.42, 0.7, -0.7, 1.1, -1.1, 1.5, -1.5];
/** Ends are no pair where both turn away, or one by more than 120°. */
const WIDEST_TURN = 0.1;
const WIDEST_WORSE_TURN = -0.5;

/**
 * Passages of the paper, pairs of stroke ends that may face one another, and strokes that lie ahead
 * of an end, all at most `reach` pixels long, in this order. They may cross, and several may be of
 * one gap. What lies in texture proposes nothing. O(passages + ends · (ends near + reach)).
 */
export function propose(
  ink: Dense<Uint8Array>,
  ends: readonly StrokeEnd[],
  passages: PassageList,
  reach: number,
  texture: Texture,
  tick?: Tick,
): Proposal[] {
  const grid = buildEndGrid(ends, ink.width, ink.height, reach);
  const proposals: Proposal[] = [];
  const taken = new PairIndex();
  const add = (span: Span | undefined, a: number, b: number, passage?: Found) => {
    if (span === undefined || span.length > reach) return;
    if (!isNew(taken, span.from, span.to)) return;
    // Written out: an object that another is spread into takes several times the memory.
    const { from, to, length } = span;
    proposals.push({ from, to, length, a, b, passage });
  };
  const paired = new PairIndex();
  for (let i = 0; i < passages.length; i++) {
    if (tick !== undefined && i % 128 === 0) tick((0.5 * i) / passages.length);
    const passage = passages.get(i);
    if (passage.width > reach || texture.hasPassage(passage)) continue;
    let a = endAt(ink, grid, ends, passage.from);
    let b = endAt(ink, grid, ends, passage.to);
    if (a >= 0 && a === b) {
      const nearer = tipSquare(ink, ends[a]!, passage.from) <= tipSquare(ink, ends[a]!, passage.to);
      if (nearer) b = -1;
      else a = -1;
    }
    if (a >= 0 && b >= 0) isNew(paired, a, b);
    add(spanGap(ink, passage.from, passage.to, 1, 1), a, b, passage);
  }
  for (let a = 0; a < ends.length; a++) {
    if (tick !== undefined && a % 64 === 0) tick(0.5 + (0.5 * a) / ends.length);
    if (texture.hasEnd(ends[a]!)) continue;
    for (const b of partners(grid, ends, a, reach)) {
      if (!isNew(paired, a, b)) continue;
      const [one, two] = [ends[Math.min(a, b)]!, ends[Math.max(a, b)]!];
      const span = spanGap(ink, pixelOf(ink, one), pixelOf(ink, two), one.width, two.width);
      add(span, Math.min(a, b), Math.max(a, b));
    }
    for (const to of strokesAhead(ink, ends[a]!, reach)) {
      const near = endAt(ink, grid, ends, to);
      const b = near === a ? -1 : near;
      if (b >= 0 && paired.numberOf(Math.min(a, b), Math.max(a, b)) >= 0) continue;
      add(spanGap(ink, pixelOf(ink, ends[a]!), to, ends[a]!.width, 1), a, b);
    }
  }
  return proposals;
}

/** Whether two come together for the first time; the next time they do not. */
function isNew(pairs: PairIndex, a: number, b: number): boolean {
  const known = pairs.size;
  return pairs.add(Math.min(a, b), Math.max(a, b), 1) === known;
}

/** The end whose tip lies at an ink pixel, within three quarters of its width and a pixel or so. */
function endAt(
  ink: Dense<Uint8Array>,
  grid: EndGrid,
  ends: readonly StrokeEnd[],
  pixel: number,
): number {
  const x = (pixel % ink.width) + 0.5;
  const y = Math.floor(pixel / ink.width) + 0.5;
  let nearest = -1;
  let best = Number.POSITIVE_INFINITY;
  visitNear(grid, x, y, (e) => {
    const end = ends[e]!;
    const square = tipSquare(ink, end, pixel);
    const reach = 0.75 * end.width + 1.5;
    if (square > reach * reach || square > best || (square === best && e > nearest)) return;
    best = square;
    nearest = e;
  });
  return nearest;
}

/** Squared distance from an end's tip to a pixel. */
function tipSquare({ width }: Dense<Uint8Array>, { x, y }: StrokeEnd, pixel: number): number {
  const dx = x - 0.5 - (pixel % width);
  const dy = y - 0.5 - Math.floor(pixel / width);
  return dx * dx + dy * dy;
}

function partners(grid: EndGrid, ends: readonly StrokeEnd[], a: number, reach: number): number[] {
  const from = ends[a]!;
  const near: { b: number; cost: number }[] = [];
  visitNear(grid, from.x, from.y, (b) => {
    if (a === b) return;
    const to = ends[b]!;
    const [gapX, gapY] = [to.x - from.x, to.y - from.y];
    const length = Math.sqrt(gapX * gapX + gapY * gapY);
    if (length > reach) return;
    const [turn, turnBack] = turnsBetween(from, to);
    const better = Math.max(turn, turnBack);
    const worse = Math.min(turn, turnBack);
    if (better < WIDEST_TURN || worse < WIDEST_WORSE_TURN) return;
    near.push({ b, cost: length * (4 - better - 2 * worse) });
  });
  near.sort((p, q) => p.cost - q.cost || p.b - q.b);
  return near.slice(0, PAIRS_PER_END).map(({ b }) => b);
}

/**
 * Cosines of the turns from two ends into the line between them. That is taken between points half a
 * width behind the tips: a tip may lie anywhere across a blunt end, and across a short gap that
 * would turn the line by much.
 */
export function turnsBetween(from: StrokeEnd, to: StrokeEnd): readonly [number, number] {
  const width = (from.width + to.width) / 2;
  const [fx, fy] = from.direction;
  const [tx, ty] = to.direction;
  const dx = to.x - from.x - (width / 2) * (tx - fx);
  const dy = to.y - from.y - (width / 2) * (ty - fy);
  const norm = Math.sqrt(dx * dx + dy * dy) || 1;
  return [(dx * fx + dy * fy) / norm, -(dx * tx + dy * ty) / norm];
}

/** Ink that rays from an end meet: the straightest, and then the nearest that lie a width apart. */
function strokesAhead(ink: Dense<Uint8Array>, end: StrokeEnd, reach: number): number[] {
  const hits: { x: number; y: number; to: number; cost: number }[] = [];
  for (const tangent of RAYS) {
    const to = castRay(ink, end, tangent, reach);
    if (to < 0) continue;
    const x = (to % ink.width) + 0.5;
    const y = Math.floor(to / ink.width) + 0.5;
    const length = Math.sqrt((x - end.x) * (x - end.x) + (y - end.y) * (y - end.y));
    hits.push({ x, y, to, cost: length * (1 + Math.abs(tangent)) });
  }
  hits.sort((p, q) => p.cost - q.cost);
  const kept: typeof hits = [];
  for (const hit of hits) {
    const apart = kept.every(({ x, y }) => {
      const [dx, dy] = [hit.x - x, hit.y - y];
      return dx * dx + dy * dy > end.width * end.width;
    });
    if (apart) kept.push(hit);
    if (kept.length === HITS_PER_END) break;
  }
  return kept.map(({ to }) => to);
}

/** Index of the pixel at an end's tip. */
function pixelOf({ width }: Dense<Uint8Array>, { x, y }: StrokeEnd): number {
  return Math.floor(y) * width + Math.floor(x);
}
