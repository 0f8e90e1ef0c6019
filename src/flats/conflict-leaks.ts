import { LeakFinder } from '../gaps/leaks.ts';
import type { Study } from '../gaps/study.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type { Point } from '../raster/types.ts';
import type { Mark } from './marks/table.ts';
import type { PlanConflict } from './plan-report.ts';

/** Conflicts whose leaks are sought; each takes as long as a flood of the whole paper. */
const SOUGHT = 16;

/** Conflicts of points, the first of them with the narrow places between the two. */
export function withLeaks(
  conflicts: readonly PlanConflict[],
  marks: readonly Mark[],
  study: Study,
  coverage: Uint8Array | undefined,
  tick?: Tick,
): readonly PlanConflict[] {
  if (conflicts.length === 0) return conflicts;
  const [width, height] = study.size;
  const dense = coverage && { data: coverage, width, height, channels: 1 };
  const finder = new LeakFinder(study, dense, partOf(tick, 0, 0.2));
  const sought = Math.min(SOUGHT, conflicts.length);
  const pixelOf = ([x, y]: Point): number => Math.floor(y) * width + Math.floor(x);
  return conflicts.map((conflict, i) => {
    const first = marks[conflict.by];
    if (i >= SOUGHT || first === undefined || !('point' in first)) return conflict;
    const part = partOf(tick, 0.2 + (0.8 * i) / sought, 0.2 + (0.8 * (i + 1)) / sought);
    return {
      ...conflict,
      leaks: finder.findAny(pixelOf(first.point), pixelOf(conflict.point), part),
    };
  });
}
