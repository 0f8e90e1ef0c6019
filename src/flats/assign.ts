import { formatColor } from '../color/hex.ts';
import { freeName } from '../palette/free-name.ts';
import { placeholderColors, rgbOf } from '../palette/placeholders.ts';
import { samples } from '../palette/shades.ts';
import { MAX_SWATCHES } from '../palette/swatches.ts';
import type { Swatch } from '../palette/types.ts';
import { orderOf } from '../raster/order.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type { Bounds, Point } from '../raster/types.ts';
import { inscribedDiscs } from '../regions/inscribed.ts';
import { measureSpans } from '../regions/measure.ts';
import { OPEN } from './marked-map.ts';
import {
  colorPlaces,
  colorsAfterMarks,
  type LabeledRegions,
  type PlaceColors,
} from './place-colors.ts';
import type { BorderRegion, OutsideMark, PlanConflict, PlanNote } from './plan-report.ts';
import type { Unnamed } from './settings.ts';

/** A region that no mark names. */
export interface UnnamedRegion {
  readonly id: number;
  /** Center of its widest inscribed disc on paper: a point that a mark can use. */
  readonly inside: Point;
  /** Pixels. */
  readonly area: number;
  readonly bounds: Bounds;
}

/** What became of a plan. */
export interface PlanReport {
  /** Regions in the labels. */
  readonly regions: number;
  /** Regions named by a mark. */
  readonly named: number;
  /** Regions that are the ground because they touch the picture's border. */
  readonly ground: number;
  /** Regions that no mark names, the largest first, ties to the lower id. */
  readonly unnamed: readonly UnnamedRegion[];
  /** Ids of the regions that are the ground because they touch the picture's border. */
  readonly groundIds: readonly number[];
  /**
   * Regions that touch the picture's border, named by a mark or not, by their ids. Flats with the
   * swatch of one for their `ground` are written and shown with that region transparent.
   */
  readonly border: readonly BorderRegion[];
  readonly conflicts: readonly PlanConflict[];
  /** Points of marks outside the picture, with `outside: 'report'`. */
  readonly outside: readonly OutsideMark[];
  /** Points of marks on pixels of no region. */
  readonly unlabeled: readonly OutsideMark[];
  /** Marks that changed nothing, and what else may want a look. */
  readonly notes: readonly PlanNote[];
}

/** Region labels with what decides their swatches. */
export interface Assignable extends LabeledRegions {
  /** Ink that the regions have grown under. */
  readonly ink: Uint8Array | undefined;
}

export interface AssignRule {
  /** Swatches that the plan knows, `bare` first. */
  readonly palette: readonly Swatch[];
  /** Index of each region's swatch that a mark has given it, or `OPEN`. */
  readonly swatch: ArrayLike<number>;
  readonly ground: Swatch;
  /** Left out, regions that no mark names stay bare and are not listed. */
  readonly unnamed: Unnamed | undefined;
  /** Colors by place before the marks; undefined where no mark changed a region. */
  readonly before?: PlaceColors | undefined;
  /** Called while the places of the regions that no mark names are sought. */
  readonly tick?: Tick | undefined;
}

/** Palette and the palette's index for each id. */
export interface Assignment {
  readonly palette: Swatch[];
  readonly indexOf: Int32Array;
  /** Ids of the regions that no mark names and that are no ground. */
  readonly open: readonly number[];
  readonly ground?: string;
  readonly counts: Pick<PlanReport, 'regions' | 'named' | 'ground' | 'unnamed' | 'groundIds'>;
}

export const SHARED = 'unnamed';

/** Gives each region its swatch: by mark, as ground, or a placeholder of its own or shared. */
export function assignSwatches(regions: Assignable, rule: AssignRule): Assignment {
  return assignWith(regions, rule, (palette, indexOf, open) =>
    addUnnamed(regions, rule, palette, indexOf, open),
  );
}

/** Adds swatches for the regions that no mark names, and lists these. */
type AddUnnamed = (
  palette: Swatch[],
  indexOf: Int32Array,
  open: readonly number[],
) => UnnamedRegion[];

/** The same where something else gives what no mark names its swatches. */
export function assignWith(
  { areas, border }: Pick<Assignable, 'areas' | 'border'>,
  rule: Pick<AssignRule, 'palette' | 'swatch' | 'ground'>,
  add: AddUnnamed,
): Assignment {
  const palette = [...rule.palette];
  const indexOf = Int32Array.from(rule.swatch);
  let named = 0;
  const groundIds: number[] = [];
  const open: number[] = [];
  for (let id = 1; id < indexOf.length; id++) {
    if (areas[id] === 0) continue;
    if (indexOf[id] !== OPEN) named++;
    else if (border.has(id)) groundIds.push(id);
    else open.push(id);
  }
  if (groundIds.length > 0) {
    const ground = groundIndex(palette, rule.ground);
    for (const id of groundIds) indexOf[id] = ground;
  }
  const unnamed = open.length === 0 ? [] : add(palette, indexOf, open);
  const hasGround = palette.some(({ name }) => name === rule.ground.name);
  return {
    palette,
    indexOf,
    open,
    ...(hasGround ? { ground: rule.ground.name } : {}),
    counts: {
      regions: named + groundIds.length + open.length,
      named,
      ground: groundIds.length,
      unnamed,
      groundIds,
    },
  };
}

