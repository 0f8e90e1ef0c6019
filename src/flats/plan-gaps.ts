import { type Gap, leadsBetween } from '../gaps/asked.ts';
import type { Bridge } from '../gaps/bridge.ts';
import type { SealOptions } from '../gaps/seal-options.ts';
import type { Point } from '../raster/types.ts';
import type { PlanNote } from './follow-marks.ts';
import type { Mark } from './plan.ts';

/**
 * What a plan asks of gap closing: points of different swatches apart, those of a join together,
 * and single gaps closed or open. Marks that are `over` say nothing, since they change what is laid.
 */
export function gapWishes(
  marks: readonly Mark[],
): Required<Pick<SealOptions, 'apart' | 'together' | 'bridge' | 'open'>> {
  const groups = new Map<string, Point[]>();
  const together: (readonly Point[])[] = [];
  const bridge: Gap[] = [];
  const open: Gap[] = [];
  for (const mark of marks) {
    if ('point' in mark && mark.over !== true) {
      const group = groups.get(mark.swatch);
      if (group === undefined) groups.set(mark.swatch, [mark.point]);
      else group.push(mark.point);
    } else if ('join' in mark) together.push(mark.join);
    else if ('bridge' in mark) bridge.push(mark.bridge);
    else if ('open' in mark) open.push(mark.open);
  }
  return { apart: [...groups.values()], together, bridge, open };
}

/** Marks whose gap is no place where a bridge might have been drawn. */
export function gapNotes(marks: readonly Mark[], bridges: readonly Bridge[]): PlanNote[] {
  const notes: PlanNote[] = [];
  marks.forEach((mark, i) => {
    if (!('open' in mark)) return;
    const known = bridges.some(({ from, to, width }) => leadsBetween(from, to, width, mark.open));
    if (!known) notes.push({ mark: i, why: 'no bridge was looked at between the points' });
  });
  return notes;
}
