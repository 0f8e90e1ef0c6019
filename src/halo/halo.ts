import { partOf, TICK_PIXELS, TICK_STEPS, type Tick } from '../raster/progress.ts';
import type { Owned } from '../raster/types.ts';

/** Full coverage: no light comes through. */
const SOLID = 255;

/** A picture of flats with its ink, as the search for halo sees it. */
export interface HaloInput {
  readonly indices: Uint8Array | Uint16Array;
  /** 1 on the pixels of the ground, or of what counts as it: see `groundMask`. */
  readonly ground: Uint8Array;
  readonly coverage: Uint8Array;
  /** Ink whose gaps are closed, where it is known: on clear paper it tells the seams of those. */
  readonly sealed?: Uint8Array | undefined;
  readonly width: number;
  readonly height: number;
}

/** Up to here coverage is clear paper: chosen, below one sample of 16 in a pixel, above most grain. */
const CLEAR_PAPER = 8;

/** What rising steps lead to: of the flats, halo, and of the ground from an open seam. */
const FLAT = 3;
const HALO = 1;
const SHARED = 2;

/**
 * 1 where light shows under partial coverage: on bare pixels that are not of the ground, and on pixels
 * of the ground that lie on a flat's side of the ink, which are those that steps of rising coverage
 * lead to from a flat's clear paper; between two darker pixels a diagonal step would cross the ridge, and is
 * none. A dip within the ink, as where paper runs out between two strokes, is on nobody's side. Where
 * ground on clear paper meets a flat that is no farther under the ink than its own side, as in a closed gap,
 * the ink at the end of that seam has both for a side: what rising steps lead to from the ground there
 * is no halo. Where the sealed ink is known, so does ground beside clear paper that closes a gap, if
 * there is clear paper of the ground beside it too: a mouth of a pixel or two between soft ends has
 * partial coverage all across.
 * O(pixels); 4 bytes for each pixel of a line's rim.
 */
export function haloMask(input: HaloInput, tick?: Tick): Owned<Uint8Array> {
  const { indices, ground, coverage } = input;
  const mask = new Uint8Array(indices.length);
  const todo: number[] = [];
  const start = (i: number, mark: number): void => {
    mask[i] = mark;
    todo.push(i);
  };
  for (let i = 0; i < indices.length; i++) {
    if (tick !== undefined && i % TICK_PIXELS === 0) tick((0.4 * i) / indices.length);
    const ink = coverage[i]!;
    if (ink === 0 || ink === SOLID || ground[i] === 1) continue;
    if (indices[i] === 0) mask[i] = HALO;
    else if (ink > CLEAR_PAPER && meetsFlat(input, mask, i, CLEAR_PAPER + 1)) start(i, FLAT);
  }
  climb(input, mask, todo, FLAT, partOf(tick, 0.4, 0.4));
  for (let i = 0; i < indices.length; i++) {
    if (tick !== undefined && i % TICK_PIXELS === 0) tick(0.4 + (0.3 * i) / indices.length);
    const ink = coverage[i]!;
    if (ink === 0 || ink === SOLID || ground[i] === 0) continue;
    if (meetsFlat(input, mask, i, ink)) start(i, HALO);
  }
  if (todo.length > 0) {
    climb(input, mask, todo, HALO, partOf(tick, 0.7, 0.7));
    for (let i = 0; i < indices.length; i++) {
      if (tick !== undefined && i % TICK_PIXELS === 0) tick(0.7 + (0.2 * i) / indices.length);
      if (ground[i] === 0 || coverage[i] === SOLID) continue;
      const onPaper = coverage[i]! <= CLEAR_PAPER && mask[i] !== HALO;
      if (onPaper && meetsFlat(input, mask, i, SOLID)) todo.push(i);
      else if (isOnClosedGap(input, i)) start(i, SHARED);
    }
    climb(input, mask, todo, SHARED, partOf(tick, 0.9, 0.9));
  }
  for (let i = 0; i < mask.length; i++) {
    if (tick !== undefined && i % TICK_PIXELS === 0) tick(0.9 + (0.1 * i) / mask.length);
    if (mask[i] !== HALO) mask[i] = 0;
  }
  return mask;
}

/** Whether an 8-neighbor is on a flat's side, of less coverage than `ink`. */
function meetsFlat(input: HaloInput, mask: Uint8Array, i: number, ink: number): boolean {
  const { indices, ground, coverage, width, height } = input;
  const x = i % width;
  const y = (i - x) / width;
  for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++) {
    for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++) {
      const j = v * width + u;
      if (indices[j] === 0 || ground[j] === 1 || coverage[j]! >= ink) continue;
      if (coverage[j]! > CLEAR_PAPER && mask[j] !== FLAT) continue;
      if (!crossesRidge(coverage, width, j, i)) return true;
    }
  }
  return false;
}

/**
 * Marks what steps of rising coverage lead to, short of solid ink: flats with `FLAT`, else the ground.
 * Uses up `todo`.
 */
function climb(
  input: HaloInput,
  mask: Uint8Array,
  todo: number[],
  mark: number,
  tick: Tick | undefined,
): void {
  const { indices, ground, coverage, width } = input;
  const side = mark === FLAT ? 0 : 1;
  for (let step = 0; todo.length > 0; step++) {
    if (tick !== undefined && step % TICK_STEPS === 0) tick(1);
    const i = todo.pop()!;
    const x = i % width;
    const x0 = x > 0 ? i - 1 : i;
    const x1 = x < width - 1 ? i + 1 : i;
    for (let up = -width; up <= width; up += width) {
      if (i + up < 0 || i + up >= mask.length) continue;
      for (let j = x0 + up; j <= x1 + up; j++) {
        if (mask[j] === mark || ground[j] !== side || (side === 0 && indices[j] === 0)) continue;
        if (coverage[j] === SOLID || coverage[j]! <= coverage[i]!) continue;
        if (crossesRidge(coverage, width, i, j)) continue;
        mask[j] = mark;
        todo.push(j);
      }
    }
  }
}

/** Whether clear paper that closes a gap, and clear paper of the ground, are within one pixel. */
function isOnClosedGap({ ground, coverage, sealed, width, height }: HaloInput, i: number): boolean {
  if (sealed === undefined) return false;
  const x = i % width;
  const y = (i - x) / width;
  let closes = false;
  let opens = false;
  for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++) {
    for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++) {
      const j = v * width + u;
      if (coverage[j]! > CLEAR_PAPER) continue;
      if (sealed[j] === 1) closes = true;
      else if (ground[j] === 1) opens = true;
    }
  }
  return closes && opens;
}

/** Whether a step between neighbors is diagonal, between two pixels that are darker than its end. */
function crossesRidge(coverage: Uint8Array, width: number, from: number, to: number): boolean {
  const across = (to % width) - (from % width);
  const end = coverage[to]!;
  return (
    across !== 0 &&
    to - from !== across &&
    coverage[from + across]! > end &&
    coverage[to - across]! > end
  );
}
