import { maskArgument } from '../../raster/arguments.ts';
import { checkOptions } from '../../raster/checks.ts';
import { checkMaskValues } from '../../raster/mask-values.ts';
import { pixelCenter } from '../../raster/pixel-center.ts';
import { ticksOf } from '../../raster/stages.ts';
import type { Dense, MaskLike, Point } from '../../raster/types.ts';
import { type InscribedDiscs, inscribedDiscs } from '../../regions/inscribed.ts';
import { checkPlan, checkPlanSize } from '../check-plan.ts';
import { type LaidDrawing, layDrawing } from '../lay-drawing.ts';
import { type Mark, typeOf } from '../marks/table.ts';
import type { Plan } from '../plan.ts';
import { scaleSettings } from '../scale-plan.ts';
import { withSettings } from '../settings.ts';
import { CARRY_OPTIONS, type CarryOptions, transformFor } from './carry-options.ts';
import { type CarriedRegion, listChanges } from './changes.ts';
import { clearInk, highestId } from './clear-ink.ts';
import {
  type ComparedRegions,
  compareRegions,
  type OldRegions,
  oldRegions,
} from './compare-regions.ts';
import type { CarryTransform } from './find-transform.ts';
import { LookBack } from './look-back.ts';
import {
  type AsideMark,
  type Ground,
  moveException,
  moveMark,
  pixelOf,
  reachOf,
} from './move-marks.ts';

export interface CarriedPlan {
  /** For the new picture. */
  readonly plan: Plan;
  /** Every region of the new picture, and those that are gone, least certain first. */
  readonly changes: readonly CarriedRegion[];
  /** From the old picture to the new one. */
  readonly transform: CarryTransform;
  /** Marks whose region or ink is not there any more, in their order. */
  readonly aside: readonly AsideMark[];
}

/**
 * A plan for revised line art; see `carryFlats` for how the two inks are brought together.
 *
 * The plan is laid on the old ink, its marks are moved, and what they lay on the new ink is compared
 * region by region. A mark that names a region stays in it, where the transform takes it or else at its
 * widest place; the ends of bridges and open gaps go to the ink nearest by; polygons and cuts follow the
 * transform. Of regions that have become one the marks of the smaller ones are put aside, as are marks
 * whose region is gone; parts of a region that was cut get a point each. Of the settings, lengths and
 * areas are scaled, and exceptions moved.
 *
 * At most about twice the time of `layFlats`; the stages of that are told twice.
 *
 * @param plan - For the old drawing.
 * @param fromInk - Its ink, `[w, h]` of 0 or 1.
 * @param toInk - The ink of the new one, of any size.
 * @throws TypeError or RangeError for bad input; RangeError where no transform is sure enough; the
 * reason of `signal` once it is aborted, and what `onProgress` throws.
 * @example
 * ```ts
 * import { carryPlan, raster } from 'underink';
 * const ring = (x0: number) => {
 *   const ink = raster(new Uint8Array(24 * 16), [24, 16]);
 *   for (let i = 0; i < 9; i++) for (const j of [0, 8]) {
 *     ink.set(x0 + i, 3 + j, 1);
 *     ink.set(x0 + j, 3 + i, 1);
 *   }
 *   return ink;
 * };
 * const palette = [{ name: 'shell', color: '#d2603a' }];
 * const marks = [{ point: [8, 7], swatch: 'shell' }] as const;
 * const { plan } = carryPlan({ version: 1, size: [24, 16], palette, marks }, ring(4), ring(9));
 * console.log(JSON.stringify(plan.marks)); // [{"point":[13,7],"swatch":"shell"}]
 * ```
 */
