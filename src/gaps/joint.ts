import type { Tick } from '../raster/progress.ts';
import { agglomerate, type Separation } from './agglomerate.ts';
import { type Candidate, CERTAIN } from './bridge.ts';
import {
  type ChooseRule,
  closes,
  type Decision,
  OPENED,
  openUnneeded,
  openWorst,
} from './choose.ts';
import { type FaceMap, findBorders } from './face-map.ts';
import type { Faces } from './faces.ts';
import { groupRivals } from './rivals.ts';

export interface JointRule extends ChooseRule {
  readonly separation: Separation;
  /** Median and ninth decile of the stroke width, in pixels. */
  readonly strokeWidth: number;
  readonly widest: number;
  readonly tick?: Tick | undefined;
}

export interface JointDecision extends Decision {
  /** Log-odds of the border that the bridge is on. */
  odds: number;
  /** Whether it is the likeliest of those that would close its gap. */
  leads: boolean;
}

/** Paper of less than this, in stroke widths squared, is a sliver that makes no region by itself. */
export const SLIVER = 0.5;

/**
 * Decides on all candidates together. They come likeliest first, before them those that a person
 * asked for, and may cross. All of them cut the paper into faces; faces are joined to regions as
 * `agglomerate` does it; and of the bridges between regions the likeliest are drawn that keep them
 * apart. Points of different groups are never joined, and gaps that a person wants open weigh nothing.
 */
export function decideTogether(
  candidates: readonly Candidate[],
  map: FaceMap,
  faces: Faces,
  rule: JointRule,
): JointDecision[] {
  const { asked, open, bias } = rule;
  const opened = candidates.map(
    (candidate, k) => k >= asked && open.some((gap) => closes(candidate, gap)),
  );
  const groups = groupRivals(candidates);
  const bridges = candidates.map(({ odds, length, width }, k) => ({
    odds: opened[k] ? -CERTAIN : k < asked ? CERTAIN : odds,
    length,
    width,
    group: groups[k]!,
  }));
  const borders = findBorders(
    map,
    candidates.map(({ pixels }) => pixels),
  );
  const marks = markFaces(faces, map.count, rule.apart);
  const unasked = asUnasked(candidates.slice(asked));
  const { region, odds } = agglomerate({ ...rule, faces: map, borders, bridges, unasked, marks });
  // Slivers go with whichever side opens to them.
  const sliver = SLIVER * rule.strokeWidth * rule.strokeWidth;
  for (let face = 1; face <= map.count; face++) {
    if (map.area[face]! >= sliver || marks[face]! > 0) faces.setGroup(face, region[face]!);
  }
  let leaders = 0;
  const decisions = candidates.map((candidate, k) => {
    const leads = groups[k]! === leaders;
    if (leads) leaders++;
    const known = odds[k]! > Number.NEGATIVE_INFINITY ? odds[k]! : candidate.odds;
    const reason = opened[k]
      ? OPENED
      : known < bias
        ? 'not likely enough'
        : 'another one closes it';
    return k < asked
      ? { drawn: true, reason: 'drawn', odds: CERTAIN, leads }
      : { drawn: false, reason, odds: known, leads };
  });
  const wished = rule.apart.length > 0;
  openUnneeded(faces, decisions, (k) =>
    wished && decisions[k]!.odds < bias ? 'drawn to keep points apart' : 'drawn',
  );
  openWorst(faces, decisions, asked, rule.together);
  return decisions;
}

function asUnasked(candidates: readonly Candidate[]): { odds: number; group: number }[] {
  const groups = groupRivals(candidates);
  return candidates.map(({ odds }, k) => ({ odds, group: groups[k]! }));
}

/** Group of points, from 1 on, of each face; a face keeps the first. */
function markFaces(faces: Faces, count: number, apart: readonly (readonly number[])[]): Int32Array {
  const marks = new Int32Array(count + 1);
  apart.forEach((nodes, i) => {
    for (const node of nodes) if (node <= count && marks[node] === 0) marks[node] = i + 1;
  });
  // A point where a bridge may be lies in a face beside it.
  apart.forEach((nodes, i) => {
    for (const node of nodes) {
      const face = node <= count ? 0 : faces.faceBeside(node);
      if (face > 0 && marks[face] === 0) marks[face] = i + 1;
    }
  });
  return marks;
}
