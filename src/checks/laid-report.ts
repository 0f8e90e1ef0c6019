import type { Leak } from '../gaps/leaks.ts';
import type { CheckException } from '../palette/exceptions.ts';
import { checkPoint } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import type { Bounds, Point } from '../raster/types.ts';

/** What the checks read of a bridge in the report of `layFlats`. */
export interface ReportedBridge {
  readonly from: Point;
  readonly to: Point;
  readonly drawn: boolean;
  /** Drawn only because points of different swatches asked for it. */
  readonly forced?: boolean | undefined;
}

/** What they read of a region that no mark names. */
export interface ReportedRegion {
  readonly id: number;
  /** A point inside. */
  readonly inside: Point;
  readonly area: number;
  readonly bounds: Bounds;
}

/** What they read of two swatches that fell in one region. */
export interface ReportedConflict {
  /** Place in the plan's marks of the one that came too late. */
  readonly mark: number;
  /** Its point. */
  readonly point: Point;
  readonly swatch: string;
  /** What the region has, and the mark that gave it that. */
  readonly keeps: string;
  readonly by: number;
  /** The narrow places between the two, narrowest first. */
  readonly leaks?: readonly Pick<Leak, 'at' | 'width' | 'bridge'>[] | undefined;
}

/** What they read of a mark that did not do what it says. */
export interface ReportedNote {
  readonly mark?: number | undefined;
  /** Where the mark begins. */
  readonly at?: Point | undefined;
  readonly why: string;
}

/** What they read of the report of `layFlats`. */
export interface LaidReport {
  readonly bridges: readonly ReportedBridge[];
  /** The regions that no mark names; from their number alone nothing can be told. */
  readonly unnamed: number | readonly ReportedRegion[];
  /** Marks of two swatches in one region. */
  readonly conflicts?: readonly ReportedConflict[] | undefined;
  /** What may want a look; of notes on marks only, with a place, are findings made. */
  readonly notes?: readonly ReportedNote[] | undefined;
  /** The regions that touch the picture's border. */
  readonly border?: readonly { readonly swatch: string }[] | undefined;
  /** Of the plan that was laid. */
  readonly exceptions?: readonly CheckException[] | undefined;
}

/** A report argument; the leaks of conflicts, which a page seeks when they are read, are not. O(entries). */
export function checkReport(report: LaidReport | undefined, name: string): LaidReport | undefined {
  if (report === undefined) return undefined;
  if (typeof report !== 'object' || report === null || !Array.isArray(report.bridges)) {
    throw wrongKind(name, 'the report of layFlats', report);
  }
  report.bridges.forEach((bridge: ReportedBridge, i) => {
    checkPoint(bridge?.from, `${name}.bridges[${i}].from`);
    checkPoint(bridge.to, `${name}.bridges[${i}].to`);
  });
  if (Array.isArray(report.unnamed)) {
    report.unnamed.forEach((region: ReportedRegion, i) => {
      checkPoint(region?.inside, `${name}.unnamed[${i}].inside`);
    });
  } else if (typeof report.unnamed !== 'number') {
    throw wrongKind(`${name}.unnamed`, 'a list of regions or their number', report.unnamed);
  }
  const { conflicts = [], notes = [], border = [] } = report;
  if (!Array.isArray(conflicts)) {
    throw wrongKind(`${name}.conflicts`, 'a list of conflicts', conflicts);
  }
  conflicts.forEach((conflict: ReportedConflict, i) => {
    checkPoint(conflict?.point, `${name}.conflicts[${i}].point`);
  });
  if (!Array.isArray(notes)) throw wrongKind(`${name}.notes`, 'a list of notes', notes);
  notes.forEach((note: ReportedNote, i) => {
    if (note?.at !== undefined) checkPoint(note.at, `${name}.notes[${i}].at`);
  });
  if (!Array.isArray(border)) throw wrongKind(`${name}.border`, 'a list of regions', border);
  return report;
}
