import { placeholderColors } from '../palette/placeholders.ts';
import { MAX_SWATCHES } from '../palette/swatches.ts';
import type { Swatch } from '../palette/types.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import { adjacencyOf } from '../regions/adjacency.ts';
import type { BorderRegion, OutsideMark, PlanConflict, PlanNote } from './plan-report.ts';
import { OPEN } from './region-map.ts';
import type { Unnamed } from './settings.ts';

/** What became of a plan. */
export interface PlanReport {
  /** Regions in the labels. */
  readonly regions: number;
  /** Regions named by a mark. */
  readonly named: number;
  /** Regions that are the ground because they touch the picture's border. */
  readonly ground: number;
  /** Regions that no mark names. */
  readonly unnamed: number;
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
export interface Assignable {
  readonly labels: Int32Array;
  readonly width: number;
  readonly height: number;
  /** Pixels by id; 0 for ids that do not occur. */
  readonly areas: ArrayLike<number>;
  /** Ids whose paper touches the picture's border. */
  readonly border: ReadonlySet<number>;
}

export interface AssignRule {
  /** Swatches that the plan knows, `bare` first. */
  readonly palette: readonly Swatch[];
  /** Index of each region's swatch that a mark has given it, or `OPEN`. */
  readonly swatch: ArrayLike<number>;
  readonly ground: Swatch;
  readonly unnamed: Unnamed;
  /** Called while the neighbors of the regions that no mark names are sought. */
  readonly tick?: Tick | undefined;
}

/** Palette and the palette's index for each id. */
export interface Assignment {
  readonly palette: Swatch[];
  readonly indexOf: Int32Array;
  readonly ground?: string;
  readonly counts: Pick<PlanReport, 'regions' | 'named' | 'ground' | 'unnamed'>;
}

/** Index of the ground, whose swatch is sought when all its regions are known. */
const GROUND = -2;
const SHARED = 'unnamed';

/** Gives each region its swatch: by mark, as ground, or a placeholder of its own or shared. */
export function assignSwatches(regions: Assignable, rule: AssignRule): Assignment {
  const { areas, border } = regions;
  const palette = [...rule.palette];
  const indexOf = Int32Array.from(rule.swatch);
  const named = countOf(indexOf, areas, (index) => index !== OPEN);
  let grounds = 0;
  for (const id of border) {
    if (indexOf[id] !== OPEN) continue;
    grounds++;
    indexOf[id] = GROUND;
  }
  if (grounds > 0) {
    const ground = groundIndex(palette, rule.ground);
    for (const id of border) if (indexOf[id] === GROUND) indexOf[id] = ground;
  }
  const unnamed = countOf(indexOf, areas, (index) => index === OPEN);
  const fixed = palette.length;
  if (unnamed > 0) addUnnamed(palette, indexOf, areas, rule, unnamed);
  if (palette.length > fixed) colorPlaceholders(regions, palette, indexOf, fixed, rule.tick);
  const hasGround = palette.some(({ name }) => name === rule.ground.name);
  const total = named + grounds + unnamed;
  return {
    palette,
    indexOf,
    ...(hasGround ? { ground: rule.ground.name } : {}),
    counts: { regions: total, named, ground: grounds, unnamed },
  };
}

function countOf(
  indexOf: Int32Array,
  areas: ArrayLike<number>,
  matches: (index: number) => boolean,
): number {
  let count = 0;
  for (let id = 1; id < indexOf.length; id++) {
    if (areas[id]! > 0 && matches(indexOf[id]!)) count++;
  }
  return count;
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

/** Adds swatches, their colors still open, for the regions that no mark names. */
function addUnnamed(
  palette: Swatch[],
  indexOf: Int32Array,
  areas: ArrayLike<number>,
  { unnamed, ground }: AssignRule,
  count: number,
): void {
  const swatches = palette.length + (unnamed === 'shared' ? 1 : count);
  if (swatches > MAX_SWATCHES) {
    throw new RangeError(
      `unnamed must leave at most ${MAX_SWATCHES - 1} swatches, got ${swatches - 1}; ` +
        "unnamed: 'shared' gives these regions one swatch, absorb gives small ones to a neighbor",
    );
  }
  const taken = new Set([ground.name, ...palette.map(({ name }) => name)]);
  const freeName = (wanted: string): string => {
    let name = wanted;
    for (let n = 2; taken.has(name); n++) name = `${wanted} (${n})`;
    taken.add(name);
    return name;
  };
  const shared = palette.length;
  if (unnamed === 'shared') palette.push({ name: freeName(SHARED), color: '' });
  for (let id = 1; id < indexOf.length; id++) {
    if (indexOf[id] !== OPEN || areas[id] === 0) continue;
    if (unnamed === 'shared') indexOf[id] = shared;
    else {
      indexOf[id] = palette.length;
      palette.push({ name: freeName(`region ${id}`), color: '' });
    }
  }
}

/** Colors the swatches from `fixed` on so that neighbors differ. */
function colorPlaceholders(
  { labels, width, height }: Assignable,
  palette: Swatch[],
  indexOf: Int32Array,
  fixed: number,
  tick: Tick | undefined,
): void {
  const { a, b } = adjacencyOf(labels, width, height, partOf(tick, 0, 0.5));
  const offsets = new Int32Array(palette.length + 1);
  const links = new Int32Array(2 * a.length);
  for (let k = 0; k < a.length; k++) {
    links[2 * k] = indexOf[a[k]!]!;
    links[2 * k + 1] = indexOf[b[k]!]!;
  }
  for (const index of links) offsets[index + 1]! += 1;
  for (let i = 0; i < palette.length; i++) offsets[i + 1]! += offsets[i]!;
  const items = new Int32Array(links.length);
  const at = offsets.slice();
  for (let k = 0; k < links.length; k += 2) {
    items[at[links[k]!]!++] = links[k + 1]!;
    items[at[links[k + 1]!]!++] = links[k]!;
  }
  const known = palette.map(({ color }, i) => (i < fixed ? color : null));
  const last = partOf(tick, 0.5, 1);
  const colors = placeholderColors({ offsets, items }, known, last);
  for (let i = fixed; i < palette.length; i++) {
    palette[i] = { name: palette[i]!.name, color: colors[i]! };
  }
}
