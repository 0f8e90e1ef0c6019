import type { GapStudy } from '../gaps/study.ts';
import type { Flats } from '../palette/types.ts';
import { checkOneOf, checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import type { AbortSignalLike } from '../raster/stages.ts';
import { ticksOf } from '../raster/stages.ts';
import type { Labels, Mask, PixelsLike } from '../raster/types.ts';
import { checkPlan, checkPlanSize } from './check-plan.ts';
import { ConflictLeaks } from './conflict-leaks.ts';
import { type InkInput, readInput } from './find-ink.ts';
import type { LayProgress } from './grow-regions.ts';
import { layDrawing } from './lay-drawing.ts';
import { type LayFlatsReport, layReport } from './lay-report.ts';
import { paintRegions } from './paint-regions.ts';
import type { Plan } from './plan.ts';
import { checkSettings, LAY_SETTINGS, type LaySettings, withSettings } from './settings.ts';

/** Settings win over those of the plan. */
export interface LayFlatsOptions extends LaySettings {
  /**
   * Palette with names, and marks; see `applyPlan` for what they do. Its size must be the picture's:
   * `scalePlan`. @default none: every region gets a placeholder
   */
  readonly plan?: Plan | undefined;
  /** What a mark's point outside the picture is: a RangeError, or a line of the report. @default 'error' */
  readonly outside?: 'error' | 'report' | undefined;
  /** What `studyGaps` found in the same ink, so that it is not sought again. @default none */
  readonly study?: GapStudy | undefined;
  /**
   * Called at least every 50 ms on a page of A4 at 600 dpi, less often only where tens of thousands
   * of regions need a placeholder. What it throws ends the call and reaches the caller.
   */
  readonly onProgress?: ((progress: LayProgress) => void) | undefined;
  /** Looked at as often as `onProgress` is called: its reason is thrown. @default none */
  readonly signal?: AbortSignalLike | undefined;
}

export interface LaidFlats {
  readonly flats: Flats;
  readonly ink: Mask;
  /** The ink with the gaps closed. */
  readonly sealed: Mask;
  /** The regions grown under the ink, after the plan. */
  readonly labels: Labels;
  /** What is known of the gaps: `study` of a further call on the same ink. */
  readonly study: GapStudy;
  readonly report: LayFlatsReport;
}

const OPTIONS = [...LAY_SETTINGS, 'plan', 'outside', 'study', 'onProgress', 'signal'] as const;

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
 * Pixels, and their ink with the coverage it was made of, give the same: with a coverage, regions
 * meet on the darkest ridge of the ink; an ink mask alone has them meet at equal distances.
 *
 * O(pixels) time beside the gaps' candidates. At most 12 bytes per pixel beside the input, the
 * results counted.
 *
 * @param input - Pixels of line art (on paper or on transparent paper), or an ink mask made elsewhere.
 * @returns Flats, ink, sealed ink, labels, the study of the gaps and a report.
 * @throws TypeError or RangeError for bad input, before anything is done; RangeError above 65,535
 * swatches; the reason of `signal` once it is aborted, and what `onProgress` throws.
 * @example
 * ```ts
 * import { layFlats, raster } from 'underink';
 * const gray = new Uint8Array(81).fill(255); // a 9 × 9 page with a square ring of ink
 * for (let i = 2; i < 7; i++) for (const j of [2, 6]) gray[9 * i + j] = gray[9 * j + i] = 0;
 * const { flats, report } = layFlats(raster(gray, [9, 9]));
 * console.log(report.regions, flats.palette.map((s) => s.name).join(', ')); // 2 bare, ground, region 4,4
 * ```
 */
export function layFlats(input: PixelsLike | InkInput, options?: LayFlatsOptions): LaidFlats {
  refusePlan(options);
  const checked = checkOptions(options, 'layFlats', OPTIONS);
  checkSettings(checked);
  const { outside = 'error' } = checked;
  checkOneOf(outside, 'outside', ['error', 'report']);
  const ticks = ticksOf(checked);
  const plan = checked.plan === undefined ? undefined : checkPlan(checked.plan);
  const source = readInput(input);
  const { width, height } = source;
  for (const name of ['coverage', 'threshold'] as const) {
    if (source.ink !== undefined && checked[name] !== undefined) {
      throw new RangeError(`${name} must be left out where the ink is given`);
    }
  }
  if (plan !== undefined) checkPlanSize(plan, width, height);
  const settings = withSettings(checked, plan?.settings);
  const { study } = checked;
  const laid = layDrawing({ source, plan, settings, outside, placeholders: true, study, ticks });
  const { before, sealed, labels, assigned, report } = laid;
  const { drawing } = before;
  const flats = paintRegions(labels, width, height, assigned, ticks('flats', 0.7, 0.95));
  const leaks = new ConflictLeaks(drawing.study, drawing.coverage);
  const leaky = ticks('flats', 0.95, 1);
  const conflicts = leaks.addTo(report.conflicts, plan?.marks ?? [], leaky);
  ticks('flats')?.(1);
  return {
    flats,
    ink: raster(drawing.ink, [width, height]),
    sealed,
    labels: raster(labels, [width, height]),
    study: drawing.study,
    report: layReport(before, report, conflicts, ([x, y]) => {
      const p = Math.floor(y) * width + Math.floor(x);
      return { region: labels[p]!, swatch: flats.palette[flats.indices.data[p]!]!.name };
    }),
  };
}

/** A plan in place of options. */
function refusePlan(options: unknown): void {
  if (typeof options !== 'object' || options === null) return;
  if ('marks' in options && 'palette' in options) {
    throw new TypeError('options of layFlats must hold the plan, got a plan; pass { plan }');
  }
}
