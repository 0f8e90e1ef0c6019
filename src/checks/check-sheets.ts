import type { CheckException } from '../palette/exceptions.ts';
import type { FlatsLike } from '../palette/types.ts';
import { checkCallback, checkOneOf, checkOptions } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import { checkSignal } from '../raster/stages.ts';
import type { CoverageLike, MaskLike, PixelsLike } from '../raster/types.ts';
import type { CheckContext } from './context.ts';
import { Exceptions, staleFinding } from './exceptions.ts';
import type { Finding } from './finding.ts';
import type { LaidReport } from './laid-report.ts';
import { describePlace, spansOfValues, wholePicture } from './places.ts';
import {
  type CheckFlatsOptions,
  type CheckProgress,
  runChecks,
  sortFindings,
} from './run-checks.ts';

/** One sheet of a production. */
export interface NamedSheet {
  /** Unique among the sheets. */
  readonly name: string;
  readonly flats: FlatsLike | PixelsLike;
  readonly ink?: MaskLike | undefined;
  readonly coverage?: CoverageLike | undefined;
  /** What `layFlats` reported. */
  readonly report?: LaidReport | undefined;
}

/** A finding with the name of its sheet. */
export interface SheetFinding extends Finding {
  readonly sheet: string;
}

/** A finding that is meant so, on one sheet or on all. */
export interface SheetException extends CheckException {
  /** @default all sheets */
  readonly sheet?: string | undefined;
}

/** As for `checkFlats`; what belongs to one drawing stands with its sheet. */
export interface CheckSheetsOptions
  extends Pick<CheckFlatsOptions, 'palette' | 'checks' | 'signal'> {
  /** @default those of the plans, as the reports of the sheets have them */
  readonly exceptions?: readonly SheetException[] | undefined;
  /** Called as the checks go on; what it throws ends the call and reaches the caller. */
  readonly onProgress?:
    | ((progress: CheckProgress & { readonly sheet: string }) => void)
    | undefined;
}

/** Name of the check of all sheets against one another. */
const COLORS = 'colors';

/**
 * Checks the sheets of a production, each as `checkFlats` does, and all against one another: a
 * swatch name must have one color on all sheets (check `colors`, an error, placed at the swatch's
 * pixels). Findings come sheet by sheet; a color that differs is a finding of each sheet that departs
 * from the first one with the name. An exception without a sheet counts for all; one to which nothing
 * belongs on any of them is a finding of its sheet, or of the first. `summarizeFindings` counts them.
 * O(pixels + findings · log).
 *
 * @throws TypeError or RangeError, naming the place in `sheets`, for what is no sheet; for two
 *   sheets of one name.
 * @example
 * ```ts
 * import { checkSheets, raster } from 'underink';
 * const sheet = (name: string, color: string) => ({
 *   name,
 *   flats: {
 *     indices: raster(new Uint8Array(16).fill(1), [4, 4]),
 *     palette: [{ name: 'bare', color: '#000000' }, { name: 'fur', color }],
 *   },
 * });
 * const found = checkSheets([sheet('one', '#8a5d42'), sheet('two', '#8a5d43')]);
 * console.log(found[0]?.sheet, found[0]?.message); // two "fur" is #8a5d43, on "one" #8a5d42
 * ```
 */
export function checkSheets(
  sheets: readonly NamedSheet[],
  options?: CheckSheetsOptions,
): SheetFinding[] {
  const names = ['palette', 'checks', 'exceptions', 'onProgress', 'signal'] as const;
  const { palette, checks, signal, onProgress, ...rest } = checkOptions(
    options,
    'checkSheets',
    names,
  );
  checkCallback(onProgress, 'onProgress');
  checkSignal(signal);
  checkSheetList(sheets);
  const exceptions = new Exceptions(
    rest.exceptions ??
      sheets.flatMap(({ name, report }) =>
        (report?.exceptions ?? []).map((exception) => ({ ...exception, sheet: name })),
      ),
    ['sheet'],
  );
  rest.exceptions?.forEach(({ sheet }, i) => {
    if (sheet === undefined) return;
    checkOneOf(
      sheet,
      `exceptions[${i}].sheet`,
      sheets.map(({ name }) => name),
    );
  });
  const known = new Map<string, { color: string; sheet: string }>();
  const sizes = new Map<string, readonly [number, number]>();
  const everRan = new Set([COLORS]);
  const found = new Map<string, Finding[]>();
  sheets.forEach(({ name, flats, ink, coverage, report }, i) => {
    const tell = onProgress && ((at: CheckProgress) => onProgress({ sheet: name, ...at }));
    const settings = { ink, coverage, report, palette, checks, signal, onProgress: tell };
    const path = `sheets[${i}]`;
    const argument = {
      flats: `${path}.flats`,
      ink: `${path}.ink`,
      coverage: `${path}.coverage`,
      report: `${path}.report`,
    };
    const { context, ran, found: own } = runChecks(flats, settings, argument);
    for (const check of ran) everRan.add(check);
    sizes.set(name, context.size);
    const all = [...own, ...differing(context, departures(context, name, known))];
    found.set(
      name,
      exceptions.keep(all, ({ sheet = name }) => sheet === name),
    );
  });
  for (const exception of exceptions.unmatched(everRan)) {
    const sheet = exception.sheet ?? sheets[0]?.name;
    if (sheet !== undefined) found.get(sheet)!.push(staleFinding(exception, sizes.get(sheet)!));
  }
  return sheets.flatMap(({ name }) =>
    sortFindings(found.get(name)!).map((finding) => ({ sheet: name, ...finding })),
  );
}

function checkSheetList(sheets: readonly NamedSheet[]): void {
  if (!Array.isArray(sheets)) throw wrongKind('sheets', 'an array of { name, flats }', sheets);
  const seen = new Set<string>();
  sheets.forEach((sheet: NamedSheet, i) => {
    const { name } = checkOptions(sheet, `sheets[${i}]`, [
      'name',
      'flats',
      'ink',
      'coverage',
      'report',
    ]);
    if (typeof name !== 'string') throw wrongKind(`sheets[${i}].name`, 'a string', name);
    if (seen.has(name)) throw wrongValue(`sheets[${i}].name`, 'unique among the sheets', name);
    seen.add(name);
  });
}

/** What is to be said of the swatches whose color is not that of the first sheet with the name. */
function departures(
  { flats }: CheckContext,
  sheet: string,
  known: Map<string, { color: string; sheet: string }>,
): Map<number, string> {
  const messages = new Map<number, string>();
  flats.palette.forEach(({ name, color }, index) => {
    if (index === 0) return;
    const first = known.get(name);
    if (first === undefined) known.set(name, { color, sheet });
    else if (first.color !== color) {
      messages.set(index, `"${name}" is ${color}, on "${first.sheet}" ${first.color}`);
    }
  });
  return messages;
}

/** A finding per swatch: all its pixels as one place. */
function differing(
  { flats, size }: CheckContext,
  messages: ReadonlyMap<number, string>,
): Finding[] {
  if (messages.size === 0) return [];
  const spans = spansOfValues(flats.indices.data, size[0], [...messages.keys()]);
  return Array.from(messages, ([index, message]) => {
    const own = spans.get(index);
    const place = own === undefined ? wholePicture(size) : describePlace(own);
    const swatches = [flats.palette[index]!.name];
    return { check: COLORS, severity: 'error', message, ...place, swatches };
  });
}
