import { BARE_SWATCH } from '../palette/swatches.ts';
import type { Swatch } from '../palette/types.ts';
import type { PlanReport } from './assign.ts';
import type { sortMarks } from './check-plan.ts';
import { followMarks, type PlanNote } from './follow-marks.ts';
import { borderRegions } from './ground.ts';
import type { Plan } from './plan.ts';
import { RegionMap } from './region-map.ts';

export interface FollowRule {
  /** One past the highest id. */
  readonly count: number;
  /** Ids whose paper touches the picture's border. */
  readonly border: ReadonlySet<number>;
  /** Ink that the regions have grown under. */
  readonly ink: Uint8Array | undefined;
  /** Which marks lie in the picture, as `sortMarks` gives it. */
  readonly sorted: ReturnType<typeof sortMarks>;
  /** Whether bridges and gaps that stay open have been decided before the regions were found. */
  readonly gapsDecided: boolean;
}

/** Regions after a plan's marks. */
export interface Followed {
  /** Swatches that the plan knows, `bare` first. */
  readonly palette: readonly Swatch[];
  /** Index of the swatch by id, or `OPEN`. */
  readonly swatch: Int32Array;
  /** Ids whose paper touches the picture's border and did before. */
  readonly border: Set<number>;
  /** Whether the labels may have changed. */
  readonly changed: boolean;
  readonly report: Pick<PlanReport, 'conflicts' | 'outside' | 'unlabeled' | 'notes'>;
}

/** Lets a plan act on labels, which it changes. */
export function followPlan(
  plan: Plan | undefined,
  labels: Int32Array,
  size: readonly [number, number],
  { count, border, ink, sorted, gapsDecided }: FollowRule,
): Followed {
  const marks = plan?.marks ?? [];
  const palette = [BARE_SWATCH, ...(plan?.palette ?? [])];
  const { acts, outside } = sorted;
  const regions = new RegionMap(labels, size, count, border, ink);
  const rule = { marks, acts, palette, ink, gapsDecided };
  const { conflicts, unlabeled, notes } = followMarks(regions, rule);
  const { swatch, border: parts } = regions.finish();
  return {
    palette,
    swatch,
    border: regions.changed ? stillOutside(parts, regions, ink) : parts,
    changed: regions.changed,
    report: { conflicts, outside, unlabeled, notes: [...sizeNotes(plan, size), ...notes] },
  };
}

/** Of the parts of regions that touched the border those that do. */
function stillOutside(
  parts: ReadonlySet<number>,
  { labels, width, height }: RegionMap,
  ink: Uint8Array | undefined,
): Set<number> {
  const touching = borderRegions(labels, width, height, ink);
  return new Set([...parts].filter((id) => touching.has(id)));
}

function sizeNotes(plan: Plan | undefined, [width, height]: readonly [number, number]): PlanNote[] {
  if (plan === undefined || (plan.size[0] === width && plan.size[1] === height)) return [];
  const made = plan.size.join(' × ');
  return [{ why: `the plan was made for a drawing of ${made}, this one is ${width} × ${height}` }];
}
