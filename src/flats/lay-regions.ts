import { BARE_SWATCH } from '../palette/swatches.ts';
import type { Swatch } from '../palette/types.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import { areasOf } from '../regions/absorb.ts';
import { type Assignment, assignSwatches, type PlanReport, placeRegions } from './assign.ts';
import type { PlacedMarks } from './check-plan.ts';
import { followMarks } from './follow-marks.ts';
import { borderRegions } from './ground.ts';
import { Acting } from './marks/acting.ts';
import { typeOf } from './marks/table.ts';
import type { Plan } from './plan.ts';
import { RegionMap } from './region-map.ts';
import type { Unnamed } from './settings.ts';

export interface LayRule {
  /** One past the highest id. */
  readonly count: number;
  /** Ids whose paper touches the picture's border. */
  readonly border: ReadonlySet<number>;
  /** Ink that the regions have grown under. */
  readonly ink: Uint8Array | undefined;
  /** Whether bridges and gaps that stay open have been decided before the regions were found. */
  readonly gapsDecided: boolean;
  readonly plan: Plan | undefined;
  readonly placed: PlacedMarks;
  readonly ground: Swatch;
  /** Left out, regions that no mark names stay bare and are not listed. */
  readonly unnamed?: Unnamed | undefined;
  readonly tick?: Tick | undefined;
}

/**
 * What `applyPlan` and `layFlats` have in common: the marks act on labels, which they change, and every
 * region gets its swatch. `paintRegions` makes flats of them.
 */
export function layRegions(
  labels: Int32Array,
  [width, height]: readonly [number, number],
  { count, border, ink, gapsDecided, plan, placed, ground, unnamed, tick }: LayRule,
): { assigned: Assignment; report: PlanReport } {
  const palette = [BARE_SWATCH, ...(plan?.palette ?? [])];
  const regions = new RegionMap(labels, [width, height], count, border, ink);
  const marks = plan?.marks ?? [];
  const acts = placed.acts.map((act, i) => act && !(gapsDecided && typeOf(marks[i]!).ofGap));
  const before =
    unnamed !== undefined &&
    unnamed !== 'shared' &&
    marks.some((mark, i) => acts[i] && typeOf(mark).reshapes)
      ? placeRegions(
          { labels, width, height, areas: areasOf(labels, count), border, ink },
          palette.slice(1),
          ground,
          partOf(tick, 0, 0.15),
        )
      : undefined;
  const acting = new Acting(regions, palette, ink);
  followMarks(marks, acts, acting, partOf(tick, 0.15, 0.6));
  const marked = regions.finish();
  const outer = regions.changed
    ? intersection(marked.border, borderRegions(labels, width, height, ink))
    : marked.border;
  const areas = areasOf(labels, marked.swatch.length, partOf(tick, 0.6, 0.7));
  for (const id of outer) if (areas[id] === 0) outer.delete(id);
  const assignable = { labels, width, height, areas, border: outer, ink };
  const assigned = assignSwatches(assignable, {
    palette,
    swatch: marked.swatch,
    ground,
    unnamed,
    before,
    tick: partOf(tick, 0.7, 1),
  });
  const { conflicts, unlabeled, notes } = acting;
  const named = [...outer].sort((a, b) => a - b);
  return {
    assigned,
    report: {
      ...assigned.counts,
      border: named.map((region) => {
        return { region, swatch: assigned.palette[assigned.indexOf[region]!]!.name };
      }),
      conflicts,
      outside: placed.outside,
      unlabeled,
      notes,
    },
  };
}

function intersection(a: ReadonlySet<number>, b: ReadonlySet<number>): Set<number> {
  return new Set([...a].filter((id) => b.has(id)));
}
