import { fillNearest } from '../../distance/nearest-label.ts';
import type { Bounds } from '../../raster/types.ts';
import { fillSpan } from '../../runs/fill-span.ts';
import { type Runs, runAt } from '../../runs/runs.ts';
import { componentAreas, connectRuns } from '../../runs/union.ts';
import { pixelsOf } from './run-lists.ts';

/** A region as runs, and what may part it. Row 0 of all runs is the top row of the bounds. */
export interface DivideRuns {
  readonly bounds: Readonly<Bounds>;
  /** All pixels of the region. */
  readonly own: Runs;
  /** Pixels that counted before; left out, the region's own were connected. */
  readonly before?: Runs | undefined;
  /** Of these, what still counts. */
  readonly after: Runs;
  readonly id: number;
  /** First id that is free. */
  readonly nextId: number;
  /** Called now and then. */
  readonly pulse: () => void;
}

export interface DividedRuns {
  /** First id that is free afterwards; the same as before where nothing changes. */
  readonly nextId: number;
  /** Parts that there were before. */
  readonly parts: number;
  /** Calls for all pixels of the region with the id that they have now, row by row. */
  each(put: (y: number, start: number, end: number, id: number) => void): void;
}

/**
 * Renumbers the pieces into which a region falls, as `divideRegion` does, over runs: O(runs) where
 * every pixel is in a piece, else O(pixels of the bounds).
 */
export function divideRuns(region: DivideRuns): DividedRuns {
  const { bounds, own, before, after, id, nextId } = region;
  const pieces = connectRuns(after, 4);
  const parts = before === undefined ? undefined : connectRuns(before, 4);
  const partCount = parts?.count ?? 1;
  const same = { nextId, parts: partCount, each: () => {} };
  const partOf = new Int32Array(pieces.count + 1);
  for (let y = 0; y + 1 < after.rowStart.length; y++) {
    for (let r = after.rowStart[y]!; r < after.rowStart[y + 1]!; r++) {
      const piece = pieces.ids[r]!;
      if (partOf[piece] !== 0) continue;
      partOf[piece] = parts === undefined ? 1 : parts.ids[runAt(before!, after.start[r]!, y)]!;
    }
  }
  const areas = componentAreas(after, pieces);
  const largest = new Int32Array(partCount + 1);
  for (let piece = 1; piece <= pieces.count; piece++) {
    const most = largest[partOf[piece]!]!;
    if (most === 0 || areas[piece]! > areas[most]!) largest[partOf[piece]!] = piece;
  }
  let free = nextId;
  const idOf = new Int32Array(pieces.count + 1);
  for (let piece = 1; piece <= pieces.count; piece++) {
    idOf[piece] = largest[partOf[piece]!] === piece ? id : free++;
  }
  if (free === nextId) return same;
  const lost = pixelsOf(own) > pixelsOf(after);
  const each: DividedRuns['each'] = lost
    ? (put) => eachNearest(region, pieces.ids, idOf, put)
    : (put) => {
        for (let y = 0; y + 1 < after.rowStart.length; y++) {
          for (let r = after.rowStart[y]!; r < after.rowStart[y + 1]!; r++) {
            put(bounds[1] + y, after.start[r]!, after.end[r]!, idOf[pieces.ids[r]!]!);
          }
        }
      };
  return { nextId: free, parts: partCount, each };
}

/** Pixels in no piece go to the nearest one, by Euclid, ties to the piece that comes first. */
function eachNearest(
  { bounds: [x0, y0, x1, y1], own, after, pulse }: DivideRuns,
  pieceOf: Int32Array,
  idOf: Int32Array,
  put: (y: number, start: number, end: number, id: number) => void,
): void {
  const columns = x1 - x0;
  const pieces = new Int32Array(columns * (y1 - y0));
  for (let y = 0; y < y1 - y0; y++) {
    for (let r = after.rowStart[y]!; r < after.rowStart[y + 1]!; r++) {
      const at = y * columns - x0;
      fillSpan(pieces, pieceOf[r]!, at + after.start[r]!, at + after.end[r]!);
    }
  }
  fillNearest(pieces, columns, y1 - y0, pulse);
  for (let y = 0; y < y1 - y0; y++) {
    const at = y * columns - x0;
    for (let r = own.rowStart[y]!; r < own.rowStart[y + 1]!; r++) {
      for (let x = own.start[r]!; x < own.end[r]!; ) {
        const start = x;
        const id = idOf[pieces[at + x]!]!;
        while (++x < own.end[r]! && idOf[pieces[at + x]!] === id);
        put(y0 + y, start, x, id);
      }
    }
  }
}
