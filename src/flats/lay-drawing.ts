import type { GapStudy } from '../gaps/study.ts';
import { Scratch } from '../raster/scratch.ts';
import type { Ticks } from '../raster/stages.ts';
import type { Mask, Owned } from '../raster/types.ts';
import type { Assignment, PlanReport } from './assign.ts';
import { type PlacedMarks, placeMarks } from './check-plan.ts';
import { readDrawing } from './drawing.ts';
import type { Source } from './find-ink.ts';
import { gapWishes, planWishes } from './follow-marks.ts';
import { checkGround } from './ground.ts';
import { growRegions, type LayProgress } from './grow-regions.ts';
import { layRegions } from './lay-regions.ts';
import type { LaidBefore } from './lay-report.ts';
import type { Plan } from './plan.ts';
import type { LaySettings } from './settings.ts';

/** A drawing and what is to be laid on it, checked. */
export interface Lay {
  readonly source: Source;
  readonly plan: Plan | undefined;
  /** The plan's and those of the call. */
  readonly settings: LaySettings;
  readonly outside: 'error' | 'report';
  /** Whether regions that no mark names are listed and get a placeholder. */
  readonly placeholders: boolean;
  readonly study?: GapStudy | undefined;
  readonly ticks: Ticks<LayProgress['stage']>;
}

/** A drawing with its regions, each with its swatch, before flats are painted. */
export interface LaidDrawing {
  readonly before: LaidBefore;
  readonly sealed: Mask;
  /** The regions grown under the ink, after the plan. */
  readonly labels: Owned<Int32Array>;
  readonly assigned: Assignment;
  readonly report: PlanReport;
}

/**
 * Finds the ink, closes its gaps, finds and grows the regions and lets the plan's marks act: `layFlats`
 * as far as nothing is painted and no reason of a conflict is sought.
 */
export function layDrawing(lay: Lay): LaidDrawing {
  const { source, plan, settings, ticks } = lay;
  const size = [source.width, source.height] as const;
  const { absorb = 0, unnamed = 'each' } = settings;
  const marks = plan?.marks ?? [];
  const placed: PlacedMarks = placeMarks(marks, ...size, lay.outside);
  const wishes = gapWishes(marks, placed.acts, size);
  const ground = checkGround(settings.ground);

  ticks('ink')?.(0);
  const labels = new Int32Array(source.width * source.height);
  const scratch = new Scratch(labels);
  const drawing = readDrawing(source, settings, lay.study, ticks, scratch);
  const { study, coverage } = drawing;
  const decided = study.decide(planWishes(settings, ground, wishes), ticks('gaps', 0.8, 0.98));
  study.release();
  const sealed = study.sealedBy(decided.closed, ticks('gaps', 0.98, 0.99));
  scratch.clear(ticks('gaps', 0.99, 1));
  const grown = growRegions(sealed.data, size, coverage, absorb, ticks, labels);
  const { absorbed, specks } = grown;
  const laid = layRegions(labels, size, {
    ...grown,
    ink: sealed.data,
    gapsDecided: true,
    plan,
    placed,
    ground,
    unnamed: lay.placeholders ? unnamed : undefined,
    tick: ticks('flats', 0.1, 0.7),
  });
  const before = { drawing, plan, placed, wishes, decided, absorbed, specks };
  return { before, sealed, labels, ...laid };
}