/** Colors of regions by place before any mark, for marks that may change regions. */
export function placeRegions(
  regions: Assignable,
  palette: readonly Swatch[],
  ground: Swatch,
  tick?: Tick,
): PlaceColors {
  const { labels, width, height, areas, ink } = regions;
  const discs = inscribedDiscs(labels, width, height, areas.length, ink, partOf(tick, 0, 0.5));
  return colorPlaces({ ...regions, discs }, groundColor(palette, ground), partOf(tick, 0.5, 1));
}

/** What the ground is painted in, whether or not a mark names it. */
export function groundColor(palette: readonly Swatch[], ground: Swatch): number {
  return rgbOf((palette.find(({ name }) => name === ground.name) ?? ground).color);
}

/** Place of the ground's swatch, which is added where the plan has none of that name. */
function groundIndex(palette: Swatch[], ground: Swatch): number {
  const known = palette.findIndex(({ name }) => name === ground.name);
  if (known >= 0) return known;
  if (palette.length === MAX_SWATCHES) {
    throw new RangeError(
      `plan.palette must leave room for the ground among ${MAX_SWATCHES - 1} swatches, got ${palette.length - 1}`,
    );
  }
  return palette.push(ground) - 1;
}

/** Adds swatches for the regions that no mark names, and lists these. */
function addUnnamed(
  regions: Assignable,
  rule: AssignRule,
  palette: Swatch[],
  indexOf: Int32Array,
  open: readonly number[],
): UnnamedRegion[] {
  if (rule.unnamed === undefined) {
    for (const id of open) indexOf[id] = 0;
    return [];
  }
  const { labels, width, height, areas, ink } = regions;
  checkSwatchCount(palette.length + (rule.unnamed === 'shared' ? 1 : open.length));
  const { tick } = rule;
  const discs = inscribedDiscs(labels, width, height, areas.length, ink, partOf(tick, 0, 0.4));
  const placeOf = (id: number): [number, number] => {
    return [discs.center[id]! % width, Math.floor(discs.center[id]! / width)];
  };
  const taken = new Set([rule.ground.name, ...palette.map(({ name }) => name)]);
  const reserved = new Set(palette.slice(1).map(({ color }) => rgbOf(color)));
  const ground = groundColor(rule.palette, rule.ground);
  if (rule.unnamed === 'shared') {
    for (const id of open) indexOf[id] = palette.length;
    palette.push({
      name: takeName(SHARED, taken),
      color: formatColor(...sharedColor(ground, reserved)),
    });
  } else {
    const placed = { ...regions, discs };
    const before = rule.before ?? colorPlaces(placed, ground, partOf(tick, 0.4, 0.9));
    const colors = colorsAfterMarks(placed, before, ground, open, reserved, partOf(tick, 0.8, 0.9));
    for (const id of open) {
      indexOf[id] = palette.length;
      const name = takeName(`region ${placeOf(id)}`, taken);
      palette.push({ name, color: formatColor(...samples(colors[id]!)) });
    }
  }
  const { area, bounds } = measureSpans(
    labels,
    width,
    height,
    areas.length,
    partOf(tick, 0.9, 0.95),
  );
  const sizes = new Float64Array(open.length);
  for (let k = 0; k < open.length; k++) sizes[k] = -area[open[k]!]!;
  const order = orderOf(sizes, partOf(tick, 0.95, 0.97));
  const listed: UnnamedRegion[] = [];
  for (let i = 0; i < order.length; i++) {
    if (tick !== undefined && i % 4096 === 0) tick(0.97 + (0.03 * i) / order.length);
    const id = open[order[i]!]!;
    const [x, y] = placeOf(id);
    const b = 4 * id;
    const own: Bounds = [bounds[b]!, bounds[b + 1]!, bounds[b + 2]!, bounds[b + 3]!];
    listed.push({ id, inside: [x + 0.5, y + 0.5], area: area[id]!, bounds: own });
  }
  return listed;
}

/** The largest first, ties to the lower id. */
export function bySize(a: UnnamedRegion, b: UnnamedRegion): number {
  return b.area - a.area || a.id - b.id;
}

/** Refuses more swatches than flats hold, where regions that no mark names get some. */
export function checkSwatchCount(swatches: number): void {
  if (swatches <= MAX_SWATCHES) return;
  throw new RangeError(
    `unnamed must leave at most ${MAX_SWATCHES - 1} swatches, got ${swatches - 1}; ` +
      "unnamed: 'shared' gives these regions one swatch, absorb gives small ones to a neighbor",
  );
}

/** A name that is not taken yet, and is from now on. */
export function takeName(wanted: string, taken: Set<string>): string {
  const name = freeName(wanted, taken);
  taken.add(name);
  return name;
}

/** One color for all, the same whatever is named, far from the ground's. */
export function sharedColor(ground: number, reserved: Iterable<number>): [number, number, number] {
  const pair = { offsets: Int32Array.of(0, 1, 2), items: Int32Array.of(1, 0) };
  const choosing = { order: [1], seeds: [0, 0], reserved };
  return samples(placeholderColors(pair, Int32Array.of(ground, -1), choosing)[1]!);
}
