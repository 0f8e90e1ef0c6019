import type { Flats, Swatch } from '../palette/types.ts';
import { checkSameSize, labelsArgument, maskArgument } from '../raster/arguments.ts';
import { checkOneOf, checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import type { Labels, LabelsLike, MaskLike } from '../raster/types.ts';
import { areasOf } from '../regions/absorb.ts';
import { columnLength } from '../regions/columns.ts';
import { packMask } from '../runs/pack.ts';
import { assignSwatches, type PlanReport } from './assign.ts';
import { borderRegions, checkGround } from './ground.ts';
import { paintRegions } from './paint-regions.ts';
import { checkPlan, type Plan } from './plan.ts';

export interface ApplyPlanOptions {
  /**
   * Ink mask `[w, h]` that the regions have grown under: a region is the ground when it touches the
   * picture's border off the ink. @default none: wherever it touches the border
   */
  ink?: MaskLike;
  /** What a point outside the picture is: a RangeError, or a line of the report. @default 'error' */
  outside?: 'error' | 'report';
  /** Regions that no mark names: a swatch each, or one for all. @default 'each' */
  unnamed?: 'each' | 'shared';
  /** Swatch of regions that touch the border and that no mark names. @default 'ground', white */
  ground?: string | Swatch;
}

/** Flats that a plan lays on regions. */
export interface AppliedPlan {
  flats: Flats;
  /** The regions after the plan's marks. */
  labels: Labels;
  report: PlanReport;
}

/**
 * Lays the swatches of a plan on labelled regions.
 *
 * Marks act in order; the pixel of a point is the floor of its coordinates, and on grown labels a
 * point on ink takes the region grown over it. When two swatches fall in one region the first keeps
 * it and the report lists the conflict. Regions that touch the picture's border are the ground
 * unless a mark names them; what no mark names gets placeholder colors: all different, neighbours
 * at least 20 apart in CIEDE2000 where the palette's size allows, the same for the same drawing.
 *
 * O(pixels + marks).
 *
 * @param labels - `[w, h]` Int32 ids; 0 stays bare.
 * @param plan - Palette with names, and marks.
 * @throws TypeError or RangeError, naming the path in the plan, before anything is laid; RangeError
 * above 65,535 swatches.
 * @example
 * ```ts
 * import { applyPlan, raster } from 'underink';
 * const labels = raster(new Int32Array([1, 1, 1, 1, 2, 1, 1, 1, 1]), [3, 3]);
 * const palette = [{ name: 'shell', color: '#d2603a' }];
 * const marks = [{ point: [1.5, 1.5], swatch: 'shell' }] as const;
 * const { flats } = applyPlan(labels, { version: 1, size: [3, 3], palette, marks });
 * console.log(flats.palette[flats.indices.get(1, 1)]?.name); // shell
 * ```
 */
export function applyPlan(labels: LabelsLike, plan: Plan, options?: ApplyPlanOptions): AppliedPlan {
  const names = ['ink', 'outside', 'unnamed', 'ground'] as const;
  const checked = checkOptions(options, 'applyPlan', names);
  const outside = checkOneOf(checked.outside ?? 'error', 'outside', ['error', 'report']);
  const unnamed = checkOneOf(checked.unnamed ?? 'each', 'unnamed', ['each', 'shared']);
  const ground = checkGround(checked.ground);
  const { data, width, height } = labelsArgument(labels, 'labels');
  let ink: Uint8Array | undefined;
  if (checked.ink !== undefined) {
    const dense = maskArgument(checked.ink, 'ink');
    checkSameSize({ data, width, height, channels: 1 }, 'labels', dense, 'ink');
    packMask(dense, 'ink');
    ink = dense.data;
  }
  const rule = { plan: checkPlan(plan), ground, unnamed, outside };
  const border = borderRegions(data, width, height, ink);
  const areas = areasOf(data, columnLength(data, 'labels'));
  const regions = { labels: data, width, height, areas, border };
  const assignment = assignSwatches(regions, rule);
  return {
    flats: paintRegions(data, width, height, assignment),
    labels: raster(data.slice(), [width, height]),
    report: assignment.report,
  };
}
