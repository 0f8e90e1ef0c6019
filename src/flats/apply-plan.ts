import type { Flats, Swatch } from '../palette/types.ts';
import { checkSameSize, labelsArgument, maskArgument } from '../raster/arguments.ts';
import { checkOneOf, checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import type { Labels, LabelsLike, MaskLike } from '../raster/types.ts';
import { areasOf } from '../regions/absorb.ts';
import { columnLength } from '../regions/columns.ts';
import { packMask } from '../runs/pack.ts';
import { assignSwatches, type PlanReport, placeRegions } from './assign.ts';
import { checkPlan, sortMarks } from './check-plan.ts';
import { followPlan } from './follow-plan.ts';
import { borderRegions, checkGround } from './ground.ts';
import { paintRegions } from './paint-regions.ts';
import { mayChangeRegions, type Plan } from './plan.ts';

export interface ApplyPlanOptions {
  /**
   * Ink mask `[w, h]` that the regions have grown under: a region is the ground when it touches the
   * picture's border off the ink, and cuts lead from stroke to stroke.
   * @default none: it touches the border anywhere, and a cut must divide a region by itself
   */
  ink?: MaskLike;
  /** What a mark's point outside the picture is: a RangeError, or a line of the report. @default 'error' */
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
 * Lays the swatches of a plan on labeled regions.
 *
 * Marks act in order. A **point** gives its region a swatch; when two swatches fall in one region the
 * first keeps it and the report lists the conflict, unless the mark is `over`. A **polygon** takes the
 * pixels inside it that are bare (with `over`, all): a region that lies wholly inside as it is, of
 * others the pieces that do, which become regions of their own. A **fill** is like a point on what is
 * bare; with `over` on what is laid it takes the whole patch of that swatch. A **cut** divides the
 * regions under a line as `splitRegion` does, with the ink for walls; a **bridge** does so between two
 * places. A **join** makes the regions of its points one, which keeps the swatch that comes first; an
 * **open** gap joins the two regions that meet between its points. What a mark leaves of a region
 * keeps its swatch, and its id where it is the largest piece; new ids follow the highest.
 *
 * The pixel of a point is the floor of its coordinates, and on grown labels a point on ink takes the
 * region grown over it. Regions that touch the picture's border are the ground unless a mark names
 * them. What no mark names gets a placeholder, named after its place, `region 1444,760` for the
 * pixel at the center of its widest inscribed disc on paper, and colored by it: all different,
 * neighbors at least 20 apart in CIEDE2000, from the ground too, where the number of regions allows.
 * Placeholders do not depend on what is named, so naming a region changes no other: one may come
 * near to the color of a swatch beside it, and `report.unnamed` lists them all. A mark that divides
 * or joins regions changes the placeholders of these alone.
 *
 * O(pixels + marks), and O(pixels of the bounds) for each region that a mark divides; polygons on
 * one region are counted together.
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
    checkSameSize({ width, height }, 'labels', dense, 'ink');
    packMask(dense, 'ink');
    ink = dense.data;
  }
  const checkedPlan = checkPlan(plan);
  const count = columnLength(data, 'labels');
  const own = data.slice();
  const border = borderRegions(own, width, height, ink);
  const palette = checkedPlan.palette;
  const placed = { labels: own, width, height, areas: areasOf(own, count), border, ink };
  const before =
    unnamed === 'each' && checkedPlan.marks.some(mayChangeRegions)
      ? placeRegions(placed, palette, ground)
      : undefined;
  const laid = followPlan(checkedPlan, own, [width, height], {
    count,
    border,
    ink,
    sorted: sortMarks(checkedPlan.marks, width, height, outside),
    gapsDecided: false,
  });
  const areas = areasOf(own, laid.swatch.length);
  const regions = { labels: own, width, height, areas, border: laid.border, ink };
  const assignment = assignSwatches(regions, { ...laid, ground, unnamed, before });
  return {
    flats: paintRegions(own, width, height, assignment),
    labels: raster(own, [width, height]),
    report: { ...assignment.counts, ...laid.report },
  };
}
