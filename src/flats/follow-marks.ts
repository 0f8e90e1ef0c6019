import type { Gap } from '../gaps/asked.ts';
import { biasOf } from '../gaps/seal-options.ts';
import type { PlanWishes } from '../gaps/study.ts';
import type { Swatch } from '../palette/types.ts';
import type { Tick } from '../raster/progress.ts';
import type { Point } from '../raster/types.ts';
import type { Acting } from './marks/acting.ts';
import { GapWishes } from './marks/gap-wishes.ts';
import type { ClosedGaps } from './marks/mark-type.ts';
import { type Mark, typeOf } from './marks/table.ts';
import type { PlanNote } from './plan-report.ts';
import type { LaySettings } from './settings.ts';

/** What marks ask of gap closing. */
export interface Wishes {
  /** Names of the swatches whose points are to be kept apart, and their points. */
  readonly swatches: readonly string[];
  readonly apart: readonly (readonly Point[])[];
  readonly together: readonly (readonly Point[])[];
  readonly kept: readonly Point[];
  readonly bridge: readonly Gap[];
  readonly open: readonly Gap[];
  /** Place in the plan of the mark of each open gap. */
  readonly openMarks: readonly number[];
}

/** What the marks that act ask of gap closing. */
export function gapWishes(
  marks: readonly Mark[],
  acts: readonly boolean[],
  [width, height]: readonly [number, number],
): Wishes {
  const wishes = new GapWishes();
  const openMarks: number[] = [];
  marks.forEach((mark, i) => {
    if (acts[i]) typeOf(mark).wish?.(mark, wishes);
    while (openMarks.length < wishes.open.length) openMarks.push(i);
  });
  const { apart, together, kept, bridge, open } = wishes;
  const inside = ([x, y]: Point): boolean => x >= 0 && y >= 0 && x < width && y < height;
  return {
    swatches: [...apart.keys()],
    apart: [...apart.values()],
    together: together.map((points) => points.filter(inside)),
    kept,
    bridge,
    open,
    openMarks,
  };
}

/** What is asked of gap closing in all: by the settings and by the marks. */
export function planWishes(
  { maxGap = 'auto', caution = 0.5, unnamed = 'each' }: LaySettings,
  ground: Swatch,
  wishes: Wishes,
): PlanWishes & Wishes {
  const claim = unnamed === 'claim';
  const groundMarked = wishes.swatches.includes(ground.name);
  return { maxGap, bias: biasOf(caution), claim, groundMarked, ...wishes };
}

/** Notes on marks, each with the first of its mark's points. */
export function placeNotes(notes: readonly PlanNote[], marks: readonly Mark[]): PlanNote[] {
  return notes.map(({ mark, why }) =>
    mark === undefined ? { why } : { mark, at: beginOf(marks[mark]!), why },
  );
}

function beginOf(mark: Mark): Point {
  const points: Point[] = [];
  typeOf(mark).move(mark, (point) => {
    points.push(point);
    return point;
  });
  return points[0]!;
}

/** What of the marks may want a look once the gaps are closed. */
export function gapNotes(
  marks: readonly Mark[],
  acts: readonly boolean[],
  closed: ClosedGaps,
): PlanNote[] {
  const notes: PlanNote[] = [];
  marks.forEach((mark, i) => {
    const why = acts[i] ? typeOf(mark).look?.(mark, closed) : undefined;
    if (why !== undefined) notes.push({ mark: i, why });
  });
  return notes;
}

/** Marks between two ticks, of those that take no time by themselves. */
const TICK_MARKS = 64;

/** Lets the marks that act do so, in order, of all or of `[from, to)`. */
export function followMarks(
  marks: readonly Mark[],
  acts: readonly boolean[],
  acting: Acting,
  tick: Tick | undefined,
  [from, to]: readonly [number, number] = [0, marks.length],
): void {
  const { regions } = acting;
  if (tick !== undefined) regions.pulse = () => tick(acting.mark / marks.length);
  for (let i = from; i < to; i++) {
    if (!acts[i]) continue;
    const mark = marks[i]!;
    acting.mark = i;
    if (i % TICK_MARKS === 0) regions.pulse();
    typeOf(mark).act(mark, acting);
  }
}
