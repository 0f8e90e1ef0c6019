import type { Packed } from '../../raster/pack.ts';
import { partOf } from '../../raster/progress.ts';
import type { Ticks } from '../../raster/stages.ts';
import { changeParts, withoutCommon } from '../../runs/change-parts.ts';
import { findParts } from '../../runs/parts.ts';
import type { Drawing } from '../drawing.ts';
import type { LayProgress } from '../grow-regions.ts';
import { type GrownPaper, growAll } from './grown-paper.ts';
import { regrow } from './regrow.ts';
import { type Unmarked, unmarkedRegions } from './unmarked.ts';

/** The regions that marks find, and what they are made of. */
export interface Groundwork {
  /** Pixels of paper that are closed, by index, in order. */
  readonly closed: Int32Array;
  readonly grown: GrownPaper;
  readonly absorb: number;
  readonly unmarked: Unmarked;
}

/**
 * The groundwork for some closed gaps. Of what is known of the same drawing, the latest first, one
 * with the same gaps is taken over, else the first is grown anew where gaps make a difference.
 */
export function layGroundwork(
  { study, coverage }: Drawing,
  closed: Int32Array,
  absorb: number,
  known: readonly Groundwork[],
  ticks: Ticks<LayProgress['stage']>,
): Groundwork {
  const same = known.find((groundwork) => isEqual(groundwork.closed, closed));
  if (same?.absorb === absorb) return same;
  const grown = same?.grown ?? grow();
  const unmarked = unmarkedRegions(grown, absorb, known[0]?.unmarked);
  return { closed, grown, absorb, unmarked };

  function grow(): GrownPaper {
    const tick = ticks('grow');
    tick?.(0);
    const [last] = known;
    if (last === undefined) {
      const paper = findParts(study.packedWith(closed));
      tick?.(0.05);
      return growAll(paper, coverage, partOf(tick, 0.05, 1));
    }
    const more = withoutCommon(closed, last.closed);
    const less = withoutCommon(last.closed, closed);
    const changed = changeParts(last.grown.paper, more, less);
    tick?.(0.05);
    const sealed = (): Packed => study.packedWith(closed);
    return regrow(last.grown, changed, sealed, coverage, partOf(tick, 0.05, 1));
  }
}

function isEqual(a: Int32Array, b: Int32Array): boolean {
  return a.length === b.length && a.every((p, i) => p === b[i]);
}