export function carryPlan(
  plan: Plan,
  fromInk: MaskLike,
  toInk: MaskLike,
  options?: CarryOptions,
): CarriedPlan {
  const checked = checkOptions(options, 'carryPlan', CARRY_OPTIONS);
  const ticks = ticksOf(checked);
  const checkedPlan = checkPlan(plan);
  const { marks, settings, palette } = checkedPlan;
  const start = ticks('transform', 0, 0);
  const from = maskArgument(fromInk, 'fromInk');
  checkPlanSize(plan, from.width, from.height);
  checkMaskValues(from, 'fromInk', start);
  const to = maskArgument(toInk, 'toInk');
  checkMaskValues(to, 'toInk', start);
  const { width, height } = to;

  const transform = transformFor(checked, from, to, ticks('transform'));
  const layOn = (one: Plan, ink: Dense<Uint8Array>): LaidDrawing => {
    const source = { width: ink.width, height: ink.height, ink };
    const laidBy = withSettings({}, one.settings);
    const rest = { outside: 'report', placeholders: false } as const;
    return layDrawing({ source, plan: one, settings: laidBy, ...rest, ticks });
  };
  const laid = layOn(checkedPlan, from);
  const ids = laid.labels;
  const underInk = labelsUnder(marks, from, ids);
  const regionAt = (point: Point): number => {
    const p = pixelOf(point, from);
    return underInk.get(p) ?? ids[p] ?? 0;
  };
  const length = clearInk(ids, from.data, ticks('evidence', 0, 0.1));
  const old = oldRegions(ids, from.width, from.height, length, ticks('evidence', 0.1, 0.6));
  const seen = new LookBack(ids, from, to.data, to, transform);
  const named = namesOf(laid, old);
  let discs: InscribedDiscs | undefined;
  const centerOf = (id: number): number => {
    if (discs === undefined) {
      const shown = seen.raster(ticks('evidence', 0.6, 0.7));
      discs = inscribedDiscs(shown, width, height, length, undefined, ticks('evidence', 0.7, 1));
    }
    return discs.center[id]!;
  };
  const seenAt = (pixel: number): number => seen.at(pixel);
  const reach = reachOf(transform);
  const ground: Ground = { transform, from, to, regionAt, named, seenAt, centerOf, reach };
  const moved = marks.map((mark) => moveMark(mark, ground));
  const kept = moved.flatMap((one, index) => ('mark' in one ? { index, mark: one.mark } : []));
  const area = transform.a * transform.a + transform.b * transform.b;
  const rest = {
    version: 1,
    size: [width, height],
    palette,
    ...(settings === undefined
      ? {}
      : { settings: scaleSettings(settings, area, (one) => moveException(one, transform)) }),
  } as const;
  const draft: Plan = { ...rest, marks: kept.map(({ mark }) => mark) };
  const anew = layOn(draft, to);
  const compared = compareRegions({
    labels: anew.labels,
    count: highestId(anew.labels, ticks('match', 0, 0.1)) + 1,
    ink: to,
    walls: anew.sealed.data,
    seen,
    old,
    transform,
    tick: ticks('match', 0.1, 1),
  });
  const widest = widestOf(compared, length);
  const settled = kept.map(({ index, mark }) => {
    return { index, mark: settle(mark, marks[index]!, ground, anew.labels, compared, widest) };
  });
  const aside = [
    ...moved.flatMap((one, index) => ('why' in one ? { mark: marks[index]!, index, ...one } : [])),
    ...settled.flatMap(({ index, mark }) =>
      mark === undefined ? { mark: marks[index]!, index, why: MERGED } : [],
    ),
  ].sort((p, q) => p.index - q.index);
  const final = settled.flatMap(({ mark }) => mark ?? []);
  const added = missingPoints(final, anew, compared, named, width);
  const changes = listChanges({
    ...compared,
    size: to,
    oldDiscs: old.discs,
    oldSize: from,
    swatchOf: (id) => named.get(id),
    transform,
    border: new Set(anew.report.border.map(({ region }) => region)),
  });
  return { plan: { ...rest, marks: [...final, ...added] }, changes, transform, aside };
}

const MERGED = 'its region has become a part of another one';

/** Old regions at those points of marks that lie on ink, by pixel. */
function labelsUnder(
  marks: readonly Mark[],
  ink: Dense<Uint8Array>,
  labels: Int32Array,
): Map<number, number> {
  const under = new Map<number, number>();
  for (const mark of marks) {
    for (const { point } of typeOf(mark).points(mark)) {
      const p = pixelOf(point, ink);
      if (ink.data[p] === 1) under.set(p, labels[p]!);
    }
  }
  return under;
}

/** Swatches of the regions with paper that a plan names. */
function namesOf({ assigned, report }: LaidDrawing, { discs }: OldRegions): Map<number, string> {
  const open = new Set([...assigned.open, ...report.groundIds]);
  const names = new Map<number, string>();
  discs.center.forEach((p, id) => {
    if (p >= 0 && !open.has(id)) names.set(id, assigned.palette[assigned.indexOf[id]!]!.name);
  });
  return names;
}

/**
 * A moved mark that names a region, in the region that has been recognized: it goes to the widest place
 * of that where it stands in another; one that a later mark has covered stays; undefined where it would name what has another's swatch now.
 */
function settle(
  mark: Mark,
  was: Mark,
  { regionAt, named, to }: Ground,
  labels: Int32Array,
  { matches, discs }: ComparedRegions,
  widest: Int32Array,
): Mark | undefined {
  if (!('point' in mark) || !('point' in was)) return mark;
  const oldId = regionAt(was.point);
  const region = labels[pixelOf(mark.point, to)];
  if (oldId === 0 || region === undefined || matches.old[region] === oldId) return mark;
  if (named.get(oldId) !== mark.swatch) return mark;
  const best = widest[oldId]!;
  if (best !== 0) return { ...mark, point: pixelCenter(discs.center[best]!, to.width) };
  const keeps = matches.partOf[oldId] === 0 ? undefined : named.get(matches.old[region]!);
  return keeps === undefined || keeps === mark.swatch ? mark : undefined;
}

/** Of the new regions that each old one is, the one with the widest disc, ties to the lower id; 0 for none. */
function widestOf({ matches, discs }: ComparedRegions, length: number): Int32Array {
  const widest = new Int32Array(length);
  for (let id = 1; id < matches.old.length; id++) {
    const old = matches.old[id]!;
    if (discs.center[id]! < 0) continue;
    if (widest[old] === 0 || discs.square[id]! > discs.square[widest[old]!]!) widest[old] = id;
  }
  return widest;
}

/** Points for regions that are known by name and that no mark names. */
function missingPoints(
  marks: readonly Mark[],
  { labels, assigned, report }: LaidDrawing,
  { matches, discs, overlaps }: ComparedRegions,
  named: ReadonlyMap<number, string>,
  width: number,
): Mark[] {
  const open = new Set([...assigned.open, ...report.groundIds]);
  for (const mark of marks) {
    if (!('point' in mark)) continue;
    open.delete(labels[Math.floor(mark.point[1]) * width + Math.floor(mark.point[0])]!);
  }
  const added: Mark[] = [];
  for (let id = 1; id < matches.old.length; id++) {
    const swatch = named.get(matches.old[id]!);
    if (!open.has(id) || swatch === undefined || overlaps.area[id] === 0) continue;
    added.push({ point: pixelCenter(discs.center[id]!, width), swatch });
  }
  return added;
}
