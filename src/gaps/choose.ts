import type { Candidate } from './bridge.ts';
import type { Faces } from './faces.ts';
import { openBetween } from './together.ts';

/** What was decided on a candidate. */
export interface Decision {
  drawn: boolean;
  reason: string;
}

export interface ChooseRule {
  /** Least probability of a bridge that is drawn. */
  readonly cut: number;
  /** Nodes of points, by group: points of different groups must not share a region. */
  readonly apart: readonly (readonly number[])[];
  /** Nodes of points, by group: points of one group must not be separated by bridges. */
  readonly together: readonly (readonly number[])[];
}

/** A face smaller than this share of a bridge's width squared is a sliver. */
const SLIVER = 1;

/**
 * Decides on candidates that come best first. In turn:
 *
 * 1. every bridge above the cut is taken whose ends are free and which crosses no better one;
 * 2. the others open, worst first, unless that would join points that are to be kept apart;
 * 3. bridges that cut off a sliver, then those that separate nothing, are taken back, worst first;
 * 4. points of one group are brought together by opening the worst bridges that do it.
 *
 * Opening is all that happens after step 1, so near O(bridge pixels) a group.
 */
export function chooseBridges(
  candidates: readonly Candidate[],
  faces: Faces,
  { cut, apart, together }: ChooseRule,
): Decision[] {
  const decisions = takeBest(candidates, cut);
  apart.forEach((nodes, i) => {
    for (const node of nodes) faces.setGroup(node, i + 1);
  });
  for (let k = candidates.length - 1; k >= 0; k--) {
    const decision = decisions[k]!;
    if (decision.drawn) continue;
    decision.drawn = faces.keepsApart(k);
    if (decision.drawn) decision.reason = 'drawn to keep points apart';
    else faces.open(k);
  }
  takeBack(candidates, faces, decisions, 'cuts off only a sliver', (k) => {
    const { width } = candidates[k]!;
    const areas = faces.beside(k).map((root) => faces.area(root));
    return Math.min(...areas) < SLIVER * width * width && !faces.keepsApart(k);
  });
  const separatesNothing = (k: number): boolean => faces.beside(k).length < 2;
  takeBack(candidates, faces, decisions, 'separates nothing', separatesNothing);
  for (const nodes of together) {
    for (const k of openBetween(faces, decisions, nodes)) {
      decisions[k] = { drawn: false, reason: 'opened to keep points together' };
    }
  }
  takeBack(candidates, faces, decisions, 'separates nothing', separatesNothing);
  return decisions;
}

function takeBest(candidates: readonly Candidate[], cut: number): Decision[] {
  const used = new Set<number>();
  const covered = new Set<number>();
  return candidates.map(({ a, b, pixels, probability }) => {
    if (probability < cut) return { drawn: false, reason: 'not likely enough' };
    if (used.has(a) || used.has(b)) return { drawn: false, reason: 'a likelier bridge ends here' };
    if (pixels.some((p) => covered.has(p)))
      return { drawn: false, reason: 'crosses a likelier one' };
    used.add(a);
    if (b >= 0) used.add(b);
    for (const p of pixels) covered.add(p);
    return { drawn: true, reason: 'drawn' };
  });
}

function takeBack(
  candidates: readonly Candidate[],
  faces: Faces,
  decisions: Decision[],
  reason: string,
  applies: (bridge: number) => boolean,
): void {
  for (let k = candidates.length - 1; k >= 0; k--) {
    if (!decisions[k]!.drawn || !applies(k)) continue;
    faces.open(k);
    decisions[k] = { drawn: false, reason };
  }
}
