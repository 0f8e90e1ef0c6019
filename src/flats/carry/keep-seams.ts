import { fillNearest } from '../../distance/nearest-label.ts';
import { IntList } from '../../raster/int-list.ts';
import { partOf, TICK_PIXELS, TICK_ROWS, type Tick } from '../../raster/progress.ts';
import type { Bounds } from '../../raster/types.ts';
import type { LookBack } from './look-back.ts';

/** How far an old region may be open to the others in a new one and still be parted, in pixel edges. */
export interface Opening {
  /** All openings together, */
  readonly all: number;
  /** or each of them. */
  readonly each: number;
}

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
  /** The others. */
  readonly others: ReadonlyMap<number, Opening>;
  /** Whether a pixel is paper that shows a place of the old picture. */
  readonly isShown: (p: number) => boolean;
}

/**
 * Divides a region again into old ones that are open to each other no farther than is allowed, in what
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
  const found = openingsIn(near, own, w, isShownIn, partOf(tick, 0.6, 0.8));
  const parted = [...others].filter(([old, { all, each }]) => {
    const open = found.get(old);
    return open === undefined || open.all <= all || open.each <= each;
  });
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

/** Sides of a pixel at which another old region lies. */
const LEFT = 1;
const ABOVE = 2;

/**
 * The openings of each old one to the others within a region, between pixels of paper that the old
 * picture shows: pixel edges in all, and of the longest one. Pixels with such an edge that touch, by
 * corners too, are of one opening.
 */
function openingsIn(
  near: Int32Array,
  own: Uint8Array,
  w: number,
  isShown: (k: number) => boolean,
  tick: Tick | undefined,
): Map<number, Opening> {
  const edge = new Uint8Array(near.length);
  const isOpen = (k: number, other: number): boolean => {
    return own[other] === 1 && near[k] !== near[other] && isShown(k) && isShown(other);
  };
  const edgePixels = new IntList();
  for (let k = 0; k < near.length; k++) {
    if (tick !== undefined && k % TICK_PIXELS === 0) tick(k / near.length);
    if (own[k] !== 1) continue;
    const left = k % w > 0 && isOpen(k, k - 1);
    const above = k >= w && isOpen(k, k - w);
    edge[k] = (left ? LEFT : 0) | (above ? ABOVE : 0);
    if (edge[k] !== 0) edgePixels.push(k);
  }
  const openings = new Map<number, Opening>();
  const lengths = new Map<number, number>();
  const count = (...ids: [number, number]): void => {
    for (const id of ids) lengths.set(id, (lengths.get(id) ?? 0) + 1);
  };
  const todo = new IntList();
  for (let i = 0; i < edgePixels.length; i++) {
    if (edge[edgePixels.data[i]!] === 0) continue;
    lengths.clear();
    todo.push(edgePixels.data[i]!);
    while (todo.length > 0) {
      const k = todo.data[--todo.length]!;
      const sides = edge[k]!;
      if (sides === 0) continue;
      edge[k] = 0;
      if ((sides & LEFT) !== 0) count(near[k]!, near[k - 1]!);
      if ((sides & ABOVE) !== 0) count(near[k]!, near[k - w]!);
      const x = k % w;
      for (let v = k < w ? 0 : -1; v <= 1; v++) {
        for (let u = x === 0 ? 0 : -1; u <= (x + 1 < w ? 1 : 0); u++) {
          const next = k + v * w + u;
          if (next < edge.length && edge[next] !== 0) todo.push(next);
        }
      }
    }
    for (const [id, length] of lengths) {
      const { all, each } = openings.get(id) ?? { all: 0, each: 0 };
      openings.set(id, { all: all + length, each: Math.max(each, length) });
    }
  }
  return openings;
}
