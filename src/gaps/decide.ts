import { partOf, type Tick } from '../raster/progress.ts';
import {
  type Agglomerated,
  agglomerate,
  type Claim,
  type FirstLook,
  LEAST_FORCED,
} from './agglomerate.ts';
import { type Gap, leadsBetween } from './asked.ts';
import type { Border } from './borders.ts';
import type { Candidate } from './bridge.ts';
import type { FaceMap } from './face-map.ts';
import type { Faces } from './faces.ts';
import { CERTAIN } from './odds.ts';
import { groupRivals } from './rivals.ts';
import type { Separation } from './separation.ts';
import { openBetween } from './together.ts';

/** What was decided on a candidate. */
export interface Decision {
  drawn: boolean;
  reason: string;
  /** Log-odds of the border that the bridge is on. */
  readonly odds: number;
  /** Whether it is the likeliest of those that would close its gap. */
  readonly leads: boolean;
  /** Whether only points that are to be apart ask for it. */
  readonly forced: boolean;
}

export interface DecideRule {
  /** Least log-odds of a bridge that is drawn. */
  readonly bias: number;
  /** How many of the first candidates a person asked for: these are drawn. */
  readonly asked: number;
  /** Gaps that a person wants open. */
  readonly open: readonly Gap[];
  /** Per face the group of its points, 0 for none: different groups are not to share a region. */
  readonly marks: Int32Array;
  /** Nodes of points, by group: points of one group must not be separated by bridges. */
  readonly together: readonly (readonly number[])[];
  /** Whether regions with points of `apart` claim what holds none. */
  readonly claim: boolean;
  /** Whether a mark names the ground. */
  readonly groundMarked: boolean;
  /** Per face 1 where nothing claims its region. */
  readonly kept: Uint8Array;
  readonly separation: Separation;
  /** Median and ninth decile of the stroke width, in pixels. */
  readonly strokeWidth: number;
  readonly widest: number;
  readonly tick?: Tick | undefined;
  /** What was seen of the same candidates, where no gap was to stay open. */
  readonly first?: FirstLook | undefined;
}

/** Paper of less than this, in stroke widths squared, is a sliver that makes no region by itself. */
export const SLIVER = 0.5;

/**
 * Decides on all candidates together. They come likeliest first, before them those that a person
 * asked for, and may cross. All of them cut the paper into faces; faces are joined to regions as
 * `agglomerate` does it; and of the bridges between regions the likeliest are drawn that keep them
 * apart. Gaps that a person wants open weigh nothing.
 */
export function decideTogether(
  candidates: readonly Candidate[],
  map: FaceMap,
  borders: readonly Border[],
  faces: Faces,
  rivals: Rivals,
  rule: DecideRule,
): { decisions: Decision[]; claims: readonly Claim[] } {
  const { asked, open, bias, marks } = rule;
  const opened = candidates.map(
    (candidate, k) => k >= asked && open.some((gap) => closes(candidate, gap)),
  );
  const { groups, unasked } = rivals;
  const bridges = candidates.map(({ odds, length }, k) => ({
    odds: opened[k] ? -CERTAIN : k < asked ? CERTAIN : odds,
    length,
    width: rule.strokeWidth,
    group: groups[k]!,
  }));
  const { region, odds, apart, claims, between } = agglomerate({
    ...rule,
    faces: map,
    borders,
    bridges,
    unasked,
    tick: partOf(rule.tick, 0, 0.8),
  });
  // Slivers go with whichever side opens to them.
  const sliver = SLIVER * rule.strokeWidth * rule.strokeWidth;
  for (let face = 1; face <= map.count; face++) {
    if (map.area[face]! >= sliver || marks[face]! > 0) faces.setGroup(face, region[face]!);
  }
  let leaders = 0;
  const decisions = candidates.map((candidate, k): Decision => {
    const leads = groups[k]! === leaders;
    if (leads) leaders++;
    const known = odds[k]! > Number.NEGATIVE_INFINITY ? odds[k]! : candidate.odds;
    if (k < asked) {
      return { drawn: true, reason: 'drawn', odds: CERTAIN, leads, forced: false };
    }
    const unlikely = known < bias ? 'not likely enough' : 'another one closes it';
    const reason = opened[k] ? OPENED : unlikely;
    return { drawn: false, reason, odds: known, leads, forced: apart[k] === 1 && known < bias };
  });
  rule.tick?.(0.9);
  openUnneeded(faces, decisions, bias);
  judgeDrawn(
    faces,
    decisions,
    bias,
    between,
    marks.some((mark) => mark > 0),
  );
  rule.tick?.(1);
  openWorst(faces, decisions, asked, rule.together);
  return { decisions, claims };
}

