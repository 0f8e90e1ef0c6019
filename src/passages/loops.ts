import type { Packed } from '../raster/pack.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import { findRuns, type Runs, runAt } from '../runs/runs.ts';
import { connectRuns } from '../runs/union.ts';
import { PathForest } from './path-forest.ts';

/**
 * Of the meetings that close a loop, those that close it round ink.
 *
 * A loop round nothing but lower paper is an accident of the grid. The flood seen from the other
 * side tells them apart (Alexander duality in the plane): with the water falling, pieces of ink
 * grow, and a meeting that closes a loop round ink is one where two pieces of ink join. So the
 * loops, last one first, that join what was not joined are the ones to keep (Kruskal 1956). Ink at
 * the picture's border is one piece, and so is what a passage without a far contact leads along.
 *
 * `from` and `to` are the contacts of each loop in the order of the flood, `to` -1 for the border.
 * Contacts are found on the grid, so that in scenes of small blots one in some 20,000 loses a loop.
 * Near O(pixels / 32 + runs of ink + loops · log); 24 bytes per run. Gives the places in the list,
 * rising; those that meet the border are left out.
 */
export function loopsRoundInk(
  ink: Packed,
  from: ArrayLike<number>,
  to: ArrayLike<number>,
  tick?: Tick,
): number[] {
  if (from.length === 0) return [];
  const { width } = ink;
  const runs = findRuns(ink, 1, partOf(tick, 0, 0.2));
  const { ids, count } = connectRuns(runs, 8, partOf(tick, 0.2, 0.4));
  const pieces = new PathForest(count + 1);
  joinBorder(runs, ids, width, pieces);
  const kept: number[] = [];
  for (let i = from.length - 1; i >= 0; i--) {
    if (tick !== undefined && i % TICK_LOOPS === 0) tick(1 - (0.6 * i) / from.length);
    const a = pieceAt(runs, ids, from[i]!, width);
    const b = to[i]! < 0 ? BORDER : pieceAt(runs, ids, to[i]!, width);
    if (pieces.join(a, b, from.length - i) && b !== BORDER) kept.push(i);
  }
  return kept.reverse();
}

const BORDER = 0;
/** Loops between two ticks. */
const TICK_LOOPS = 4096;

function joinBorder(
  { rowStart, start, end }: Runs,
  ids: Int32Array,
  width: number,
  pieces: PathForest,
): void {
  const height = rowStart.length - 1;
  for (let y = 0; y < height; y++) {
    const outer = y === 0 || y === height - 1;
    for (let r = rowStart[y]!; r < rowStart[y + 1]!; r++) {
      if (outer || start[r] === 0 || end[r] === width) pieces.join(BORDER, ids[r]!, 0);
    }
  }
}

/** The piece of an ink pixel. */
function pieceAt(runs: Runs, ids: Int32Array, pixel: number, width: number): number {
  const y = Math.floor(pixel / width);
  return ids[runAt(runs, pixel - y * width, y)]!;
}
