import type { SavedStudy } from '../../gaps/saved-study.ts';
import { Study } from '../../gaps/study.ts';
import type { Swatch } from '../../palette/types.ts';
import { checkHead, withSum } from '../../raster/saved-data.ts';
import type { Dense, PixelData } from '../../raster/types.ts';
import { findParts } from '../../runs/parts.ts';
import type { Assignment } from '../assign.ts';
import { ConflictLeaks, withoutLeaks } from '../conflict-leaks.ts';
import type { Source } from '../find-ink.ts';
import type { LayFlatsReport } from '../lay-report.ts';
import type { Plan } from '../plan.ts';
import type { PlanNote } from '../plan-report.ts';
import { checkRows, checkSavedPage } from './check-saved-page.ts';
import type { LabelRow } from './label-rows.ts';
import { MarkTrail } from './mark-trail.ts';
import type { MeasuredRows } from './measure-rows.ts';
import type { Disc } from './name-regions.ts';
import type { PageState } from './page-state.ts';
import { unmarkedRegions } from './unmarked.ts';

const KIND = 'underink page';
const VERSION = 2;

/**
 * A page as plain data: what structured clone, `postMessage` and IndexedDB take. What it holds beside
 * the first fields is for `openPage` alone, and may differ in another version.
 */
export interface SavedPage {
  readonly kind: typeof KIND;
  readonly version: typeof VERSION;
  /** `[width, height]` in pixels. */
  readonly size: readonly [number, number];
  /** The plan that is laid. */
  readonly plan: Plan;
  readonly outside: 'error' | 'report';
  /** The pixels of the page, where it was opened on pixels; not copied. */
  readonly pixels?: Dense<PixelData>;
  readonly coverage?: Uint8Array;
  readonly study: SavedStudy;
  readonly found: {
    readonly inkPixels: number;
    readonly paper?: string;
    readonly threshold?: PageState['drawing']['threshold'];
    readonly notes: readonly PlanNote[];
  };
  readonly asked: string;
  readonly decided: PageState['decided'];
  readonly grown: SavedRows;
  readonly rows: SavedRows;
  readonly ids: Int32Array;
  readonly nextId: number;
  readonly measured: MeasuredRows;
  readonly discs: readonly (readonly [number, Disc])[];
  readonly placeholders: readonly (readonly [number, Swatch])[];
  readonly assigned: Assignment;
  /** Without the leaks of conflicts. */
  readonly report: LayFlatsReport;
  /** Tells data that was changed or damaged. */
  readonly sum: number;
}

/** Rows one behind the other, each with its length. */
export interface SavedRows {
  readonly lengths: Int32Array;
  readonly data: Int32Array;
}

/** The page under its plan as plain data. */
export function savePage({ pixels }: Source, state: PageState): SavedPage {
  const { drawing, groundwork, rows, discs, placeholders } = state;
  const { width, height, coverage, study, inkPixels, paper, threshold, notes } = drawing;
  return withSum({
    kind: KIND,
    version: VERSION,
    size: [width, height],
    plan: state.plan,
    outside: state.outside,
    ...(pixels === undefined ? {} : { pixels }),
    ...(coverage === undefined ? {} : { coverage }),
    study: study.save(),
    found: {
      inkPixels,
      notes,
      ...(paper === undefined ? {} : { paper }),
      ...(threshold === undefined ? {} : { threshold }),
    },
    asked: state.asked,
    decided: state.decided,
    grown: joinRows(groundwork.grown.rows),
    rows: joinRows(rows),
    ids: state.ids,
    nextId: state.nextId,
    measured: state.measured,
    discs: [...discs],
    placeholders: [...placeholders],
    assigned: state.assigned,
    report: { ...state.report, conflicts: withoutLeaks(state.report.conflicts) },
  });
}

/** Takes back what `savePage` gave. */
export function restorePage(saved: SavedPage): { source: Source; state: PageState } {
  checkHead(saved, 'saved', KIND, VERSION, 'what save() of a page gives');
  checkSavedPage(saved, 'saved');
  const [width, height] = saved.size;
  const study = Study.restore(saved.study);
  const { pixels, coverage, decided, plan } = saved;
  const given = coverage === undefined ? {} : { coverage };
  const source = { width, height, ...(pixels ? { pixels } : { ink: study.ink, ...given }) };
  const drawing = { ...saved.found, width, height, ink: study.ink.data, coverage, study };
  const paper = findParts(study.packedWith(decided.closed));
  // no more regions than the paper has
  checkRows(saved.grown, 'saved.grown', saved.size, paper.count);
  const grown = { paper, rows: splitRows(saved.grown) };
  const absorb = plan.settings?.absorb ?? 0;
  const leaks = new ConflictLeaks(study, coverage);
  const conflicts = leaks.addLater(saved.report.conflicts, plan.marks);
  const state: PageState = {
    drawing: drawing as PageState['drawing'],
    plan,
    outside: saved.outside,
    asked: saved.asked,
    decided,
    groundwork: {
      closed: decided.closed,
      grown,
      absorb,
      unmarked: unmarkedRegions(grown, absorb),
    },
    earlier: undefined,
    rows: splitRows(saved.rows),
    ids: saved.ids,
    nextId: saved.nextId,
    measured: saved.measured,
    discs: new Map(saved.discs),
    placeholders: new Map(saved.placeholders),
    assigned: saved.assigned,
    report: { ...saved.report, conflicts },
    leaks,
    trail: new MarkTrail(),
  };
  return { source, state };
}

function joinRows(rows: readonly LabelRow[]): SavedRows {
  const lengths = Int32Array.from(rows, (row) => row.length);
  const data = new Int32Array(lengths.reduce((sum, length) => sum + length, 0));
  let at = 0;
  for (const row of rows) {
    data.set(row, at);
    at += row.length;
  }
  return { lengths, data };
}

/** Rows as parts of one array. */
function splitRows({ lengths, data }: SavedRows): LabelRow[] {
  let at = 0;
  return Array.from(lengths, (length) => data.subarray(at, (at += length)));
}
