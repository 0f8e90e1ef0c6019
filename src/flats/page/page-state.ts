import { BARE_SWATCH } from '../../palette/swatches.ts';
import type { Swatch } from '../../palette/types.ts';
import { partOf } from '../../raster/progress.ts';
import type { Ticks } from '../../raster/stages.ts';
import type { Bounds, Point } from '../../raster/types.ts';
import { withoutCommon } from '../../runs/change-parts.ts';
import { partAt } from '../../runs/parts.ts';
import type { Assignment } from '../assign.ts';
import { placeMarks } from '../check-plan.ts';
import { ConflictLeaks } from '../conflict-leaks.ts';
import type { Drawing } from '../drawing.ts';
import { gapWishes, planWishes } from '../follow-marks.ts';
import { checkGround } from '../ground.ts';
import type { LayProgress } from '../grow-regions.ts';
import { type LayFlatsReport, layReport } from '../lay-report.ts';
import { typeOf } from '../marks/table.ts';
import type { Plan } from '../plan.ts';
import { findDisc } from './find-disc.ts';
import { type Groundwork, layGroundwork } from './groundwork.ts';
import { placeIn } from './label-rows.ts';
import { MarkTrail } from './mark-trail.ts';
import { eachSpan, matchRegions, type NumberedRows, settledNumbers } from './match-regions.ts';
import { idsAtBorder, type MeasuredRows, measureRows } from './measure-rows.ts';
import { type Disc, nameRegions, type Placeholders } from './name-regions.ts';
import { adjacencyOfRows } from './unmarked.ts';

type Decided = ReturnType<Drawing['study']['decide']>;

/** All that is known of a page under one plan; nothing of it changes. */
export interface PageState extends NumberedRows {
  readonly drawing: Drawing;
  readonly plan: Plan;
  readonly outside: 'error' | 'report';
  /** What the plan asks of gap closing, as text. */
  readonly asked: string;
  readonly decided: Decided;
  readonly groundwork: Groundwork;
  /** The last one before that, for undo. */
  readonly earlier: Groundwork | undefined;
  /** One past the highest id that was ever given. */
  readonly nextId: number;
  readonly measured: MeasuredRows;
  readonly discs: ReadonlyMap<number, Disc>;
  readonly placeholders: Placeholders;
  readonly assigned: Assignment;
  readonly report: LayFlatsReport;
  /** Of the drawing. */
  readonly leaks: ConflictLeaks;
  /** What marks of this plan and others before it left. */
  readonly trail: MarkTrail;
}

/** What a plan is laid on. */
export interface Basis {
  readonly drawing: Drawing;
  readonly outside: 'error' | 'report';
  /** The page as it is under the plan before; undefined where none was laid. */
  readonly before?: PageState | undefined;
}

