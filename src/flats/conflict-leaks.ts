import { findLeaks } from '../gaps/leaks.ts';
import type { Study } from '../gaps/study.ts';
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
): PlanConflict[] {
  const [width, height] = study.size;
  const dense = coverage && { data: coverage, width, height, channels: 1 };
  const pixelOf = ([x, y]: Point): number => Math.floor(y) * width + Math.floor(x);
  return conflicts.map((conflict, i) => {
    const first = marks[conflict.by];
    if (i >= SOUGHT || first === undefined || !('point' in first)) return conflict;
    const leaks = findLeaks(study, pixelOf(first.point), pixelOf(conflict.point), dense);
    return { ...conflict, leaks };
  });
}
