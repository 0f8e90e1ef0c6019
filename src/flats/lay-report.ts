import type { Bridge } from '../gaps/bridge.ts';
import type { ClaimedPaper } from '../gaps/claims.ts';
import type { ThresholdChoice } from '../ink/threshold-table.ts';
import type { CheckException } from '../palette/exceptions.ts';
import type { Point } from '../raster/types.ts';
import type { PlanReport } from './assign.ts';
import type { PlacedMarks } from './check-plan.ts';
import type { Drawing } from './drawing.ts';
import { gapNotes, placeNotes, type Wishes } from './follow-marks.ts';
import type { Plan } from './plan.ts';
import type { ClaimedRegion, PlanConflict, PlanNote } from './plan-report.ts';

export interface LayFlatsReport extends PlanReport {
  /** `[width, height]` in pixels. */
  readonly size: readonly [number, number];
  /** What the ink was found to be drawn on: `'#rrggbb'` or `transparent`; left out when the ink was given. */
  readonly paper?: string;
  /** How the ink was found; left out when the ink was given. */
  readonly threshold?: ThresholdChoice;
  /** Pixels of ink. */
  readonly inkPixels: number;
  /** Gaps that were closed, and doubtful ones that were not. */
  readonly bridges: readonly Bridge[];
  /** Small regions that went to a neighbor. */
  readonly absorbed: number;
  /** Paper that named regions, or the ground, have claimed, with `unnamed: 'claim'`. */
  readonly claimed: readonly ClaimedRegion[];
  /** The plan's exceptions, which `checkFlats` takes from here; left out where it has none. */
  readonly exceptions?: readonly CheckException[];
}

/** What was done before the marks acted. */
export interface LaidBefore {
  readonly drawing: Drawing;
  readonly plan: Plan | undefined;
  readonly placed: PlacedMarks;
  readonly wishes: Wishes;
  readonly decided: {
    readonly bridges: readonly Bridge[];
    readonly claims: readonly ClaimedPaper[];
    readonly unmet: readonly number[];
  };
  readonly absorbed: number;
  readonly specks: readonly PlanNote[];
}

/** Puts together what became of the whole job; `at` tells what lies at a pixel in the end. */
export function layReport(
  { drawing, plan, placed, wishes, decided, absorbed, specks }: LaidBefore,
  report: PlanReport,
  conflicts: readonly PlanConflict[],
  at: (point: Point) => { readonly region: number; readonly swatch: string },
): LayFlatsReport {
  const { width, height, ink, inkPixels, paper, threshold, notes } = drawing;
  const { bridges, claims, unmet } = decided;
  const marks = plan?.marks ?? [];
  const closed = { ink, width, bridges };
  const unmetNotes = unmet.map((i) => ({ mark: wishes.openMarks[i]!, why: NO_BRIDGE }));
  return {
    size: [width, height],
    ...(threshold === undefined ? {} : { paper: paper!, threshold }),
    inkPixels,
    bridges,
    absorbed,
    ...report,
    conflicts,
    claimed: claims.map((claim) => ({ ...at(claim.at), ...claim })),
    notes: [
      ...notes,
      ...specks,
      ...settingNotes(threshold === undefined, plan),
      ...placeNotes(
        [...gapNotes(marks, placed.acts, closed), ...unmetNotes, ...report.notes],
        marks,
      ),
    ],
    ...(plan?.settings?.exceptions && { exceptions: plan.settings.exceptions }),
  };
}

/** What of a plan's settings has no use on this input. */
function settingNotes(inkGiven: boolean, plan: Plan | undefined): PlanNote[] {
  if (!inkGiven) return [];
  return (['coverage', 'threshold'] as const)
    .filter((name) => plan?.settings?.[name] !== undefined)
    .map((name) => ({ why: `the plan's setting of ${name} has no use: the ink was given` }));
}

const NO_BRIDGE = 'no gap that is closed, or might be, lies between the points';
