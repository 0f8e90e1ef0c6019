import { IntList } from '../../raster/int-list.ts';
import { partOf, type Tick } from '../../raster/progress.ts';
import type { Dense } from '../../raster/types.ts';
import { inverse, type Similarity, scaleOf } from './similarity.ts';

/** Pixels of ink of each picture that are looked at. */
const SAMPLES = 20_000;
/** Rows that are looked at. */
const ROWS = 700;
/** How many stroke widths aside ink is met by chance. */
const ASIDE = 6;

/** Ink as the estimate of a transform needs it. */
export interface MeasuredInk {
  readonly ink: Dense<Uint8Array>;
  /** Pixels of ink, evenly over all of them, row by row. */
  readonly samples: Int32Array;
  /** Mean width of its strokes in pixels, at least 1. */
  readonly stroke: number;
}

/**
 * Counts ink on some rows: a stroke has two edges, and an edge in all directions alike has 4/π pixel
 * edges for each pixel of its length, so the mean width is 8/π times the area over the pixel edges.
 */
export function measureInk(ink: Dense<Uint8Array>): MeasuredInk {
  const { data, width, height } = ink;
  const step = Math.max(1, Math.floor(height / ROWS));
  const found = new IntList();
  let edges = 0;
  for (let y = 0; y < height; y += step) {
    for (let x = 0, i = y * width; x < width; x++, i++) {
      if (data[i] === 0) continue;
      found.push(i);
      if (x === 0 || data[i - 1] === 0) edges++;
      if (y === 0 || data[i - width] === 0) edges++;
    }
  }
  const stroke = edges === 0 ? 1 : Math.max(1, (1.27 * found.length) / edges);
  const every = Math.max(1, found.length / SAMPLES);
  const samples = new Int32Array(Math.floor(found.length / every));
  for (let k = 0; k < samples.length; k++) samples[k] = found.data[Math.floor(k * every)]!;
  return { ink, samples, stroke };
}

/**
 * How sure a transform is, 0 to 1: the share of ink that has ink of the other picture within half a
 * stroke's width, beyond what would by chance, the mean of both ways. Where ink is taken away and none
 * added one way has all, so half of it in common gives about three quarters.
 */
export function inkInCommon(
  from: MeasuredInk,
  to: MeasuredInk,
  transform: Similarity,
  tick?: Tick,
): number {
  const reach = Math.max(to.stroke, scaleOf(transform) * from.stroke) / 2;
  const there = shareBeyondChance(from, to, transform, reach, partOf(tick, 0, 0.5));
  const size = scaleOf(transform);
  const back = shareBeyondChance(to, from, inverse(transform), reach / size, partOf(tick, 0.5, 1));
  return (there + back) / 2;
}

/** The share of ink that a transform takes onto ink, both ways, to the pixel. */
export function inkOnInk(from: MeasuredInk, to: MeasuredInk, transform: Similarity): number {
  const there = hits(from, to, transform, 0, 0, 0);
  const back = hits(to, from, inverse(transform), 0, 0, 0);
  return (there + back) / 2;
}

function shareBeyondChance(
  from: MeasuredInk,
  to: MeasuredInk,
  transform: Similarity,
  reach: number,
  tick: Tick | undefined,
): number {
  tick?.(0);
  const share = hits(from, to, transform, reach, 0, 0);
  const aside = 2 * ASIDE * reach;
  let chance = 0;
  for (const [x, y] of [
    [aside, 0],
    [-aside, 0],
    [0, aside],
    [0, -aside],
  ] as const) {
    tick?.(0.5);
    chance += hits(from, to, transform, reach, x, y) / 4;
  }
  return chance >= 1 ? share : Math.max(0, (share - chance) / (1 - chance));
}

/** The share of the samples, of those that fall into the picture, with ink within reach. */
function hits(
  { ink: { width: fromWidth }, samples }: MeasuredInk,
  { ink: { data, width, height } }: MeasuredInk,
  { a, b, dx, dy }: Similarity,
  reach: number,
  asideX: number,
  asideY: number,
): number {
  const side = Math.floor(reach);
  let [inside, hit] = [0, 0];
  for (let k = 0; k < samples.length; k++) {
    const p = samples[k]!;
    const px = p % fromWidth;
    const [x, y] = [px + 0.5, (p - px) / fromWidth + 0.5];
    const u = Math.floor(a * x - b * y + dx + asideX);
    const v = Math.floor(b * x + a * y + dy + asideY);
    if (u < 0 || v < 0 || u >= width || v >= height) continue;
    inside++;
    if (data[v * width + u] === 1 || isNearInk(data, width, height, u, v, side, reach)) hit++;
  }
  return inside * 10 < samples.length ? 0 : hit / Math.max(1, inside);
}

function isNearInk(
  data: Uint8Array,
  width: number,
  height: number,
  u: number,
  v: number,
  side: number,
  reach: number,
): boolean {
  for (let y = Math.max(0, v - side); y <= Math.min(height - 1, v + side); y++) {
    for (let x = Math.max(0, u - side); x <= Math.min(width - 1, u + side); x++) {
      if (data[y * width + x] === 0) continue;
      if ((x - u) * (x - u) + (y - v) * (y - v) <= reach * reach) return true;
    }
  }
  return false;
}
