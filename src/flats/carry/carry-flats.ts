import { biasOf } from '../../gaps/seal-options.ts';
import { studyInk } from '../../gaps/study.ts';
import { flatsArgument, indexStorage } from '../../palette/flats-argument.ts';
import { BARE } from '../../palette/swatches.ts';
import type { Flats, FlatsLike } from '../../palette/types.ts';
import { checkSameSize, maskArgument } from '../../raster/arguments.ts';
import { checkOptions } from '../../raster/checks.ts';
import { checkMaskValues } from '../../raster/mask-values.ts';
import { pixelCenter } from '../../raster/pixel-center.ts';
import { TICK_PIXELS, type Tick } from '../../raster/progress.ts';
import { Scratch } from '../../raster/scratch.ts';
import { ticksOf } from '../../raster/stages.ts';
import type { MaskLike, Point } from '../../raster/types.ts';
import { labelValues } from '../../regions/label-equal.ts';
import { placeMarks } from '../check-plan.ts';
import { checkGround } from '../ground.ts';
import { growRegions } from '../grow-regions.ts';
import { layRegions } from '../lay-regions.ts';
import type { Mark } from '../marks/table.ts';
import { paintRegions } from '../paint-regions.ts';
import type { Plan } from '../plan.ts';
import { checkSettings } from '../settings.ts';
import { CARRY_OPTIONS, type CarryOptions, transformFor } from './carry-options.ts';
import { type CarriedRegion, listChanges } from './changes.ts';
import { compareRegions, oldRegions, stayingPoints } from './compare-regions.ts';
import type { CarryTransform } from './find-transform.ts';
import { LookBack } from './look-back.ts';

export interface CarryFlatsOptions extends CarryOptions {
  /** Longest gap of the new ink to close, in pixels; `auto` follows the stroke width. @default 'auto' */
  readonly maxGap?: number | 'auto' | undefined;
  /** From 0 (close whatever looks like a gap) to 1 (close hardly any). @default 0.5 */
  readonly caution?: number | undefined;
}

export interface CarriedFlats {
  readonly flats: Flats;
  /** Every region of the new picture, and those that are gone, least certain first. */
  readonly changes: readonly CarriedRegion[];
  /** From the old picture to the new one. */
  readonly transform: CarryTransform;
}

/**
 * Flats for revised line art: for lines that were added, taken away or moved, for another scan, for a
 * drawing at another size or on another page.
 *
 * The shift, scale and rotation between the two inks are estimated first, from coarse cells to fine
 * ones, identity where it is as good; below a confidence of 0.3 that is refused. Rotations are sought
 * to 7 degrees: a page that was turned by a quarter or mirrored has to be turned back before. Regions of the old
 * flats are the pieces of paper of one swatch. The new ink's gaps are closed with one point of each, at
 * its widest place that is still there, as evidence of what is apart. Each new region then gets the
 * swatch of the old one that it shows most of; a small one that was moved off its place that of the one
 * of its form nearby. A region cut in two gives both parts its swatch; regions that have become one
 * keep that of the one that the most is shown of; seams that ran on bare paper, as across a closed gap,
 * stay. New regions at the border are the ground, others get a placeholder, as in `layFlats`.
 *
 * `changes` holds what became of each region, with a place, and whether somebody should look at it:
 * where its swatch is not sure, or it is merged, split, new or gone.
 *
 * O(pixels) beside the gaps' candidates; at most about twice the time of `layFlats`.
 *
 * @param flats - Of the old drawing.
 * @param fromInk - Its ink, `[w, h]` of 0 or 1.
 * @param toInk - The ink of the new one, of any size.
 * @throws TypeError or RangeError for bad input; RangeError where no transform is sure enough; the
 * reason of `signal` once it is aborted, and what `onProgress` throws.
 * @example
 * ```ts
 * import { carryFlats, layFlats, raster } from 'underink';
 * const ring = (x0: number) => {
 *   const ink = raster(new Uint8Array(24 * 16), [24, 16]);
 *   for (let i = 0; i < 9; i++) for (const j of [0, 8]) {
 *     ink.set(x0 + i, 3 + j, 1);
 *     ink.set(x0 + j, 3 + i, 1);
 *   }
 *   return ink;
 * };
 * const marks = [{ point: [8, 7], swatch: 'shell' }] as const;
 * const palette = [{ name: 'shell', color: '#d2603a' }];
 * const plan = { version: 1, size: [24, 16], palette, marks } as const;
 * const { flats } = layFlats({ ink: ring(4) }, { plan });
 * const carried = carryFlats(flats, ring(4), ring(9));
 * console.log(carried.transform.dx, carried.flats.palette[carried.flats.indices.get(13, 7)]?.name); // 5 shell
 * ```
 */
