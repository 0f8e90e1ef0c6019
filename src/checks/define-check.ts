import { checkNumber, checkOneOf, checkOptions, checkRecord } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { CheckContext } from './context.ts';
import { type Finding, type FindingSeverity, SEVERITIES } from './finding.ts';

/** Options of `checkFlats` that a check may need. */
export type CheckNeed = 'ink' | 'coverage' | 'palette' | 'report';

const NEEDS: readonly CheckNeed[] = ['ink', 'coverage', 'palette', 'report'];

/**
 * What a check says of one place: a message and a point in the picture at least. The bounds are
 * those of the spans, or of the pixel, where they are left out; so is the area.
 */
export type FoundPlace = Pick<Finding, 'message' | 'at'> & {
  readonly [K in 'bounds' | 'area' | 'length' | 'swatches' | 'spans' | 'severity']?:
    | Finding[K]
    | undefined;
};

/** Numbers that decide what a check finds, by name. */
export type Thresholds<T extends string = string> = Readonly<Record<T, number>>;

/** A rule over flats; made by `defineCheck`. */
export interface FlatsCheck<T extends string = string> {
  readonly name: string;
  /** Of its findings, where they say nothing else. */
  readonly severity: FindingSeverity;
  /** It is run by itself only where all of them are given. */
  readonly needs: readonly CheckNeed[];
  /** Run only when it is asked for. */
  readonly onRequest: boolean;
  /** Default of each. */
  readonly thresholds: Thresholds<T>;
  readonly run: (context: CheckContext, thresholds: Thresholds) => readonly FoundPlace[];
}

export interface DefineCheckOptions<T extends string = string> {
  /** @default 'warning' */
  readonly severity?: FindingSeverity | undefined;
  /** What must be given for it to run; without it, an error says so. @default [] */
  readonly needs?: readonly CheckNeed[] | undefined;
  /** Whether a check of the library runs only when asked for. @default false */
  readonly onRequest?: boolean | undefined;
  /** Numbers >= 0 that `checkFlats` may set, with their defaults. @default {} */
  readonly thresholds?: Thresholds<T> | undefined;
}

/**
 * Makes a check of one's own for `checkFlats`.
 *
 * The function sees a {@link CheckContext}: flats, ink, regions, adjacency and distances, each worked
 * out when it is first asked for, once for all checks. What it gives must have a place; one without,
 * or anything that it throws, becomes a finding with `failed`, and the other checks go on.
 *
 * @param name - How findings name it; not empty.
 * @param fn - Gets the context and the thresholds, and gives what it finds.
 * @throws TypeError or RangeError for a name that is no string, or no function, or bad options.
 * @example
 * ```ts
 * import { checkFlats, defineCheck, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 1, 0, 1]), [4, 1]), palette };
 * const whole = defineCheck('whole fur', ({ flats, regions, palette }) =>
 *   regions.length > 2 ? [{ message: `${regions.length - 1} pieces`, at: [0.5, 0.5] }] : [],
 * );
 * console.log(checkFlats(flats, { checks: [whole] })[0]?.message); // 2 pieces
 * ```
 */
export function defineCheck<T extends string = never>(
  name: string,
  fn: (context: CheckContext, thresholds: Thresholds<T>) => readonly FoundPlace[],
  options?: DefineCheckOptions<T>,
): FlatsCheck<T> {
  if (typeof name !== 'string') throw wrongKind('name', 'a string', name);
  if (name === '') throw wrongValue('name', 'a string that is not empty', name);
  if (typeof fn !== 'function') throw wrongKind('fn', 'a function', fn);
  const names = ['severity', 'needs', 'onRequest', 'thresholds'] as const;
  const checked = checkOptions(options, 'defineCheck', names);
  const { severity = 'warning', needs = [], onRequest = false } = checked;
  const { thresholds = {} as Thresholds<T> } = checked;
  checkOneOf(severity, 'severity', SEVERITIES);
  if (!Array.isArray(needs)) throw wrongKind('needs', 'an array of option names', needs);
  needs.forEach((need, i) => {
    checkOneOf(need, `needs[${i}]`, NEEDS);
  });
  if (typeof onRequest !== 'boolean') throw wrongKind('onRequest', 'true or false', onRequest);
  checkRecord(thresholds, 'thresholds', 'an object');
  for (const [key, value] of Object.entries(thresholds)) checkNumber(value, `thresholds.${key}`);
  return {
    name,
    severity,
    needs,
    onRequest,
    thresholds,
    run: (context, given) => fn(context, given as Thresholds<T>),
  };
}
