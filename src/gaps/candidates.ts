import type { Tick } from '../raster/progress.ts';
import type { Dense } from '../raster/types.ts';
import type { StrokeEnd } from '../strokes/stroke-ends.ts';
import type { Candidate } from './bridge.ts';
import { buildEndGrid, visitNear } from './end-grid.ts';
import { connectsNearby } from './local-ink.ts';
import { pixelOf, turnsBetween } from './proposals.ts';
import { describeEvidence, type Evidence, logOdds } from './score.ts';
import { castRay, type Span, spanGap } from './span-gap.ts';

/** Ends are no pair when the better one turns further than 60° into the bridge, the other 105°. */
const WIDEST_TURN = 0.5;
const WIDEST_WORSE_TURN = -0.25;
/** Pairs looked at per end, the likeliest first. */
const PAIRS_PER_END = 4;
/** Tangents of the rays sent out from an end: within ±25° of its direction, about 5° apart. */
const RAYS = [0, 0.09, -0.09, 0.18, -0.18, 0.27, -0.27, 0.37, -0.37, 0.466, -0.466];

/**
 * Every straight bridge of at most `reach` pixels from a stroke's end to another end that it may
 * face, or to the side of a stroke that lies ahead of it. Sorted by probability, best first; ties
 * by length, then by the order of the ends.
 *
 * O(ends · (ends near + reach)) time; some candidates per end.
 */
export function findCandidates(
  ink: Dense<Uint8Array>,
  ends: readonly StrokeEnd[],
  reach: number,
  tick?: Tick,
): Candidate[] {
  const grid = buildEndGrid(ends, ink.width, ink.height, reach);
  const found: Candidate[] = [];
  const paired = new Set<number>();
  for (let a = 0; a < ends.length; a++) {
    if (tick !== undefined && a % 1024 === 0) tick(a / ends.length);
    for (const b of likelyPartners(grid, ends, a, reach)) {
      const key = Math.min(a, b) * ends.length + Math.max(a, b);
      const bridge = paired.has(key) ? undefined : pair(ink, ends, Math.min(a, b), Math.max(a, b));
      paired.add(key);
      if (bridge !== undefined && bridge.length <= reach) found.push(bridge);
    }
    const bridge = meetStroke(ink, ends, a, reach);
    if (bridge !== undefined) found.push(bridge);
  }
  found.sort((p, q) => q.odds - p.odds || p.length - q.length || p.a - q.a || p.b - q.b);
  return withoutEchoes(found, ends);
}

/** Drops bridges from an end to a stroke's side that lead where a likelier pair of it leads. */
function withoutEchoes(found: readonly Candidate[], ends: readonly StrokeEnd[]): Candidate[] {
  const partners = new Map<number, number[]>();
  return found.filter(({ a, b, toX, toY, width }) => {
    if (b >= 0) {
      partners.set(a, [...(partners.get(a) ?? []), b]);
      partners.set(b, [...(partners.get(b) ?? []), a]);
      return true;
    }
    return !partners.get(a)?.some((partner) => {
      const [dx, dy] = [toX + 0.5 - ends[partner]!.x, toY + 0.5 - ends[partner]!.y];
      return dx * dx + dy * dy <= width * width;
    });
  });
}

function likelyPartners(
  grid: ReturnType<typeof buildEndGrid>,
  ends: readonly StrokeEnd[],
  a: number,
  reach: number,
): number[] {
  const near: { b: number; odds: number }[] = [];
  visitNear(grid, ends[a]!.x, ends[a]!.y, (b) => {
    if (a === b || distance(ends[a]!, ends[b]!) > reach) return;
    const evidence = pairEvidence(ends[a]!, ends[b]!);
    if (Math.max(evidence.turn, evidence.turnBack) < WIDEST_TURN) return;
    if (Math.min(evidence.turn, evidence.turnBack) < WIDEST_WORSE_TURN) return;
    near.push({ b, odds: logOdds(evidence) });
  });
  near.sort((p, q) => q.odds - p.odds || p.b - q.b);
  return near.slice(0, PAIRS_PER_END).map(({ b }) => b);
}

function pairEvidence(from: StrokeEnd, to: StrokeEnd): Evidence & { turnBack: number } {
  const width = (from.width + to.width) / 2;
  const [turn, turnBack] = turnsBetween(from, to);
  return {
    widths: clearLength(distance(from, to)) / width,
    turn,
    turnBack,
    match: Math.min(from.width, to.width) / Math.max(from.width, to.width),
  };
}

function pair(
  ink: Dense<Uint8Array>,
  ends: readonly StrokeEnd[],
  a: number,
  b: number,
): Candidate | undefined {
  const [from, to] = [ends[a]!, ends[b]!];
  const span = spanGap(ink, pixelOf(ink, from), pixelOf(ink, to), from.width, to.width);
  if (span === undefined) return undefined;
  const evidence = pairEvidence(from, to);
  return candidateOf(span, ink.width, evidence, (from.width + to.width) / 2, a, b);
}

/** The likeliest bridge from an end to the side of a stroke ahead. */
function meetStroke(
  ink: Dense<Uint8Array>,
  ends: readonly StrokeEnd[],
  a: number,
  reach: number,
): Candidate | undefined {
  const end = ends[a]!;
  const from = pixelOf(ink, end);
  const hits: { to: number; length: number; odds: number; evidence: Evidence }[] = [];
  for (const tangent of RAYS) {
    const to = castRay(ink, end, tangent, reach);
    if (to < 0) continue;
    const [dx, dy] = [(to % ink.width) + 0.5 - end.x, Math.floor(to / ink.width) + 0.5 - end.y];
    const length = Math.sqrt(dx * dx + dy * dy);
    const turn = (dx * end.direction[0] + dy * end.direction[1]) / length;
    const evidence = { widths: clearLength(length) / end.width, turn };
    hits.push({ to, length, odds: logOdds(evidence), evidence });
  }
  hits.sort((p, q) => q.odds - p.odds);
  for (const { to, length, evidence } of hits) {
    const radius = Math.ceil(Math.min(1.5 * length + end.width, 8 * end.width));
    if (connectsNearby(ink, from, to, radius)) continue;
    const span = spanGap(ink, from, to, end.width, 0);
    if (span !== undefined) return candidateOf(span, ink.width, evidence, end.width, a, -1);
  }
  return undefined;
}

/** A candidate over a span. */
function candidateOf(
  { from, to, length, pixels }: Span,
  picture: number,
  evidence: Evidence,
  width: number,
  a: number,
  b: number,
): Candidate {
  const [fromX, fromY] = [from % picture, Math.floor(from / picture)];
  const [toX, toY] = [to % picture, Math.floor(to / picture)];
  const judged = { odds: logOdds(evidence), seen: describeEvidence(evidence) };
  return { fromX, fromY, toX, toY, length, pixels, width, a, b, ...judged };
}

/** Paper between two ink pixels whose centers are so far apart. */
function clearLength(length: number): number {
  return Math.max(0, length - 1);
}

function distance(a: StrokeEnd, b: StrokeEnd): number {
  return Math.sqrt((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y));
}
