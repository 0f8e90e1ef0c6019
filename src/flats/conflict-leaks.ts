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
    return mapSought(conflicts, marks, (conflict, from, i) => {
      const part = partOf(tick, i / sought, (i + 1) / sought);
      return { ...conflict, leaks: this.between(from, conflict.point, part) };
    });
  }

  /** The same, but that leaks are sought when they are first read. */
  addLater(conflicts: readonly PlanConflict[], marks: readonly Mark[]): readonly PlanConflict[] {
    return mapSought(conflicts, marks, (conflict, from) => {
      const seek = (): readonly Leak[] => this.between(from, conflict.point, undefined);
      return {
        ...conflict,
        get leaks() {
          return seek();
        },
      };
    });
  }

  /** What finds leaks in the drawing, made when it is first asked for. */
  finderWith(tick?: Tick): LeakFinder {
    const [width, height] = this.study.size;
    const dense = this.coverage && { data: this.coverage, width, height, channels: 1 };
    this.finder ??= new LeakFinder(this.study, dense, tick);
    return this.finder;
  }

  private between(a: Point, b: Point, tick: Tick | undefined): readonly Leak[] {
    const [width] = this.study.size;
    const pixelOf = ([x, y]: Point): number => Math.floor(y) * width + Math.floor(x);
    const [from, to] = [pixelOf(a), pixelOf(b)];
    const key = `${from} ${to}`;
    const known = this.found.get(key);
    if (known !== undefined) return known;
    const leaks = this.finderWith(partOf(tick, 0, 0.5)).findAny(from, to, partOf(tick, 0.5, 1));
    this.found.set(key, leaks);
    return leaks;
  }
}

/** Changes the conflicts whose leaks are sought, which are between two points. */
function mapSought(
  conflicts: readonly PlanConflict[],
  marks: readonly Mark[],
  change: (conflict: PlanConflict, from: Point, i: number) => PlanConflict,
): PlanConflict[] {
  return conflicts.map((conflict, i) => {
    const first = marks[conflict.by];
    const sought = i < SOUGHT && first !== undefined && 'point' in first;
    return sought ? change(conflict, first.point, i) : conflict;
  });
}

/** The conflicts without their leaks. */
export function withoutLeaks(conflicts: readonly PlanConflict[]): PlanConflict[] {
  return conflicts.map(({ mark, point, swatch, keeps, by, region }) => {
    return { mark, point, swatch, keeps, by, region };
  });
}