/** Lays a checked plan. What the plan before shares with it is taken over. */
export function nextState(
  { drawing, outside, before }: Basis,
  plan: Plan,
  ticks: Ticks<LayProgress['stage']>,
): PageState {
  const { width, height, study } = drawing;
  const { settings = {} } = plan;
  const { absorb = 0, unnamed = 'each' } = settings;
  const ground = checkGround(settings.ground);
  const placed = placeMarks(plan.marks, width, height, outside);
  const wishes = gapWishes(plan.marks, placed.acts, [width, height]);
  const rule = planWishes(settings, ground, wishes);
  const asked = JSON.stringify({ ...rule, openMarks: undefined });
  /** The page before, where it is of the same drawing. */
  const last = before?.drawing === drawing ? before : undefined;
  const decided = last?.asked === asked ? last.decided : study.decide(rule, ticks('gaps', 0.8, 1));
  const known = [last?.groundwork, last?.earlier];
  const groundwork = layGroundwork(
    drawing,
    decided.closed,
    absorb,
    known.filter((one) => one !== undefined),
    ticks,
  );
  const earlier = known.find((one) => one !== groundwork);
  const { grown, unmarked } = groundwork;

  const tick = ticks('flats', 0.1, 1);
  tick?.(0);
  const palette = [BARE_SWATCH, ...plan.palette];
  const isSealed = ([x, y]: Point): boolean => partAt(grown.paper, x, y) === 0;
  const acts = placed.acts.map((act, i) => act && typeOf(plan.marks[i]!).ofGap !== true);
  const trail = before?.trail ?? new MarkTrail();
  const following = partOf(tick, 0, 0.5);
  const { map, acting } = trail.follow(unmarked, palette, plan.marks, acts, following);
  const marked = map.finish();
  const { rows } = map;
  const roots = Int32Array.from(marked.swatch, (_, id) => map.rootOf(id));
  const matched =
    before === undefined
      ? { ids: roots, nextId: roots.length }
      : matchRegions(before, rows, roots, width, before.nextId);
  const { ids, nextId } = matched;
  tick?.(0.55);
  const measured = measureRows(rows, ids, width, nextId);
  const swatch = new Int32Array(nextId);
  for (const [number, root] of roots.entries()) {
    if (number === root && number > 0) swatch[ids[number]!] = marked.swatch[number]!;
  }
  const atBorder = map.changed
    ? idsAtBorder(rows, ids, width, (x, y) => !isSealed([x, y]))
    : undefined;
  const border = new Set<number>();
  for (const root of marked.border) {
    const id = ids[root]!;
    if (measured.areas[id]! > 0 && (atBorder?.has(id) ?? true)) border.add(id);
  }
  tick?.(0.6);

  const discs = new Map(keptDiscs(last, { rows, ids }, drawing, decided.closed));
  const named = nameRegions({
    palette: plan.palette,
    ground,
    unnamed,
    swatch,
    measured,
    border,
    width,
    before: before?.placeholders ?? new Map(),
    discOf: (id) => {
      const known = discs.get(id);
      if (known !== undefined) return known;
      const bounds = [...measured.bounds.subarray(4 * id, 4 * id + 4)] as Bounds;
      const disc = findDisc({ rows, ids }, grown.paper, id, bounds);
      discs.set(id, disc);
      return disc;
    },
    pairs: () => adjacencyOfRows(rows, width, ids),
  });
  const { assigned, placeholders } = named;
  tick?.(0.9);
  const open = new Set(assigned.counts.unnamed.map(({ id }) => id));
  for (const id of discs.keys()) if (!open.has(id)) discs.delete(id);

  const idAt = ([x, y]: Point): number => {
    const row = rows[Math.floor(y)]!;
    return ids[row[placeIn(row, Math.floor(x)) + 1]!]!;
  };
  const swatchOf = (id: number): Swatch => assigned.palette[assigned.indexOf[id]!]!;
  const conflicts = acting.conflicts.map((conflict) => {
    return { ...conflict, region: idAt(conflict.point) };
  });
  const leaks = last?.leaks ?? new ConflictLeaks(study, drawing.coverage);
  const { notes, unlabeled } = acting;
  const report = layReport(
    { ...unmarked, drawing, plan, placed, wishes, decided },
    {
      ...assigned.counts,
      border: [...border]
        .sort((a, b) => a - b)
        .map((region) => ({ region, swatch: swatchOf(region).name })),
      conflicts,
      outside: placed.outside,
      unlabeled,
      notes,
    },
    leaks.addLater(conflicts, plan.marks),
    (point) => ({ region: idAt(point), swatch: swatchOf(idAt(point)).name }),
  );
  tick?.(1);
  return {
    drawing,
    plan,
    outside,
    asked,
    decided,
    groundwork,
    earlier,
    rows,
    ids,
    nextId,
    measured,
    discs,
    placeholders,
    assigned,
    report,
    leaks,
    trail,
  };
}

/** The discs of regions whose pixels and paper are the same as before. */
function* keptDiscs(
  before: PageState | undefined,
  now: NumberedRows,
  { width }: Drawing,
  closed: Int32Array,
): IterableIterator<[number, Disc]> {
  if (before === undefined || before.discs.size === 0) return;
  const changed = new Set<number>();
  const settled = settledNumbers(before, now, () => true);
  eachSpan(before.rows, now.rows, width, settled, (_, __, ___, old, number) => {
    const [was, id] = [before.ids[old]!, now.ids[number]!];
    if (was === id) return;
    changed.add(was);
    changed.add(id);
  });
  const [old, own] = [before.decided.closed, closed];
  for (const pixels of [withoutCommon(old, own), withoutCommon(own, old)]) {
    for (const p of pixels) {
      const x = p % width;
      const row = now.rows[(p - x) / width]!;
      changed.add(now.ids[row[placeIn(row, x) + 1]!]!);
    }
  }
  for (const [id, disc] of before.discs) if (!changed.has(id)) yield [id, disc];
}
