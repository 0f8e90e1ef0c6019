import type { Tick } from '../../raster/progress.ts';
import { adjacencyOf } from '../../regions/adjacency.ts';
import type { Overlap, Overlaps } from './overlaps.ts';

/** Which old region each new one is, by their ids. */
export interface Matches {
  /** Old region of each new one; 0 for none. */
  readonly old: Int32Array;
  /** How sure that is, 0 to 1. */
  readonly sure: Float64Array;
  /** 1 for new regions that are at another place than the transform says. */
  readonly strayed: Uint8Array;
  /** New region that an old one has become a part of, by old id; 0 for none. */
  readonly partOf: Int32Array;
}

/** Of paper that shows nothing of the old picture so much counts against what the rest shows. */
const BLANK = 0.5;
/** An old region of which another one holds that share has become a part of it, at least there. */
const HELD = 0.4;
/** A region at another place must share so much of both their paper, moved upon each other. */
const LIKE = 0.6;
/** A second part of a region that shows no more than that of it may be another one. */
const CLEAR = 0.6;

/** How much two regions are alike when their centers lie on each other, 0 to 1; 0 when far apart. */
export type Likeness = (region: number, old: number) => number;

/**
 * Gives each new region the old one that it shows most of; ties go to the lower id. Where an old region
 * is shown most by none, a new one that has no good claim to its own and is of the same form nearby is
 * that one, moved; the most alike first. Where another region holds more of an old one than any, and
 * at least 0.4 of it, that has become a part of it; what else is left is gone. O(pairs · log), and what
 * `likeness` takes for the few that are left.
 */
export function matchRegions(
  overlaps: Overlaps,
  isOpen: (old: number) => boolean,
  likeness: Likeness,
  tick?: Tick,
): Matches {
  const { area, blank, shows, shownBy } = overlaps;
  const old = Int32Array.from(shows, (list) => list[0]?.id ?? 0);
  const sure = Float64Array.from(shows, (list, id) => {
    const against = list[0] !== undefined && isOpen(list[0].id) ? 0 : 1 - BLANK;
    return certainty(list[0], area[id]! - blank[id]!, against * blank[id]!);
  });
  const strayed = new Uint8Array(area.length);
  const lost = unclaimed(old, shownBy.length, overlaps);
  const free: number[] = [];
  for (let id = 1; id < area.length; id++) {
    if (area[id] === 0) continue;
    const isMain = old[id] !== 0 && shownBy[old[id]!]![0]!.id === id;
    if (!isMain || sure[id]! < CLEAR) free.push(id);
  }
  const pairs: { id: number; gone: number; like: number }[] = [];
  lost.forEach((gone, k) => {
    tick?.(k / lost.length);
    for (const id of free) {
      const like = likeness(id, gone);
      if (like >= LIKE) pairs.push({ id, gone, like });
    }
  });
  pairs.sort((p, q) => q.like - p.like || p.id - q.id || p.gone - q.gone);
  const taken = new Set<number>();
  for (const { id, gone, like } of pairs) {
    if (strayed[id] === 1 || taken.has(gone)) continue;
    taken.add(gone);
    old[id] = gone;
    sure[id] = like / 2;
    strayed[id] = 1;
  }
  const partOf = new Int32Array(shownBy.length);
  shownBy.forEach((list, gone) => {
    const home = list[0];
    if (home === undefined || old[home.id] === gone || taken.has(gone)) return;
    if (home.pixels >= HELD * overlaps.oldArea[gone]!) partOf[gone] = home.id;
  });
  return { old, sure, strayed, partOf };
}

function certainty(main: Overlap | undefined, shown: number, against: number): number {
  return main === undefined ? 0 : main.pixels / (shown + against);
}

/** Old regions that no new one is. */
function unclaimed(old: Int32Array, count: number, { oldArea }: Overlaps): number[] {
  const claimed = new Uint8Array(count);
  for (const id of old) claimed[id] = 1;
  const lost: number[] = [];
  for (let id = 1; id < count; id++) if (oldArea[id]! > 0 && claimed[id] === 0) lost.push(id);
  return lost;
}

/** Lengths of the borders on paper between old regions: seams that no ink hides. */
export function paperSeams(
  ids: Int32Array,
  width: number,
  height: number,
  tick?: Tick,
): (a: number, b: number) => number {
  const { a, b, borderLength } = adjacencyOf(ids, width, height, tick);
  const lengths = new Map<string, number>();
  for (let k = 0; k < a.length; k++) lengths.set(`${a[k]} ${b[k]}`, borderLength[k]!);
  return (p, q) => lengths.get(`${Math.min(p, q)} ${Math.max(p, q)}`) ?? 0;
}
