import { type Neighbors, placeholderColors } from '../palette/placeholders.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import { scatterPlace } from '../raster/scatter.ts';
import { adjacencyOf } from '../regions/adjacency.ts';
import type { InscribedDiscs } from '../regions/inscribed.ts';

/** Labeled regions as kernels see them. */
export interface LabeledRegions {
  readonly labels: Int32Array;
  readonly width: number;
  readonly height: number;
  /** Pixels by id; 0 for ids that do not occur. */
  readonly areas: ArrayLike<number>;
  /** Ids whose paper touches the picture's border. */
  readonly border: ReadonlySet<number>;
}

/** With the discs that say where they are. */
export interface PlacedRegions extends LabeledRegions {
  readonly discs: InscribedDiscs;
}

/** Colors of regions as they were before any mark. */
export interface PlaceColors {
  /** `0xrrggbb` by id, -1 for ids that did not occur; of the border regions that of the ground. */
  readonly colors: Int32Array;
  readonly areas: ArrayLike<number>;
  readonly border: ReadonlySet<number>;
}

/**
 * A color for every region by its place, as if no mark named any: all different, neighbors at least
 * 20 apart in CIEDE2000, from the ground too, which all border regions have.
 *
 * The place of a region, the center of its widest disc, decides what color it prefers; regions
 * choose in the order of the radius of their discs, the widest first, ties by place. So a region
 * keeps its color as long as its place and the few wider ones beside it stay. O(pixels + pairs).
 *
 * @param ground - `0xrrggbb`.
 */
export function colorPlaces(regions: PlacedRegions, ground: number, tick?: Tick): PlaceColors {
  const { areas, border } = regions;
  const colors = new Int32Array(areas.length).fill(-1);
  for (const id of border) colors[id] = ground;
  const open = idsWhere(areas, (id) => colors[id]! < 0);
  return { colors: chooseColors(regions, colors, open, [], tick), areas, border };
}

/**
 * The colors after the marks. Only regions that a mark made, or took pixels into, choose anew, far
 * from what is beside them now; all others keep the color that they had.
 *
 * @param reserved - Colors `0xrrggbb` of the plan, which none of `open` may have.
 * @param open - Ids that need a color of their own.
 */
export function colorsAfterMarks(
  regions: PlacedRegions,
  before: PlaceColors,
  ground: number,
  open: readonly number[],
  reserved: ReadonlySet<number>,
  tick?: Tick,
): Int32Array {
  const { areas, border } = regions;
  const colors = new Int32Array(areas.length).fill(-1);
  for (let id = 1; id < before.areas.length; id++) {
    const isSame = areas[id]! <= before.areas[id]! && !before.border.has(id);
    if (isSame) colors[id] = before.colors[id]!;
  }
  for (const id of border) colors[id] = ground;
  for (const id of open) if (reserved.has(colors[id]!)) colors[id] = -1;
  const anew = idsWhere(areas, (id) => colors[id]! < 0);
  return anew.length === 0 ? colors : chooseColors(regions, colors, anew, reserved, tick);
}

function idsWhere(areas: ArrayLike<number>, matches: (id: number) => boolean): number[] {
  const ids: number[] = [];
  for (let id = 1; id < areas.length; id++) if (areas[id]! > 0 && matches(id)) ids.push(id);
  return ids;
}

/** Gives the ids of a list, which it sorts, a color. */
function chooseColors(
  { labels, width, height, areas, discs: { center, square } }: PlacedRegions,
  known: Int32Array,
  open: number[],
  reserved: Iterable<number>,
  tick: Tick | undefined,
): Int32Array {
  const pairs = adjacencyOf(labels, width, height, partOf(tick, 0, 0.5));
  const neighbors = neighborsOf(pairs, areas.length);
  const seeds = new Uint32Array(areas.length);
  for (const id of open) {
    seeds[id] = scatterPlace(center[id]! % width, Math.floor(center[id]! / width));
  }
  open.sort((i, j) => square[j]! - square[i]! || center[i]! - center[j]!);
  const last = partOf(tick, 0.5, 1);
  return placeholderColors(neighbors, known, { order: open, seeds, reserved }, last);
}

/** Neighbors of all nodes, by pairs of which each stands once. O(nodes + pairs). */
export function neighborsOf(
  { a, b }: { readonly a: Int32Array; readonly b: Int32Array },
  nodes: number,
): Neighbors {
  const offsets = new Int32Array(nodes + 1);
  for (let k = 0; k < a.length; k++) {
    offsets[a[k]! + 1]! += 1;
    offsets[b[k]! + 1]! += 1;
  }
  for (let i = 0; i < nodes; i++) offsets[i + 1]! += offsets[i]!;
  const items = new Int32Array(2 * a.length);
  const at = offsets.slice();
  for (let k = 0; k < a.length; k++) {
    items[at[a[k]!]!++] = b[k]!;
    items[at[b[k]!]!++] = a[k]!;
  }
  return { offsets, items };
}
