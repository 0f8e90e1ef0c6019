import type { Bounds } from '../../raster/types.ts';
import { type Runs, runAt } from '../../runs/runs.ts';
import { componentAreas, connectRuns } from '../../runs/union.ts';
import { claimNearest } from './claim-nearest.ts';
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
  /** Calls for the pixels of the region that have another id now, row by row. */
  each(put: (y: number, start: number, end: number, id: number) => void): void;
}

/**
 * Renumbers the pieces into which a region falls, as `divideRegion` does, over runs: O(runs) where
 * every pixel is in a piece, else as `claimNearest` too.
 */
export function divideRuns(region: DivideRuns): DividedRuns {
  const { bounds, own, before, after, id, nextId } = region;
  const pieces = connectRuns(after, 4);
  const parts = before === undefined ? undefined : connectRuns(before, 4);
  const partCount = parts?.count ?? 1;
  const same = { nextId, parts: partCount, each: () => {} };
  const partOf =
    parts === undefined
      ? new Int32Array(pieces.count + 1).fill(1)
      : partsOfPieces({ runs: after, pieces }, { runs: before!, pieces: parts });
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
    ? (put) => claimNearest(region, { of: pieces.ids, idOf }, put)
    : (put) => {
        for (let y = 0; y + 1 < after.rowStart.length; y++) {
          for (let r = after.rowStart[y]!; r < after.rowStart[y + 1]!; r++) {
            const now = idOf[pieces.ids[r]!]!;
            if (now !== id) put(bounds[1] + y, after.start[r]!, after.end[r]!, now);
          }
        }
      };
  return { nextId: free, parts: partCount, each };
}

/** Runs with the components that `connectRuns` finds in them. */
interface Connected {
  readonly runs: Runs;
  readonly pieces: ReturnType<typeof connectRuns>;
}

/** By piece of what is left of some runs, the component that it was in. */
export function partsOfPieces(left: Connected, whole: Connected): Int32Array {
  const { runs, pieces } = left;
  const partOf = new Int32Array(pieces.count + 1);
  for (let y = 0; y + 1 < runs.rowStart.length; y++) {
    for (let r = runs.rowStart[y]!; r < runs.rowStart[y + 1]!; r++) {
      const piece = pieces.ids[r]!;
      if (partOf[piece] !== 0) continue;
      partOf[piece] = whole.pieces.ids[runAt(whole.runs, runs.start[r]!, y)]!;
    }
  }
  return partOf;
}
