import { checkNumber, checkOneOf, checkOptions } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import { BUILT_IN, type CheckName, type ThresholdsOf } from './built-in/table.ts';
import type { CheckNeed, FlatsCheck, Thresholds } from './define-check.ts';
import { type FindingSeverity, SEVERITIES } from './finding.ts';

/** Severity and thresholds of a check that are not its own. */
type CheckTuning<T extends string> = {
  readonly severity?: FindingSeverity | undefined;
} & { readonly [K in T]?: number | undefined };

/** Which of the library's checks run, and how; those that are not named run as they do alone. */
export type CheckSettings = {
  readonly [N in CheckName]?: boolean | CheckTuning<ThresholdsOf<(typeof BUILT_IN)[N]>> | undefined;
} & {
  /** Checks of one's own and ready-made rules, run after those. @default [] */
  readonly own?: readonly FlatsCheck[] | undefined;
};

/** A check with what it is to be run with. */
export interface ChosenCheck {
  readonly check: FlatsCheck;
  readonly severity: FindingSeverity;
  readonly thresholds: Thresholds;
}

const NAMES = Object.keys(BUILT_IN) as CheckName[];

/** The checks to run; one that is asked for and lacks what it needs is a RangeError. */
export function chooseChecks(
  checks: readonly (CheckName | FlatsCheck)[] | CheckSettings | undefined,
  given: ReadonlySet<CheckNeed>,
  nameOf: (need: CheckNeed) => string,
): ChosenCheck[] {
  const chosen = Array.isArray(checks)
    ? checks.map((check: unknown, i) =>
        plain(isCheck(check) ? check : BUILT_IN[checkOneOf(check, `checks[${i}]`, NAMES)]),
      )
    : chosenBy(checks as CheckSettings | undefined, given);
  for (const { check } of chosen) {
    const need = check.needs.find((name) => !given.has(name));
    if (need === undefined) continue;
    throw new RangeError(
      `${nameOf(need)} must be given for the check "${check.name}", got undefined`,
    );
  }
  return chosen;
}

function chosenBy(checks: CheckSettings | undefined, given: ReadonlySet<CheckNeed>): ChosenCheck[] {
  const settings = checkOptions(checks, 'checks', [...NAMES, 'own']);
  const own: unknown = settings.own ?? [];
  if (!Array.isArray(own) || !own.every(isCheck)) {
    throw wrongKind('checks.own', 'an array of checks made by defineCheck', own);
  }
  const chosen = NAMES.flatMap((name) => {
    const check: FlatsCheck = BUILT_IN[name];
    const runs = !check.onRequest && check.needs.every((need) => given.has(need));
    const setting: unknown = settings[name] === undefined ? runs : settings[name];
    if (typeof setting === 'boolean') return setting ? [plain(check)] : [];
    return [tuned(check, setting, `checks.${name}`)];
  });
  return [...chosen, ...own.map(plain)];
}

function plain(check: FlatsCheck): ChosenCheck {
  return { check, severity: check.severity, thresholds: check.thresholds };
}

function tuned(check: FlatsCheck, setting: unknown, name: string): ChosenCheck {
  if (typeof setting !== 'object' || setting === null) {
    throw wrongKind(name, 'true, false or settings', setting);
  }
  const keys = Object.keys(check.thresholds);
  const given = checkOptions(setting as Record<string, unknown>, name, ['severity', ...keys]);
  const severity = given.severity ?? check.severity;
  checkOneOf(severity, `${name}.severity`, SEVERITIES);
  const thresholds: Record<string, number> = {};
  for (const key of keys) {
    thresholds[key] = checkNumber(given[key] ?? check.thresholds[key], `${name}.${key}`);
  }
  return { check, severity: severity as FindingSeverity, thresholds };
}

function isCheck(value: unknown): value is FlatsCheck {
  if (typeof value !== 'object' || value === null) return false;
  const { name, run, needs, thresholds } = value as Partial<FlatsCheck>;
  const isRule = typeof name === 'string' && typeof run === 'function';
  return isRule && Array.isArray(needs) && typeof thresholds === 'object';
}
