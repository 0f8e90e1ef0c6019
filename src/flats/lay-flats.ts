import { fillNearest } from '../distance/nearest-label.ts';
import type { Bridge } from '../gaps/bridge.ts';
import { type GapStudy, studyInk } from '../gaps/study.ts';
import { COVERAGE_OPTIONS, coverageRule, type InkCoverageOptions } from '../ink/coverage.ts';
import { RULE_OPTIONS, type ThresholdOptions, thresholdRule } from '../ink/threshold.ts';
import type { ThresholdChoice } from '../ink/threshold-table.ts';
import type { Flats, Swatch } from '../palette/types.ts';
import { checkCallback, checkNumber, checkOneOf, checkOptions } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import type { Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { Labels, Mask, PixelsLike } from '../raster/types.ts';
import { absorbInPlace, areasOf } from '../regions/absorb.ts';
import { labelPacked } from '../regions/label.ts';
import { floodRidges } from '../regions/ridge.ts';
import { packMask } from '../runs/pack.ts';
import { assignSwatches, type PlanReport } from './assign.ts';
import { checkPlan, sortMarks } from './check-plan.ts';
import { findInk, type InkInput, readInput } from './find-ink.ts';
import { followPlan } from './follow-plan.ts';
import { borderRegions, checkGround } from './ground.ts';
import { paintRegions } from './paint-regions.ts';
import type { Plan } from './plan.ts';
import { gapNotes, gapWishes } from './plan-gaps.ts';

/** How far `layFlats` has come. */
export interface Progress {
  readonly stage: 'ink' | 'gaps' | 'regions' | 'grow' | 'flats';
  /** Share of the stage that is done, 0 to 1. */
  readonly done: number;
}

export interface LayFlatsOptions {
  /**
   * How darkness is measured: the paper, a colored under-drawing to drop; as `inkCoverage` takes them.
   * @default { paper: 'auto' }
   */
  coverage?: Omit<InkCoverageOptions, 'out'>;
  /** How the ink mask is made of the coverage. @default { method: 'auto' } */
  threshold?: Omit<ThresholdOptions, 'out'>;
  /** Longest gap to close, in pixels; `auto` follows the stroke width. @default 'auto' */
  maxGap?: number | 'auto';
  /** From 0 (close whatever looks like a gap) to 1 (close hardly any). @default 0.5 */
  caution?: number;
  /** Regions of at most so many pixels of paper go to a neighbor. @default 0 */
  absorb?: number;
  /** Palette with names, and marks; see `applyPlan` for what they do. @default none: every region gets a placeholder */
  plan?: Plan;
  /** Swatch of the regions that touch the border and that no mark names. @default 'ground', white */
  ground?: string | Swatch;
  /** Regions that no mark names: a swatch each, or one for all. @default 'each' */
  unnamed?: 'each' | 'shared';
  /** What `studyGaps` found in the same ink, so that it is not sought again. @default none */
  study?: GapStudy;
  /**
   * Called at least every 50 ms on a page of A4 at 600 dpi, less often only where tens of thousands
   * of regions need a placeholder. What it throws ends the call and reaches the caller.
   */
  onProgress?: (progress: Progress) => void;
}

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
}

export interface LaidFlats {
  flats: Flats;
  ink: Mask;
  /** The ink with the gaps closed. */
  sealed: Mask;
  /** The regions grown under the ink, after the plan. */
  labels: Labels;
  report: LayFlatsReport;
}

const OPTIONS = [
  'coverage',
  'threshold',
  'maxGap',
  'caution',
  'absorb',
  'plan',
  'ground',
  'unnamed',
  'study',
  'onProgress',
] as const;

/**
 * The whole job: finds the ink, closes its gaps, finds the regions of paper, grows them under the
 * ink until they meet, and lays a swatch on each.
 *
 * Every pixel belongs to exactly one swatch and neighbors meet in the middle of the ink. Paper
 * that touches the picture's border is the ground unless the plan says otherwise. The plan's marks
 * act on the grown regions, see `applyPlan`; before that, its points of different swatches are kept
 * apart by gaps that would otherwise stay open in doubt, the points of a join together, and its
 * bridges and open gaps are closed and left open.
 *
 * O(pixels) time beside the gaps' candidates. At most 12 bytes per pixel beside the input, the
 * results counted.
 *
 * @param input - Pixels of line art (on paper or floating), or an ink mask made elsewhere.
 * @returns Flats, ink, sealed ink, labels and a report.
 * @throws TypeError or RangeError for bad input, before anything is done; RangeError above 65,535
 * swatches.
 * @example
 * ```ts
 * import { layFlats, raster } from 'underink';
 * const gray = new Uint8Array(81).fill(255); // a 9 × 9 page with a square ring of ink
 * for (let i = 2; i < 7; i++) for (const j of [2, 6]) gray[9 * i + j] = gray[9 * j + i] = 0;
 * const { flats, report } = layFlats(raster(gray, [9, 9]));
 * console.log(report.regions, flats.palette.map((s) => s.name).join(', ')); // 2 bare, ground, region 2
 * ```
 */
