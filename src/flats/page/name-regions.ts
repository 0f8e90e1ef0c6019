import { formatColor } from '../../color/hex.ts';
import { placeholderColors, rgbOf } from '../../palette/placeholders.ts';
import { samples } from '../../palette/shades.ts';
import { BARE_SWATCH } from '../../palette/swatches.ts';
import type { Swatch } from '../../palette/types.ts';
import { pixelCenter } from '../../raster/pixel-center.ts';
import { scatterPlace } from '../../raster/scatter.ts';
import type { Bounds } from '../../raster/types.ts';
import {
  type Assignment,
  assignWith,
  bySize,
  checkSwatchCount,
  groundColor,
  SHARED,
  sharedColor,
  takeName,
  type UnnamedRegion,
} from '../assign.ts';
import { neighborsOf } from '../place-colors.ts';
import type { Unnamed } from '../settings.ts';
import type { MeasuredRows } from './measure-rows.ts';

/** The widest disc of a region on paper. */
export interface Disc {
  /** Index of the pixel at its center. */
  readonly center: number;
  /** Squared distance from there to what is not the region's paper. */
  readonly square: number;
}

/** The placeholders of regions that no mark names, by id, in the order of the palette. */
export type Placeholders = ReadonlyMap<number, Swatch>;

export interface NameRule {
  readonly palette: readonly Swatch[];
  readonly ground: Swatch;
  readonly unnamed: Unnamed;
  /** Index of each region's swatch that a mark has given it, or `OPEN`. */
  readonly swatch: Int32Array;
  readonly measured: MeasuredRows;
  readonly border: ReadonlySet<number>;
  readonly width: number;
  /** The placeholders so far. */
  readonly before: Placeholders;
  /** Gives the disc of a region. */
  discOf(id: number): Disc;
  /** Gives pairs of regions that share a border, each once. */
  pairs(): { readonly a: Int32Array; readonly b: Int32Array };
}

/** Gives each region its swatch; regions that had a placeholder keep it. */
export function nameRegions(rule: NameRule): { assigned: Assignment; placeholders: Placeholders } {
  const { measured, border, ground, unnamed, width, discOf } = rule;
  let placeholders: Placeholders = new Map();
  const basis = { palette: [BARE_SWATCH, ...rule.palette], swatch: rule.swatch, ground };
  const add = (palette: Swatch[], indexOf: Int32Array, open: readonly number[]) => {
    checkSwatchCount(palette.length + (unnamed === 'shared' ? 1 : open.length));
    if (unnamed === 'shared') {
      const taken = new Set([ground.name, ...palette.map(({ name }) => name)]);
      const reserved = new Set(rule.palette.map(({ color }) => rgbOf(color)));
      const color = formatColor(...sharedColor(groundColor(rule.palette, ground), reserved));
      for (const id of open) indexOf[id] = palette.length;
      palette.push({ name: takeName(SHARED, taken), color });
    } else {
      placeholders = placeholdersOf(rule, palette, indexOf, open);
      for (const [id, swatch] of placeholders) indexOf[id] = palette.push(swatch) - 1;
    }
    const listed = open.map((id): UnnamedRegion => {
      const inside = pixelCenter(discOf(id).center, width);
      const bounds = [...measured.bounds.subarray(4 * id, 4 * id + 4)] as Bounds;
      return { id, inside, area: measured.areas[id]!, bounds };
    });
    return listed.sort(bySize);
  };
  const assigned = assignWith({ areas: measured.areas, border }, basis, add);
  return { assigned, placeholders };
}

/**
 * Placeholders that are kept, and new ones for the other regions, far from the colors beside them.
 * In the place of one that goes comes the last one, so that few regions change their index.
 */
function placeholdersOf(
  rule: NameRule,
  palette: readonly Swatch[],
  indexOf: Int32Array,
  open: readonly number[],
): Placeholders {
  const { before, width, discOf } = rule;
  const taken = new Set([rule.ground.name, ...palette.map(({ name }) => name)]);
  const reserved = new Set(rule.palette.map(({ color }) => rgbOf(color)));
  const kept = new Map<number, Swatch>();
  for (const id of open) {
    const swatch = before.get(id);
    if (swatch === undefined || taken.has(swatch.name)) continue;
    if (reserved.has(rgbOf(swatch.color))) continue;
    kept.set(id, swatch);
  }
  for (const { name } of kept.values()) taken.add(name);
  const order = open.filter((id) => !kept.has(id));
  const placeholders = inOldPlaces(before, kept);
  if (order.length === 0) return placeholders;
  const known = indexOf.map((index, id) => {
    const swatch = kept.get(id) ?? (index > 0 ? palette[index] : undefined);
    return rule.measured.areas[id] === 0 || swatch === undefined ? -1 : rgbOf(swatch.color);
  });
  const seeds = new Uint32Array(indexOf.length);
  for (const id of order) {
    const { center } = discOf(id);
    seeds[id] = scatterPlace(center % width, Math.floor(center / width));
  }
  order.sort((i, j) => discOf(j).square - discOf(i).square || discOf(i).center - discOf(j).center);
  for (const { color } of kept.values()) reserved.add(rgbOf(color));
  const neighbors = neighborsOf(rule.pairs(), indexOf.length);
  const colors = placeholderColors(neighbors, known, { order, seeds, reserved });
  for (const id of order) {
    const [x, y] = pixelCenter(discOf(id).center, width).map(Math.floor);
    const name = takeName(`region ${x},${y}`, taken);
    placeholders.set(id, { name, color: formatColor(...samples(colors[id]!)) });
  }
  return placeholders;
}

function inOldPlaces(before: Placeholders, kept: ReadonlyMap<number, Swatch>): Map<number, Swatch> {
  const ids = [...before.keys()];
  const placed = new Map<number, Swatch>();
  for (let first = 0, last = ids.length - 1; first <= last; first++) {
    let id = ids[first]!;
    while (!kept.has(id) && first < last) id = ids[last--]!;
    if (kept.has(id)) placed.set(id, kept.get(id)!);
  }
  return placed;
}
