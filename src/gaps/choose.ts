import { type Gap, leadsBetween } from './asked.ts';
import type { Candidate } from './bridge.ts';
import type { Faces } from './faces.ts';
import { openBetween } from './together.ts';

/** What was decided on a candidate. */
export interface Decision {
  drawn: boolean;
  reason: string;
}

export interface ChooseRule {
  /** Least log-odds of a bridge that is drawn. */
  readonly bias: number;
  /** How many of the first candidates a person asked for: these are drawn. */
  readonly asked: number;
  /** Gaps that a person wants open. */
  readonly open: readonly Gap[];
  /** Nodes of points, by group: points of different groups must not share a region. */
  readonly apart: readonly (readonly number[])[];
  /** Nodes of points, by group: points of one group must not be separated by bridges. */
  readonly together: readonly (readonly number[])[];
}

/** A face smaller than this share of a bridge's width squared is a sliver. */
const SLIVER = 1;
/** The reason of a bridge that is not drawn whatever it would keep apart. */
export const OPENED = 'to stay open';

/**
 * Decides on candidates that come best first, before them those that a person asked for, which are
 * drawn and stay. In turn:
 *
 * 1. every bridge above the cut is taken whose ends are free and which crosses no better one, but
 *    none over a gap that a person wants open;
 * 2. the others open, worst first, unless that would join points that are to be kept apart;
 * 3. bridges that cut off a sliver, then those that separate nothing, are taken back, worst first;
 * 4. points of one group are brought together by opening the worst bridges that do it.
 *
 * Opening is all that happens after step 1, so near O(bridge pixels) a group.
 */
export function chooseBridges(
  candidates: readonly Candidate[],
  faces: Faces,
  rule: ChooseRule,
): Decision[] {
  const { asked, apart, together } = rule;
  const decisions = takeBest(candidates, rule);
  apart.forEach((nodes, i) => {
    for (const node of nodes) faces.setGroup(node, i + 1);
  });
  openUnneeded(faces, decisions, () => 'drawn to keep points apart');
  takeBack(asked, faces, decisions, 'cuts off only a sliver', (k) => {
    const { width } = candidates[k]!;
    const areas = faces.beside(k).map((root) => faces.area(root));
    return Math.min(...areas) < SLIVER * width * width && !faces.keepsApart(k);
  });
  openWorst(faces, decisions, asked, together);
  return decisions;
}

/**
 * Opens what is not drawn so far, worst first, unless that would bring two groups together; those
 * are drawn then, for the reason given.
 */
export function openUnneeded(
  faces: Faces,
  decisions: readonly Decision[],
  reason: (bridge: number) => string,
): void {
  for (let k = decisions.length - 1; k >= 0; k--) {
    const decision = decisions[k]!;
    if (decision.drawn) continue;
    decision.drawn = decision.reason !== OPENED && faces.keepsApart(k);
    if (decision.drawn) decision.reason = reason(k);
    else faces.open(k);
  }
}

/** Opens, worst first, what separates nothing, and what parts points that are to be together. */
export function openWorst(
  faces: Faces,
  decisions: Decision[],
  asked: number,
  together: readonly (readonly number[])[],
): void {
  const separatesNothing = (k: number): boolean => !faces.separates(k);
  takeBack(asked, faces, decisions, 'separates nothing', separatesNothing);
  for (const nodes of together) {
    for (const k of openBetween(faces, decisions, nodes, asked)) {
      decisions[k] = { drawn: false, reason: 'opened to keep points together' };
    }
  }
  takeBack(asked, faces, decisions, 'separates nothing', separatesNothing);
}

function takeBest(candidates: readonly Candidate[], { bias, asked, open }: ChooseRule): Decision[] {
  const used = new Set<number>();
  const covered = new Set<number>();
  return candidates.map((candidate, k) => {
    const { a, b, pixels, odds } = candidate;
    if (k >= asked) {
      if (open.some((gap) => closes(candidate, gap))) return { drawn: false, reason: OPENED };
      if (odds < bias) return { drawn: false, reason: 'not likely enough' };
      if (used.has(a) || used.has(b))
        return { drawn: false, reason: 'a likelier bridge ends here' };
      if (pixels.some((p) => covered.has(p)))
        return { drawn: false, reason: 'crosses a likelier one' };
    }
    if (a >= 0) used.add(a);
    if (b >= 0) used.add(b);
    for (const p of pixels) covered.add(p);
    return { drawn: true, reason: 'drawn' };
  });
}

/** Whether a candidate is at a gap that a person wants open. */
export function closes({ fromX, fromY, toX, toY, width }: Candidate, gap: Gap): boolean {
  return leadsBetween([fromX + 0.5, fromY + 0.5], [toX + 0.5, toY + 0.5], width, gap);
}

function takeBack(
  asked: number,
  faces: Faces,
  decisions: Decision[],
  reason: string,
  applies: (bridge: number) => boolean,
): void {
  for (let k = decisions.length - 1; k >= asked; k--) {
    if (!decisions[k]!.drawn || !applies(k)) continue;
    faces.open(k);
    decisions[k] = { drawn: false, reason };
  }
}