export function carryFlats(
  flats: FlatsLike,
  fromInk: MaskLike,
  toInk: MaskLike,
  options?: CarryFlatsOptions,
): CarriedFlats {
  const checked = checkOptions(options, 'carryFlats', [...CARRY_OPTIONS, 'maxGap', 'caution']);
  checkSettings({ maxGap: checked.maxGap, caution: checked.caution });
  const ticks = ticksOf(checked);
  const start = ticks('transform', 0, 0);
  start?.(0);
  const { indices, palette, ground } = flatsArgument(flats, 'flats');
  start?.(0);
  const from = maskArgument(fromInk, 'fromInk');
  checkSameSize(indices, 'flats', from, 'fromInk');
  checkMaskValues(from, 'fromInk', start);
  const to = maskArgument(toInk, 'toInk');
  checkMaskValues(to, 'toInk', start);
  const { width, height } = to;

  const transform = transformFor(checked, from, to, ticks('transform'));
  const colors = paperColors(indices.data, from.data, palette.length, ticks('evidence', 0, 0.1));
  const paper = { ...from, data: colors };
  const { labels: ids, count } = labelValues(paper, 4, 0, ticks('evidence', 0.1, 0.3));
  const old = oldRegions(ids, from.width, from.height, count + 1, ticks('evidence', 0.3, 0.6));
  const indexOf = Int32Array.from(old.discs.center, (p) => (p < 0 ? 0 : indices.data[p]!));
  const seen = new LookBack(ids, from, to.data, to, transform);
  const evidence = stayingPoints(old, seen, transform, ticks('evidence', 0.6, 1));
  const groups = new Map<number, Point[]>();
  for (const { id, point } of evidence) {
    const group = groups.get(indexOf[id]!);
    if (group === undefined) groups.set(indexOf[id]!, [point]);
    else group.push(point);
  }
  const own = new Int32Array(to.width * to.height);
  const scratch = new Scratch(own);
  const study = studyInk(to, undefined, ticks('gaps', 0, 0.8), scratch);
  const { closed } = study.decide(
    {
      maxGap: checked.maxGap ?? 'auto',
      bias: biasOf(checked.caution ?? 0.5),
      claim: false,
      groundMarked: false,
      apart: [...groups.values()],
      together: [],
      kept: [],
      bridge: [],
      open: [],
    },
    ticks('gaps', 0.8, 0.98),
  );
  study.release();
  const sealed = study.sealedBy(closed, ticks('gaps', 0.98, 0.99));
  scratch.clear(ticks('gaps', 0.99, 1));
  const grown = growRegions(sealed.data, [width, height], undefined, 0, ticks, own);
  const compared = compareRegions({
    labels: grown.labels,
    count: grown.count,
    walls: sealed.data,
    ink: to,
    seen,
    old,
    transform,
    mayPart: (p, q) => indexOf[p] !== indexOf[q],
    tick: ticks('match'),
  });
  const names = palette.map(({ name }) => name);
  const swatchOf = (id: number): string | undefined => {
    const name = names[indexOf[id]!]!;
    return name === BARE ? undefined : name;
  };
  const plan: Plan = {
    version: 1,
    size: [width, height],
    palette: palette.slice(1),
    marks: pointsOf(compared.matches.old, compared.discs.center, width, swatchOf),
  };
  const groundSwatch = palette.find(({ name }) => name === ground);
  const { assigned } = layRegions(grown.labels, [width, height], {
    count: compared.matches.old.length,
    border: grown.border,
    ink: sealed.data,
    gapsDecided: true,
    plan,
    placed: placeMarks(plan.marks, width, height, 'error'),
    ground: checkGround(groundSwatch),
    unnamed: 'each',
    tick: ticks('flats', 0, 0.7),
  });
  const laid = paintRegions(grown.labels, width, height, assigned, ticks('flats', 0.7, 1));
  const changes = listChanges({
    ...compared,
    size: to,
    oldDiscs: old.discs,
    oldSize: from,
    swatchOf,
    transform,
    border: grown.border,
  });
  ticks('flats')?.(1);
  return { flats: laid, changes, transform };
}

/** One more than the index of a flat's swatch on paper, 0 on ink. */
function paperColors(
  indices: Uint8Array | Uint16Array,
  ink: Uint8Array,
  swatches: number,
  tick: Tick | undefined,
): Uint8Array | Uint16Array {
  const colors = indexStorage(ink.length, swatches + 1);
  for (let from = 0; from < ink.length; from += TICK_PIXELS) {
    tick?.(from / ink.length);
    const to = Math.min(ink.length, from + TICK_PIXELS);
    for (let p = from; p < to; p++) if (ink[p] === 0) colors[p] = 1 + indices[p]!;
  }
  return colors;
}

/** A point for each new region whose swatch is known. */
function pointsOf(
  matches: Int32Array,
  centers: Int32Array,
  width: number,
  swatchOf: (id: number) => string | undefined,
): Mark[] {
  const marks: Mark[] = [];
  for (let id = 1; id < matches.length; id++) {
    const swatch = matches[id] === 0 ? undefined : swatchOf(matches[id]!);
    const p = centers[id]!;
    if (swatch === undefined || p < 0) continue;
    marks.push({ point: pixelCenter(p, width), swatch });
  }
  return marks;
}
