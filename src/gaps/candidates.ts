import type { StrokeEnd } from '../ink/stroke-ends.ts';
import type { Dense } from '../raster/types.ts';
import type { Candidate } from './bridge.ts';
import { buildEndGrid, visitNear } from './end-grid.ts';
import { linePixels } from './line.ts';
import { LocalInk } from './local-ink.ts';
import { describeEvidence, type Evidence, logOdds, probabilityOf } from './score.ts';

/** Two ends whose directions turn further than this into the bridge are no pair: cosine of 60°. */
const WIDEST_TURN = 0.5;
/** Pairs kept per end; more only lengthen the list of what was not drawn. */
const PAIRS_PER_END = 3;
/** Tangents of the rays sent out from an end: within ±25° of its direction, about 5° apart. */
const RAYS = [0, 0.09, -0.09, 0.18, -0.18, 0.27, -0.27, 0.37, -0.37, 0.466, -0.466];

/**
 * Every straight bridge of at most `reach` pixels from a stroke's end to another end that it may
 * face, or to the side of a stroke that lies ahead of it. Sorted by probability, best first; ties
 * by the ends' order.
 *
 * O(ends · (ends near + reach)).
 */
export function findCandidates(
  ink: Dense<Uint8Array>,
  ends: readonly StrokeEnd[],
  reach: number,
): Candidate[] {
  const found = [...pairEnds(ink, ends, reach), ...meetStrokes(ink, ends, reach)];
  return found.sort(
    (p, q) => q.probability - p.probability || p.length - q.length || p.a - q.a || p.b - q.b,
  );
}

function pairEnds(ink: Dense<Uint8Array>, ends: readonly StrokeEnd[], reach: number): Candidate[] {
  const grid = buildEndGrid(ends, ink.width, ink.height, reach);
  const pairs: Candidate[] = [];
  for (let a = 0; a < ends.length; a++) {
    const near: { b: number; odds: number; evidence: Evidence }[] = [];
    visitNear(grid, ends[a]!.x, ends[a]!.y, (b) => {
      const evidence = a === b ? undefined : pairEvidence(ends[a]!, ends[b]!, reach);
      if (evidence !== undefined) near.push({ b, odds: logOdds(evidence), evidence });
    });
    near.sort((p, q) => q.odds - p.odds || p.b - q.b);
    let kept = 0;
    for (const { b, evidence } of near) {
      if (kept === PAIRS_PER_END) break;
      const [from, to] = [ends[Math.min(a, b)]!, ends[Math.max(a, b)]!];
      const bridge = spanGap(ink, from, to, reach);
      if (bridge === undefined) continue;
      kept++;
      // A pair is met from both ends; the first keeps it.
      if (b < a && pairs.some((p) => p.a === b && p.b === a)) continue;
      pairs.push({ ...bridge, ...weigh(evidence, from, Math.min(a, b), Math.max(a, b)) });
    }
  }
  return pairs;
}
