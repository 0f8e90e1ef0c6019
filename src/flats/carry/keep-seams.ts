import { fillNearest } from '../../distance/nearest-label.ts';
import { partOf, TICK_ROWS, type Tick } from '../../raster/progress.ts';
import type { Bounds } from '../../raster/types.ts';
import type { LookBack } from './look-back.ts';

/** A region of the new picture in which several old ones lie. */
export interface SharedRegion {
  readonly labels: Int32Array;
  readonly width: number;
  readonly id: number;
  readonly bounds: Readonly<Bounds>;
  /** Old region at each pixel. */
  readonly seen: LookBack;
  /** The old region that keeps the id. */
  readonly keeps: number;
  /** The others, with the longest opening to the rest that a seam may still be. */
  readonly others: ReadonlyMap<number, number>;
  /** Whether a pixel is paper that shows a place of the old picture. */
  readonly isShown: (p: number) => boolean;
}

/**
 * Divides a region again into old ones that are open to each other no longer than a seam may be in what
 * the old picture showed. Each takes what shows it and what is nearest to that. One that is open to the
 * rest for longer has lost a line of ink, and stays a part.
 *
 * Changes `labels`; gives how many old regions are parted off, whose ids follow `next`. O(pixels of the
 * bounds).
 */
export function keepSeams(
  { labels, width, id, bounds, seen, keeps, others, isShown }: SharedRegion,
  next: number,
  tick?: Tick,
): number {
  const [x0, y0, x1, y1] = bounds;
  const [w, h] = [x1 - x0, y1 - y0];
  const near = new Int32Array(w * h);
  const own = new Uint8Array(w * h);
  const row = new Int32Array(width);
  for (let y = 0, k = 0; y < h; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick((0.2 * y) / h);
    seen.readRow(y0 + y, row);
    for (let x = x0, p = (y0 + y) * width + x0; x < x1; x++, p++, k++) {
      if (labels[p] !== id) continue;
      own[k] = 1;
      if (row[x] === keeps || others.has(row[x]!)) near[k] = row[x]!;
    }
  }
  fillNearest(near, w, h, partOf(tick, 0.2, 0.6));
  const isShownIn = (k: number): boolean => {
    return isShown((y0 + Math.floor(k / w)) * width + x0 + (k % w));
  };
  const borders = bordersIn(near, own, w, isShownIn, partOf(tick, 0.6, 0.8));
  const parted = [...others].filter(([old, longest]) => (borders.get(old) ?? 0) <= longest);
  const ids = new Map(parted.map(([old], i) => [old, next + i]));
  for (let y = 0, k = 0; y < h; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(0.8 + (0.2 * y) / h);
    for (let p = (y0 + y) * width + x0; k < (y + 1) * w; p++, k++) {
      const part = own[k] === 1 ? ids.get(near[k]!) : undefined;
      if (part !== undefined) labels[p] = part;
    }
  }
  return parted.length;
}

/** Pixel edges within a region between each old one and the others, in what the old picture shows. */
function bordersIn(
  near: Int32Array,
  own: Uint8Array,
  w: number,
  isShown: (k: number) => boolean,
  tick: Tick | undefined,
): Map<number, number> {
  const lengths = new Map<number, number>();
  const add = (k: number, other: number): void => {
    if (own[other] !== 1 || near[k] === near[other] || !isShown(k)) return;
    for (const id of [near[k]!, near[other]!]) lengths.set(id, (lengths.get(id) ?? 0) + 1);
  };
  for (let k = 0; k < near.length; k++) {
    if (tick !== undefined && k % (TICK_ROWS * w) === 0) tick(k / near.length);
    if (own[k] !== 1) continue;
    if (k % w > 0) add(k, k - 1);
    if (k >= w) add(k, k - w);
  }
  return lengths;
}
