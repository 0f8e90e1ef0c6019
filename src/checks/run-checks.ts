import type { CheckException } from '../palette/exceptions.ts';
import type { FlatsLike, Swatch } from '../palette/types.ts';
import { checkSameSize, coverageArgument, maskArgument } from '../raster/arguments.ts';
import { checkCallback, checkOneOf } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import { checkMaskValues } from '../raster/mask-values.ts';
import { TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { AbortSignalLike } from '../raster/stages.ts';
import { checkSignal } from '../raster/stages.ts';
import type {
  Coverage,
  CoverageLike,
  Dense,
  Mask,
  MaskLike,
  Owned,
  PixelsLike,
} from '../raster/types.ts';
import type { CheckName } from './built-in/table.ts';
import { type CheckSettings, type ChosenCheck, chooseChecks } from './choose-checks.ts';
import { type CheckContext, sheetContext } from './context.ts';
import type { CheckNeed, FlatsCheck, FoundPlace } from './define-check.ts';
import { type Finding, SEVERITIES } from './finding.ts';
import { checkReport, type LaidReport } from './laid-report.ts';
import { measureSpans, wholePicture } from './places.ts';
import { type ReadSheet, readSheet } from './read-sheet.ts';

/** How far the checks have come. */
export interface CheckProgress {
  /** Name of the check that runs; the first one's while the sheet is read. */
  readonly check: string;
  /** Share of it that is done, 0 to 1. */
  readonly done: number;
}

export interface CheckFlatsOptions {
  /** The ink over the flats, its gaps closed; with it, seams are checked. @default none */
  readonly ink?: MaskLike | undefined;
  /**
   * With it, halo is checked; where there is no `ink`, coverage above 127 counts as ink. @default none
   */
  readonly coverage?: CoverageLike | undefined;
  /** What the flats may hold; a pixel of another color is `off`. @default whatever they hold */
  readonly palette?: readonly Swatch[] | undefined;
  /**
   * What `layFlats` reported; with it, forced seams, conflicts, notes on marks, a missing ground and
   * unnamed regions are told, and the plan's exceptions are left out. @default none
   */
  readonly report?: LaidReport | undefined;
  /** Names and own checks, which alone are run, or settings. @default all that can be run */
  readonly checks?: readonly (CheckName | FlatsCheck)[] | CheckSettings | undefined;
  /** Findings that are meant so and left out. @default those of the plan, as the report has them */
  readonly exceptions?: readonly CheckException[] | undefined;
  /** Called as the checks go on; what it throws ends the call and reaches the caller. */
  readonly onProgress?: ((progress: CheckProgress) => void) | undefined;
  /** Ends the call with its reason. */
  readonly signal?: AbortSignalLike | undefined;
}

/** What `runChecks` calls its arguments in errors. */
export interface ArgumentNames {
  readonly flats: string;
  readonly ink: string;
  readonly coverage: string;
  readonly report: string;
}

/** The checks of one sheet: its context, what was found, exceptions not yet left out, and what ran. */
export interface CheckedSheet {
  readonly context: CheckContext;
  readonly found: Finding[];
  /** Names of the checks that ran to their end. */
  readonly ran: ReadonlySet<string>;
}

/** Reads a sheet and runs the checks on it; option names are checked before. */
export function runChecks(
  input: FlatsLike | PixelsLike,
  options: CheckFlatsOptions,
  names: ArgumentNames,
): CheckedSheet {
  const { ink, coverage, palette, checks, signal } = options;
  const given = new Set<CheckNeed>();
  if (ink !== undefined || coverage !== undefined) given.add('ink');
  for (const need of ['coverage', 'palette', 'report'] as const) {
    if (options[need] !== undefined) given.add(need);
  }
  const chosen = chooseChecks(checks, given, (need) => (need === 'palette' ? need : names[need]));
  const report = checkReport(options.report, names.report);
  const onProgress = checkCallback(options.onProgress, 'onProgress');
  checkSignal(signal);
  let stopped = false;
  let name = chosen[0]?.check.name ?? '';
  let reached = 0;
  const tick = (done: number): void => {
    try {
      signal?.throwIfAborted();
      // What several checks share starts anew where one asks for it first.
      reached = Math.max(reached, done);
      onProgress?.({ check: name, done: reached });
    } catch (reason) {
      stopped = true;
      throw reason;
    }
  };
  const reading = (): void => tick(0);
  const read = readSheet(input, names.flats, palette, reading);
  const mask = ink === undefined ? undefined : inkOf(ink, read, names, reading);
  const tone = coverage === undefined ? undefined : toneOf(coverage, read, names);
  const parts = {
    ...read,
    ink: mask ?? (tone && inkOfTone(tone, reading)),
    coverage: tone,
    report,
  };
  const context = sheetContext(parts, tick);
  const ran = new Set<string>();
  const found: Finding[] = [];
  for (const { check, severity, thresholds } of chosen) {
    name = check.name;
    reached = 0;
    tick(0);
    try {
      for (const finding of findingsOf({ check, severity, thresholds }, context))
        found.push(finding);
      ran.add(name);
    } catch (reason) {
      if (stopped) throw reason;
      found.push(failureOf(name, reason, context.size));
    }
    tick(1);
  }
  return { context, found, ran };
}

/** The gravest first; else as they come. */
export function sortFindings<F extends Finding>(found: readonly F[]): F[] {
  const rank = ({ severity }: F): number => SEVERITIES.indexOf(severity);
  return [...found].sort((a, b) => rank(a) - rank(b));
}

/** What a check finds, each place checked and completed. */
function findingsOf(
  { check, severity, thresholds }: ChosenCheck,
  context: CheckContext,
): Finding[] {
  const own = check.run(context, thresholds);
  if (!Array.isArray(own)) throw wrongKind('what it finds', 'an array of findings', own);
  return own.map((place: FoundPlace, i) => {
    const at = checkPlace(place, `finding ${i}`, context.size);
    const [x, y] = [Math.floor(at[0]), Math.floor(at[1])];
    const { spans, length, swatches = [] } = place;
    const hasSpans = spans !== undefined && spans.length > 0;
    const own = hasSpans ? measureSpans(spans) : { bounds: [x, y, x + 1, y + 1] as const, area: 1 };
    const { bounds = own.bounds, area = own.area } = place;
    return {
      check: check.name,
      severity: place.severity ?? severity,
      message: place.message,
      at: [at[0], at[1]],
      bounds: [bounds[0], bounds[1], bounds[2], bounds[3]],
      area,
      ...(length === undefined ? {} : { length }),
      swatches,
      ...(spans === undefined ? {} : { spans }),
    };
  });
}

/** A finding must say what and where. */
function checkPlace(
  place: FoundPlace,
  name: string,
  [width, height]: readonly [number, number],
): FoundPlace['at'] {
  if (typeof place !== 'object' || place === null) {
    throw wrongKind(name, 'an object { message, at }', place);
  }
  const { message, at, severity } = place;
  if (typeof message !== 'string') throw wrongKind(`message of ${name}`, 'a string', message);
  if (severity !== undefined) checkOneOf(severity, `severity of ${name}`, SEVERITIES);
  const allowed = `a point [x, y] inside the picture of ${width} × ${height}`;
  if (!Array.isArray(at) || at.length !== 2) throw wrongKind(`at of ${name}`, allowed, at);
  const [x, y] = at;
  if (!(x >= 0 && y >= 0 && x < width && y < height)) {
    throw wrongValue(`at of ${name}`, allowed, at);
  }
  return at;
}

function failureOf(check: string, reason: unknown, size: readonly [number, number]): Finding {
  const why = reason instanceof Error ? reason.message : String(reason);
  const message = `the check "${check}" failed: ${why}`;
  const place = wholePicture(size);
  return { check, severity: 'error', message, ...place, swatches: [], failed: true };
}

function inkOf(ink: MaskLike, sheet: ReadSheet, names: ArgumentNames, tick: Tick): Mask {
  const dense = maskArgument(ink, names.ink);
  checkSize(dense, names.ink, sheet, names);
  checkMaskValues(dense, names.ink, tick);
  return raster(dense.data as Owned<Uint8Array>, [dense.width, dense.height]);
}

function toneOf(coverage: CoverageLike, sheet: ReadSheet, names: ArgumentNames): Coverage {
  const dense = coverageArgument(coverage, names.coverage);
  checkSize(dense, names.coverage, sheet, names);
  return raster(dense.data as Owned<Uint8Array>, [dense.width, dense.height]);
}

function inkOfTone({ data, shape }: Coverage, tick: Tick): Mask {
  const ink = new Uint8Array(data.length);
  for (let i = 0; i < ink.length; i++) {
    if (i % TICK_PIXELS === 0) tick(i / ink.length);
    if (data[i]! > 127) ink[i] = 1;
  }
  return raster(ink, shape);
}

function checkSize(dense: Dense, name: string, { flats }: ReadSheet, names: ArgumentNames): void {
  const [width, height] = flats.indices.shape as [number, number];
  checkSameSize({ width, height }, names.flats, dense, name);
}
