import type { Flats, Swatch } from '../palette/types.ts';
import { checkSameSize, labelsArgument, maskArgument } from '../raster/arguments.ts';
import { checkOneOf, checkOptions } from '../raster/checks.ts';
import { checkMaskValues } from '../raster/mask-values.ts';
import { raster } from '../raster/raster.ts';
import type { Labels, LabelsLike, MaskLike } from '../raster/types.ts';
import { columnLength } from '../regions/columns.ts';
import type { PlanReport } from './assign.ts';
import { checkPlan, checkPlanSize, placeMarks } from './check-plan.ts';
import { placeNotes } from './follow-marks.ts';
import { borderRegions, checkGround } from './ground.ts';
import { layRegions } from './lay-regions.ts';
import { paintRegions } from './paint-regions.ts';
import type { Plan } from './plan.ts';
import { checkSettings, type Unnamed, withSettings } from './settings.ts';

export interface ApplyPlanOptions {
  /**
   * Ink mask `[w, h]` that the regions have grown under: a region is the ground when it touches the
   * picture's border off the ink, and cuts lead from stroke to stroke.
   * @default none: it touches the border anywhere, and a cut must divide a region by itself
   */
  readonly ink?: MaskLike | undefined;
  /** What a mark's point outside the picture is: a RangeError, or a line of the report. @default 'error' */
  readonly outside?: 'error' | 'report' | undefined;
  /** Regions that no mark names: a swatch each, or one for all. @default 'each' */
  readonly unnamed?: Unnamed | undefined;
  /** Swatch of regions that touch the border and that no mark names. @default 'ground', white */
  readonly ground?: string | Swatch | undefined;
}

/** Flats that a plan lays on regions. */
export interface AppliedPlan {
  readonly flats: Flats;
  /** The regions after the plan's marks. */
  readonly labels: Labels;
  readonly report: PlanReport;
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
 * keeps its swatch, and its id where it is the largest piece; new ids follow the highest. Where two
 * swatches meet in one region by an **open** gap, the one that was laid first stays.
 *
 * The pixel of a point is the floor of its coordinates, and on grown labels a point on ink takes the
 * region grown over it. Regions that touch the picture's border are the ground unless a mark names
 * them. What no mark names gets a placeholder, named after its place, `region 1444,760` for the
 * pixel at the center of its widest inscribed disc on paper, and colored by it: no two
 * the same, though regions far apart may look alike; neighbors at least 20 apart in CIEDE2000, from
 * the ground too, where the number of regions allows.
 * Placeholders do not depend on what is named, so naming a region changes no other: one may come
 * near to the color of a swatch beside it, and `report.unnamed` lists them all. A mark that divides
 * or joins regions changes the placeholders of these alone.
 *
 * The plan's `settings` say what no option does. A plan of another size is refused: `scalePlan`.
 *
 * Near O(pixels + marks + pixels of the polygons' bounds); O(pixels of a region's bounds) for each
 * region that a cut or a bridge divides, and where a mark asks for a region that polygons have torn.
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
  const { outside = 'error' } = checked;
  checkOneOf(outside, 'outside', ['error', 'report']);
  checkSettings(checked);
  const { data, width, height } = labelsArgument(labels, 'labels');
  let ink: Uint8Array | undefined;
  if (checked.ink !== undefined) {
    const dense = maskArgument(checked.ink, 'ink');
    checkSameSize({ width, height }, 'labels', dense, 'ink');
    checkMaskValues(dense, 'ink');
    ink = dense.data;
  }
  const checkedPlan = checkPlan(plan);
  checkPlanSize(checkedPlan, width, height);
  const { ground, unnamed = 'each' } = withSettings(checked, checkedPlan.settings);
  const count = columnLength(data, 'labels');
  const own = data.slice();
  const { assigned, report } = layRegions(own, [width, height], {
    count,
    border: borderRegions(own, width, height, ink),
    ink,
    gapsDecided: false,
    plan: checkedPlan,
    placed: placeMarks(checkedPlan.marks, width, height, outside),
    ground: checkGround(ground),
    unnamed,
  });
  const flats = paintRegions(own, width, height, assigned);
  const notes = placeNotes(report.notes, checkedPlan.marks);
  return { flats, labels: raster(own, [width, height]), report: { ...report, notes } };
}
