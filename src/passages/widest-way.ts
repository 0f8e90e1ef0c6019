import { TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { type Levels, radiusOf } from './levels.ts';
import { LEAST_RATIO } from './list.ts';

/** Steps up, right, down, left; the opposite of step k is (k + 2) & 3. */
function steps(stride: number): readonly number[] {
  return [-stride, 1, stride, -1];
}

/**
 * The widest way from one cell of paper to another: a path of 4-neighbors whose narrowest place is
 * as wide as any way's, and so is the narrowest between any two of its cells. Gives the cells, from
 * the first on; undefined where no paper connects the two.
 *
 * Grows from the first cell, the cell farthest from ink next (Prim 1957, for the greatest spanning
 * tree), ties to the cell reached last. O(pixels); 9 bytes per pixel.
 */
export function widestWay(
  { level, stride }: Levels,
  from: number,
  to: number,
  tick?: Tick,
): number[] | undefined {
  const step = steps(stride);
  if (level[from] === 0 || level[to] === 0) return undefined;
  // Cells that are reached but not yet passed, as a stack for each level.
  const top = new Int32Array(65_536).fill(-1);
  const below = new Int32Array(level.length);
  /** 0 for a cell that is not reached, 1 + the step back to where it was reached from. */
  const back = new Uint8Array(level.length);
  let highest = level[from]!;
  top[highest] = from;
  below[from] = -1;
  back[from] = 5;
  let passed = 0;
  while (highest > 0) {
    const cell = top[highest]!;
    if (cell < 0) {
      highest--;
      continue;
    }
    if (++passed % TICK_PIXELS === 0) tick?.(passed / level.length);
    if (cell === to) return trace(back, step, from, to);
    top[highest] = below[cell]!;
    for (let k = 0; k < 4; k++) {
      const next = cell + step[k]!;
      const height = level[next]!;
      if (height === 0 || back[next] !== 0) continue;
      back[next] = 1 + ((k + 2) & 3);
      below[next] = top[height]!;
      top[height] = next;
      if (height > highest) highest = height;
    }
  }
  return undefined;
}

function trace(back: Uint8Array, step: readonly number[], from: number, to: number): number[] {
  const way = [to];
  for (let cell = to; cell !== from; ) {
    cell += step[back[cell]! - 1]!;
    way.push(cell);
  }
  return way.reverse();
}

/** A narrow place of a way. */
export interface Narrow {
  /** Place in the way. */
  readonly index: number;
  /** How far the paper opens on both sides of it along the way, in pixels from the middle to ink. */
  readonly opens: readonly [number, number];
}

/**
 * The places of a way where it is narrowest between two that are at least 1.25 times as wide; of
 * equally narrow neighbors the middle one. O(length).
 */
export function narrowPlaces({ level }: Levels, way: readonly number[]): Narrow[] {
  const radii = way.map((cell) => radiusOf(level[cell]!));
  const places: number[] = [];
  let widest = 0;
  let least = Number.POSITIVE_INFINITY;
  let [first, last] = [0, 0];
  radii.forEach((radius, i) => {
    if (least === Number.POSITIVE_INFINITY) {
      widest = Math.max(widest, radius);
      if (radius * LEAST_RATIO > widest) return;
    }
    if (radius <= least) {
      if (radius < least) first = i;
      last = i;
      least = radius;
    }
    if (radius < LEAST_RATIO * least) return;
    places.push((first + last) >> 1);
    widest = radius;
    least = Number.POSITIVE_INFINITY;
  });
  return withOpenings(radii, places);
}

/**
 * The mouth of a way that opens 1.25 times from its narrower end on: the last place before that; none
 * of a way that is as wide all along.
 */
export function mouthOf({ level }: Levels, way: readonly number[]): Narrow[] {
  const radii = way.map((cell) => radiusOf(level[cell]!));
  const turned = radii[0]! > radii.at(-1)!;
  const last = radii.length - 1;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= last; i++) {
    const radius = radii[turned ? last - i : i]!;
    least = Math.min(least, radius);
    if (radius < LEAST_RATIO * least) continue;
    const mouth = turned ? last - i + 1 : i - 1;
    return mouth === 0 || mouth === last ? [] : withOpenings(radii, [mouth]);
  }
  return [];
}

function withOpenings(radii: readonly number[], places: readonly number[]): Narrow[] {
  const widestBetween = (from: number, to: number): number =>
    radii.slice(from, to).reduce((most, radius) => Math.max(most, radius), 0);
  return places.map((index, k) => ({
    index,
    opens: [
      widestBetween(places[k - 1] ?? 0, index),
      widestBetween(index, places[k + 1] ?? radii.length),
    ],
  }));
}

/** The steps from a cell of a way to the one before and to the one behind, as `a << 2 | b`. */
export function armsAt(way: readonly number[], index: number, stride: number): number {
  const step = steps(stride);
  const towards = (other: number): number => step.indexOf(way[other]! - way[index]!);
  return (towards(index - 1) << 2) | towards(index + 1);
}