/** The reason of a bridge that is not drawn whatever it would keep apart. */
export const OPENED = 'to stay open';

/** Which candidates are ways to close one gap. */
export interface Rivals {
  readonly groups: Int32Array;
  /** The candidates without those that a person asked for, grouped as if these were not there. */
  readonly unasked: readonly { readonly odds: number; readonly group: number }[];
}

/** Groups candidates, so many of which a person asked for. O(pixels of the bridges). */
export function rivalsAmong(candidates: readonly Candidate[], asked: number): Rivals {
  const groups = groupRivals(candidates);
  const others = candidates.slice(asked);
  const own = asked === 0 ? groups : groupRivals(others);
  return { groups, unasked: others.map(({ odds }, k) => ({ odds, group: own[k]! })) };
}

/** Whether a candidate is at a gap that a person wants open. */
export function closes({ fromX, fromY, toX, toY, width }: Candidate, gap: Gap): boolean {
  return leadsBetween([fromX + 0.5, fromY + 0.5], [toX + 0.5, toY + 0.5], width, gap);
}

/** Group of points, given by their nodes, from 1 on, of each face; a face keeps the first. */
export function markFaces(
  faces: Faces,
  count: number,
  groups: readonly (readonly number[])[],
): Int32Array {
  const marks = new Int32Array(count + 1);
  groups.forEach((nodes, i) => {
    for (const node of nodes) if (node <= count && marks[node] === 0) marks[node] = i + 1;
  });
  // A point where a bridge may be lies in a face beside it.
  groups.forEach((nodes, i) => {
    for (const node of nodes) {
      const face = node <= count ? 0 : faces.faceBeside(node);
      if (face > 0 && marks[face] === 0) marks[face] = i + 1;
    }
  });
  return marks;
}

/**
 * Opens what is not drawn, worst first, unless that would bring two regions together; what is hardly
 * likely at all opens even then.
 */
function openUnneeded(faces: Faces, decisions: readonly Decision[], bias: number): void {
  for (let k = decisions.length - 1; k >= 0; k--) {
    const decision = decisions[k]!;
    if (decision.drawn) continue;
    const mayBe = decision.reason !== OPENED && decision.odds >= Math.min(bias, LEAST_FORCED);
    decision.drawn = mayBe && faces.keepsApart(k);
    if (!decision.drawn) faces.open(k);
    else decision.reason = decision.forced ? 'drawn to keep points apart' : 'drawn';
  }
}

/**
 * A bridge beside a scrap of paper may be drawn in place of its likelier neighbor: both part the same
 * two regions, and it is as likely as their border.
 */
function judgeDrawn(
  faces: Faces,
  decisions: Decision[],
  bias: number,
  between: Agglomerated['between'],
  marked: boolean,
): void {
  for (const [k, decision] of decisions.entries()) {
    if (!decision.drawn || decision.forced || decision.odds >= bias) continue;
    // Where two regions have no border, nothing but the marks in them asks for the bridge.
    decisions[k] = { ...decision, forced: marked };
    const groups = faces.groupsBeside(k);
    for (const [i, a] of groups.entries()) {
      for (const b of groups.slice(0, i)) {
        const verdict = between(a, b);
        if (verdict === undefined || verdict.odds < decisions[k]!.odds) continue;
        const { odds, apart } = verdict;
        decisions[k] = { ...decision, odds, forced: apart && odds < bias };
      }
    }
  }
}

/** Opens, worst first, what separates nothing, and what parts points that are to be together. */
function openWorst(
  faces: Faces,
  decisions: Decision[],
  asked: number,
  together: readonly (readonly number[])[],
): void {
  openIdle(faces, decisions, asked);
  for (const nodes of together) {
    for (const k of openBetween(faces, decisions, nodes, asked)) {
      decisions[k] = { ...decisions[k]!, drawn: false, reason: 'opened to keep points together' };
    }
  }
  openIdle(faces, decisions, asked);
}

function openIdle(faces: Faces, decisions: Decision[], asked: number): void {
  for (let k = decisions.length - 1; k >= asked; k--) {
    if (!decisions[k]!.drawn || faces.separates(k)) continue;
    faces.open(k);
    decisions[k] = { ...decisions[k]!, drawn: false, reason: 'separates nothing' };
  }
}
