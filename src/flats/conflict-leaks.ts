import { type Leak, LeakFinder } from '../gaps/leaks.ts';
import type { Study } from '../gaps/study.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type { Point } from '../raster/types.ts';
import type { Mark } from './marks/table.ts';
import type { PlanConflict } from './plan-report.ts';

/** Conflicts whose leaks are sought; each takes as long as a flood of the whole paper. */
const SOUGHT = 16;

/** Finds the leaks between points in conflict; what was found in one drawing is not sought again. */
export class ConflictLeaks {
  private readonly study: Study;
  private readonly coverage: Uint8Array | undefined;
  /** By both pixels, as text. */
  private readonly found: Map<string, readonly Leak[]> = new Map();
  private finder: LeakFinder | undefined;

  constructor(study: Study, coverage: Uint8Array | undefined) {
    this.study = study;
    this.coverage = coverage;
  }

  /** Conflicts of points, the first of them with the narrow places between the two. */
  addTo(
    conflicts: readonly PlanConflict[],
    marks: readonly Mark[],
    tick?: Tick,
  ): readonly PlanConflict[] {
    const sought = Math.min(SOUGHT, conflicts.length);
    return conflicts.map((conflict, i) => {
      const first = marks[conflict.by];
      if (i >= SOUGHT || first === undefined || !('point' in first)) return conflict;
      const part = partOf(tick, i / sought, (i + 1) / sought);
      return { ...conflict, leaks: this.between(first.point, conflict.point, part) };
    });
  }

  private between(a: Point, b: Point, tick: Tick | undefined): readonly Leak[] {
    const [width, height] = this.study.size;
    const pixelOf = ([x, y]: Point): number => Math.floor(y) * width + Math.floor(x);
    const [from, to] = [pixelOf(a), pixelOf(b)];
    const key = `${from} ${to}`;
    const known = this.found.get(key);
    if (known !== undefined) return known;
    const dense = this.coverage && { data: this.coverage, width, height, channels: 1 };
    this.finder ??= new LeakFinder(this.study, dense, partOf(tick, 0, 0.5));
    const leaks = this.finder.findAny(from, to, partOf(tick, 0.5, 1));
    this.found.set(key, leaks);
    return leaks;
  }
}