export function layFlats(input: PixelsLike | InkInput, options?: LayFlatsOptions): LaidFlats {
  const checked = checkOptions(options, 'layFlats', OPTIONS);
  const { maxGap = 'auto', caution = 0.5, absorb = 0, study } = checked;
  const unnamed = checkOneOf(checked.unnamed ?? 'each', 'unnamed', ['each', 'shared']);
  const ground = checkGround(checked.ground);
  const onProgress = checkCallback(checked.onProgress, 'onProgress');
  const plan = checked.plan === undefined ? undefined : checkPlan(checked.plan);
  const measure = coverageRule(checkOptions(checked.coverage, 'coverage', COVERAGE_OPTIONS));
  const rule = thresholdRule(checkOptions(checked.threshold, 'threshold', RULE_OPTIONS));
  if (maxGap !== 'auto') checkNumber(maxGap, 'maxGap', { unit: 'pixels' });
  checkNumber(caution, 'caution', { max: 1 });
  checkNumber(absorb, 'absorb', { unit: 'pixels' });
  const source = readInput(input);
  const { width, height } = source;
  checkStudy(study, width, height);
  for (const name of ['coverage', 'threshold'] as const) {
    if (source.ink !== undefined && checked[name] !== undefined) {
      throw new RangeError(`${name} must be left out where the ink is given`);
    }
  }
  const marks = plan?.marks ?? [];
  const sorted = sortMarks(marks, width, height, 'error');
  const wishes = gapWishes(marks);

  const tickOf = (stage: Progress['stage'], from = 0, to = 1): Tick | undefined =>
    onProgress === undefined
      ? undefined
      : (done) => onProgress({ stage, done: from + (to - from) * done });
  const { ink, inkPixels, paper: found, threshold } = findInk(source, measure, rule, tickOf('ink'));
  const inkMask = raster(ink, [width, height]);
  const gaps = study ?? studyInk({ data: ink, width, height, channels: 1 }, tickOf('gaps', 0, 0.8));
  const { sealed, bridges } = gaps.seal({ maxGap, caution, ...wishes }, tickOf('gaps', 0.8, 1));

  const labels = new Int32Array(width * height);
  const sealedDense = { data: sealed.data, width, height, channels: 1 };
  const packed = packMask(sealedDense, 'sealed', tickOf('regions', 0, 0.5));
  const count = labelPacked(packed, 0, 4, labels, tickOf('regions', 0.5, 1));
  const border = borderRegions(labels, width, height);
  const paper = absorb > 0 ? areasOf(labels, count + 1, tickOf('grow', 0, 0)) : undefined;
  if (source.coverage === undefined) fillNearest(labels, width, height, tickOf('grow'));
  else floodRidges(labels, source.coverage, width, height, tickOf('grow'));
  const absorbing = tickOf('flats', 0, 0);
  if (paper !== undefined) absorbInPlace(labels, width, height, absorb, paper, absorbing);
  let areas = areasOf(labels, count + 1, tickOf('flats', 0, 0.2));
  const absorbed = count - regionsIn(areas);
  const laid = followPlan(plan, labels, [width, height], {
    count: count + 1,
    border,
    ink: sealed.data,
    sorted,
    gapsDecided: true,
  });
  if (laid.changed) areas = areasOf(labels, laid.swatch.length, tickOf('flats', 0.2, 0.2));
  for (const id of laid.border) if (areas[id] === 0) laid.border.delete(id);
  const regions = { labels, width, height, areas, border: laid.border };
  const tick = tickOf('flats', 0.2, 0.6);
  const assignment = assignSwatches(regions, { ...laid, ground, unnamed, tick });
  const flats = paintRegions(labels, width, height, assignment, tickOf('flats', 0.6, 1));
  onProgress?.({ stage: 'flats', done: 1 });
  return {
    flats,
    ink: inkMask,
    sealed,
    labels: raster(labels, [width, height]),
    report: {
      size: [width, height],
      ...(threshold === undefined ? {} : { paper: found, threshold }),
      inkPixels,
      bridges,
      absorbed,
      ...assignment.counts,
      ...laid.report,
      notes: [...gapNotes(marks, bridges), ...laid.report.notes],
    },
  };
}

/** A study must be of ink of the picture's size. */
function checkStudy(study: GapStudy | undefined, width: number, height: number): void {
  if (study === undefined) return;
  if (typeof study !== 'object' || study === null || typeof study.seal !== 'function') {
    throw wrongKind('study', 'what studyGaps gives', study);
  }
  const [w, h] = study.size ?? [];
  if (w !== width || h !== height) {
    throw new RangeError(`study must be of ink of ${width} × ${height}, got ${w} × ${h}`);
  }
}

/** Regions of which a pixel is left; 0 is none. */
function regionsIn(areas: ArrayLike<number>): number {
  let regions = 0;
  for (let id = 1; id < areas.length; id++) if (areas[id]! > 0) regions++;
  return regions;
}
