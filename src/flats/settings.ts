import { COVERAGE_OPTIONS, coverageRule, type InkCoverageOptions } from '../ink/coverage.ts';
import { RULE_OPTIONS, type ThresholdOptions, thresholdRule } from '../ink/threshold.ts';
import { type CheckException, checkExceptions } from '../palette/exceptions.ts';
import type { Swatch } from '../palette/types.ts';
import { checkNumber, checkOneOf, checkOptions } from '../raster/checks.ts';
import { checkGround } from './ground.ts';

/** What becomes of regions that no mark names. */
export type Unnamed = 'each' | 'shared' | 'claim';

const UNNAMED: readonly Unnamed[] = ['each', 'shared', 'claim'];

/** How a sheet is laid, as options of a call or in a plan. */
export interface LaySettings {
  /**
   * How darkness is measured: the paper, a colored under-drawing to drop; as `inkCoverage` takes
   * them. @default { paper: 'auto' }
   */
  readonly coverage?: Readonly<Omit<InkCoverageOptions, 'out'>> | undefined;
  /** How the ink mask is made of the coverage. @default { method: 'auto' } */
  readonly threshold?: Readonly<Omit<ThresholdOptions, 'out'>> | undefined;
  /** Longest gap to close, in pixels; `auto` follows the stroke width. @default 'auto' */
  readonly maxGap?: number | 'auto' | undefined;
  /** From 0 (close whatever looks like a gap) to 1 (close hardly any). @default 0.5 */
  readonly caution?: number | undefined;
  /** Regions of at most so many pixels of paper go to a neighbor. @default 0 */
  readonly absorb?: number | undefined;
  /** Swatch of the regions that touch the border and that no mark names. @default 'ground', white */
  readonly ground?: string | Swatch | undefined;
  /**
   * Regions that no mark names: a swatch `each`, or one `shared` by all. With `claim`, those that only
   * bridges part from a named region are made a part of it, across their least certain border, where
   * that has a probability of at most .98, or a part of the ground where its border is less certain
   * still; `report.claimed` lists them, and the others get a swatch each. The ground is claimed by
   * nothing, but where a point of the plan names it, other paper at the border is. A ground that is
   * named claims too, so a plan with few points yet is better without its point. @default 'each'
   */
  readonly unnamed?: Unnamed | undefined;
}

/** What a plan may hold beside its marks, so that with a drawing it gives the sheet. */
export interface PlanSettings extends LaySettings {
  /** Findings that are no mistakes, for `checkFlats`. @default [] */
  readonly exceptions?: readonly CheckException[] | undefined;
}

/** Names of the settings that are options of `layFlats` too. */
export const LAY_SETTINGS = [
  'coverage',
  'threshold',
  'maxGap',
  'caution',
  'absorb',
  'ground',
  'unnamed',
] as const;

/** Checks the settings that are given; `prefix` comes before their names in errors. */
export function checkSettings(settings: LaySettings, prefix = ''): void {
  const { coverage, threshold, maxGap, caution, absorb, ground, unnamed } = settings;
  if (coverage !== undefined) {
    coverageRule(checkOptions(coverage, `${prefix}coverage`, COVERAGE_OPTIONS));
  }
  if (threshold !== undefined) {
    thresholdRule(checkOptions(threshold, `${prefix}threshold`, RULE_OPTIONS));
  }
  if (maxGap !== undefined && maxGap !== 'auto') {
    checkNumber(maxGap, `${prefix}maxGap`, { unit: 'pixels' });
  }
  if (caution !== undefined) checkNumber(caution, `${prefix}caution`, { max: 1 });
  if (absorb !== undefined) checkNumber(absorb, `${prefix}absorb`, { unit: 'pixels' });
  if (ground !== undefined) checkGround(ground, `${prefix}ground`);
  if (unnamed !== undefined) checkOneOf(unnamed, `${prefix}unnamed`, UNNAMED);
}

/** Checks and copies what a plan holds under `settings`. */
export function checkPlanSettings(value: PlanSettings, name: string): PlanSettings {
  const checked = checkOptions(value, name, [...LAY_SETTINGS, 'exceptions']);
  checkSettings(checked, `${name}.`);
  const { exceptions } = checked;
  const copy = exceptions && checkExceptions(exceptions, `${name}.exceptions`);
  return { ...checked, ...(copy === undefined ? {} : { exceptions: copy }) };
}

/** The settings of a plan, and those that a call gives beside it, which win. */
export function withSettings(options: LaySettings, planned: PlanSettings | undefined): LaySettings {
  const both: Record<string, unknown> = {};
  for (const name of LAY_SETTINGS) both[name] = options[name] ?? planned?.[name];
  return both as LaySettings;
}
