import { fillNearest } from '../../distance/nearest-label.ts';
import { squaredDistance } from '../../distance/squared-distance.ts';
import type { Bounds } from '../../raster/types.ts';
import { fillSpan } from '../../runs/fill-span.ts';
import type { DivideRuns } from './divide-runs.ts';

/** Pixels round the new pieces in the first window: chosen. */
const MARGIN = 24;

/** The pieces of what still counts of a region. */
export interface Pieces {
  /** Piece of each run of `after`. */
  readonly of: Int32Array;
  /** Id by piece. */
  readonly idOf: Int32Array;
}

/**
 * Calls for the pixels of a region that go to pieces of other ids than its own: those in such a piece,
 * and those in no piece that are nearest to one, by Euclid, ties to the piece that comes first.
 *
 * A window round the new pieces is looked at, and a larger one where that does not tell. It tells
 * where all pixels of its rim are nearer to an old piece than to a new one, by more than the way from
 * any place to a pixel's center and back: a pixel beyond would have its nearest place in a new piece in
 * a straight line across the rim, and all of the line would be nearest to that. And what is found
 * to be nearest to a new piece must not be nearer to the rim.
 *
 * O(pixels of the windows), which are at most the bounds.
 */
export function claimNearest(
  region: DivideRuns,
  pieces: Pieces,
  put: (y: number, start: number, end: number, id: number) => void,
): void {
  const { bounds, pulse } = region;
  const [x0, y0, x1, y1] = hullOfNew(region, pieces);
  for (let margin = MARGIN; ; margin *= 2) {
    pulse();
    const window: Bounds = [
      Math.max(bounds[0], x0 - margin),
      Math.max(bounds[1], y0 - margin),
      Math.min(bounds[2], x1 + margin),
      Math.min(bounds[3], y1 + margin),
    ];
    if (claimWithin(region, pieces, window, put)) return;
  }
}

function hullOfNew({ bounds, after, id }: DivideRuns, { of, idOf }: Pieces): Bounds {
  let [x0, y0, x1, y1] = [bounds[2], bounds[3], bounds[0], bounds[1]];
  for (let y = 0; y + 1 < after.rowStart.length; y++) {
    for (let r = after.rowStart[y]!; r < after.rowStart[y + 1]!; r++) {
      if (idOf[of[r]!] === id) continue;
      x0 = Math.min(x0, after.start[r]!);
      x1 = Math.max(x1, after.end[r]!);
      y0 = Math.min(y0, bounds[1] + y);
      y1 = bounds[1] + y + 1;
    }
  }
  return [x0, y0, x1, y1];
}

/** Puts nothing and gives false where the window does not tell. */
function claimWithin(
  { bounds, own, after, id, pulse }: DivideRuns,
  { of, idOf }: Pieces,
  window: Readonly<Bounds>,
  put: (y: number, start: number, end: number, id: number) => void,
): boolean {
  const [x0, y0, x1, y1] = window;
  const [columns, rows] = [x1 - x0, y1 - y0];
  const labels = new Int32Array(columns * rows);
  const isOld = new Uint8Array(labels.length);
  const isNew = new Uint8Array(labels.length);
  for (let y = y0; y < y1; y++) {
    const at = (y - y0) * columns - x0;
    const row = y - bounds[1];
    for (let r = after.rowStart[row]!; r < after.rowStart[row + 1]!; r++) {
      const [start, end] = [Math.max(x0, after.start[r]!), Math.min(x1, after.end[r]!)];
      if (start >= end) continue;
      fillSpan(labels, of[r]!, at + start, at + end);
      fillSpan(idOf[of[r]!] === id ? isOld : isNew, 1, at + start, at + end);
    }
  }
  const inner = sidesInside(window, bounds);
  const isWhole = inner.every((side) => !side);
  const toNew = isWhole ? undefined : squaredDistance(isNew, columns, rows, pulse);
  if (toNew !== undefined) {
    const toOld = squaredDistance(isOld, columns, rows, pulse);
    if (!rimIsOld(toOld, toNew, columns, rows, inner)) return false;
  }
  fillNearest(labels, columns, rows, pulse);
  const found: number[] = [];
  for (let y = y0; y < y1; y++) {
    const at = (y - y0) * columns - x0;
    const row = y - bounds[1];
    for (let r = own.rowStart[row]!; r < own.rowStart[row + 1]!; r++) {
      const [from, to] = [Math.max(x0, own.start[r]!), Math.min(x1, own.end[r]!)];
      for (let x = from; x < to; ) {
        const start = x;
        const now = idOf[labels[at + x]!]!;
        do {
          if (now !== id && toNew !== undefined) {
            const room = roomAt(x, y, window, inner);
            if (toNew[at + x]! > room * room) return false;
          }
          x++;
        } while (x < to && idOf[labels[at + x]!] === now);
        if (now !== id) found.push(y, start, x, now);
      }
    }
  }
  for (let k = 0; k < found.length; k += 4) {
    put(found[k]!, found[k + 1]!, found[k + 2]!, found[k + 3]!);
  }
  return true;
}

/** Which sides of a window, left, top, right and bottom, are not those of the bounds. */
function sidesInside(window: Readonly<Bounds>, bounds: Readonly<Bounds>): boolean[] {
  return window.map((side, i) => side !== bounds[i]);
}

/** Pixels from a pixel to the nearest side of a window that lies inside the bounds. */
function roomAt(
  x: number,
  y: number,
  [x0, y0, x1, y1]: Readonly<Bounds>,
  [left, top, right, bottom]: readonly boolean[],
): number {
  return Math.min(
    left ? x - x0 : Number.POSITIVE_INFINITY,
    top ? y - y0 : Number.POSITIVE_INFINITY,
    right ? x1 - 1 - x : Number.POSITIVE_INFINITY,
    bottom ? y1 - 1 - y : Number.POSITIVE_INFINITY,
  );
}

/** Whether the pixels at the sides inside are nearer to an old piece by more than √2. */
function rimIsOld(
  toOld: Int32Array,
  toNew: Int32Array,
  columns: number,
  rows: number,
  [left, top, right, bottom]: readonly boolean[],
): boolean {
  const isOld = (i: number): boolean => Math.sqrt(toNew[i]!) - Math.sqrt(toOld[i]!) > 1.5;
  for (let x = 0; x < columns; x++) {
    if (top && !isOld(x)) return false;
    if (bottom && !isOld((rows - 1) * columns + x)) return false;
  }
  for (let y = 0; y < rows; y++) {
    if (left && !isOld(y * columns)) return false;
    if (right && !isOld((y + 1) * columns - 1)) return false;
  }
  return true;
}
