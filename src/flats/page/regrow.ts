import { fillNearest } from '../../distance/nearest-label.ts';
import type { Packed } from '../../raster/pack.ts';
import { partOf, type Tick } from '../../raster/progress.ts';
import type { Bounds } from '../../raster/types.ts';
import type { ChangedParts } from '../../runs/change-parts.ts';
import { fillSpan } from '../../runs/fill-span.ts';
import { isSameRow, type Parts } from '../../runs/parts.ts';
import { findRuns, type Runs } from '../../runs/runs.ts';
import { connectRuns } from '../../runs/union.ts';
import { type GrownPaper, growAll } from './grown-paper.ts';
import { isEqualRow, type LabelRow, withSpans } from './label-rows.ts';
import { type MovedSpan, regrowNear } from './regrow-near.ts';

/** Share of the picture from which on growing pieces of ink one by one is no gain: chosen. */
const MUCH = 0.6;

/**
 * Grows regions after gaps were closed or opened, given what was grown before.
 *
 * Where a coverage decides, what changes can reach is flooded again, see `regrowNear`. Where distances
 * decide, how regions meet under a piece of ink, 4-connected, follows from its own pixels and the
 * paper at its 4-connected border alone: the nearest paper of a pixel lies there. So a piece keeps what
 * it had, by the new numbers of the regions, unless some of its pixels are new or gone, or paper
 * beside it has gone over to another region; ties go to the lower number, and a region whose place in
 * the order has changed counts as another.
 *
 * O(runs of changed rows + pixels of the windows, or all runs + pixels of the bounds of the pieces that
 * are grown anew). `sealed` gives the ink with the gaps that are closed now.
 */
export function regrow(
  before: GrownPaper,
  { parts: paper, nowOf }: ChangedParts,
  sealed: () => Packed,
  coverage: Uint8Array | undefined,
  tick: Tick | undefined,
): GrownPaper {
  const old = before.paper;
  if (old.count === 0 || paper.count === 0) return growAll(paper, coverage, tick);
  const grown =
    coverage === undefined
      ? nearestAnew(old, paper, nowOf, sealed(), tick)
      : floodedAnew(old, paper, nowOf, coverage, tick);
  if (grown === undefined) return growAll(paper, coverage, tick);
  tick?.(0.9);
  const rows = before.rows.map((row, y) => {
    const own = renumbered(row, nowOf);
    const same = own === row && grown[y]!.length === 0;
    if (same) return row;
    const changed = withSpans(own, paper.width, inOrder(grown[y]!));
    return isEqualRow(changed, row) ? row : changed;
  });
  return { paper, rows };
}

/**
 * Spans by row, `[x0, x1, region]` each, of what may not have the successor of the region that it had;
 * undefined where growing all is no more work. Distances decide.
 */
function nearestAnew(
  old: Parts,
  paper: Parts,
  nowOf: Int32Array,
  sealed: Packed,
  tick: Tick | undefined,
): number[][] | undefined {
  dropDisordered(nowOf);
  const pieces = new InkPieces(sealed);
  const spans: number[][] = Array.from({ length: paper.height }, () => []);
  eachMoved(old, paper, nowOf, true, (y, start, end, region) => {
    if (region === 0) pieces.touch(y, start, end);
    else {
      spans[y]!.push(start, end, region);
      pieces.touchBeside(y, start, end);
    }
  });
  tick?.(0.1);
  const anew = pieces.touched();
  const work = anew.reduce((sum, { bounds: [x0, y0, x1, y1] }) => sum + (x1 - x0) * (y1 - y0), 0);
  if (work > MUCH * paper.width * paper.height) return undefined;
  anew.forEach((piece, i) => {
    tick?.(0.1 + (0.8 * i) / anew.length);
    growPiece(paper, pieces, piece, spans);
  });
  return spans;
}

/** The same where the coverage decides. */
function floodedAnew(
  old: Parts,
  paper: Parts,
  nowOf: Int32Array,
  coverage: Uint8Array,
  tick: Tick | undefined,
): number[][] | undefined {
  const moved: MovedSpan[] = [];
  eachMoved(old, paper, nowOf, false, (y, start, end, region) =>
    moved.push({ y, start, end, region }),
  );
  const spans = regrowNear(paper, coverage, moved, partOf(tick, 0.1, 0.9));
  if (spans === undefined) return undefined;
  for (const { y, start, end, region } of moved) {
    if (region !== 0) spans[y]!.push(start, end, region);
  }
  return spans;
}

/**
 * Takes away successors until those that are left rise with the old numbers: those lower than one
 * before them, or those higher than one behind them, whichever are fewer.
 */
function dropDisordered(nowOf: Int32Array): void {
  const low: number[] = [];
  const high: number[] = [];
  for (let id = 1, most = 0; id < nowOf.length; id++) {
    if (nowOf[id] !== 0 && nowOf[id]! < most) low.push(id);
    most = Math.max(most, nowOf[id]!);
  }
  for (let id = nowOf.length - 1, least = Number.POSITIVE_INFINITY; id > 0; id--) {
    if (nowOf[id]! > least) high.push(id);
    else if (nowOf[id] !== 0) least = nowOf[id]!;
  }
  for (const id of low.length <= high.length ? low : high) nowOf[id] = 0;
}

/**
 * Calls for the spans of paper that went to a region other than its successor, or were ink, with the
 * region that has them now; for those that became ink with 0. Where all parts have a successor only
 * changed rows need be looked at, not `everywhere`.
 */
function eachMoved(
  old: Parts,
  paper: Parts,
  nowOf: Int32Array,
  everywhere: boolean,
  put: (y: number, start: number, end: number, region: number) => void,
): void {
  const { width, height } = paper;
  for (let y = 0; y < height; y++) {
    if (!everywhere && isSameRow(old, paper, y)) continue;
    let [o, r] = [old.runs.from[y]!, paper.runs.from[y]!];
    const [oldStop, stop] = [old.runs.to[y]!, paper.runs.to[y]!];
    for (let x = 0; x < width; ) {
      const inOld = o < oldStop && old.runs.start[o]! <= x;
      const inNew = r < stop && paper.runs.start[r]! <= x;
      const oldEdge = o < oldStop ? (inOld ? old.runs.end[o]! : old.runs.start[o]!) : width;
      const edge = r < stop ? (inNew ? paper.runs.end[r]! : paper.runs.start[r]!) : width;
      const end = Math.min(oldEdge, edge);
      if (inNew) {
        const region = paper.idOf[paper.numbers[r]!]!;
        if (!inOld || nowOf[old.idOf[old.numbers[o]!]!] !== region) put(y, x, end, region);
      } else if (inOld) put(y, x, end, 0);
      if (inOld && end === oldEdge) o++;
      if (inNew && end === edge) r++;
      x = end;
    }
  }
}

interface Piece {
  readonly number: number;
  readonly bounds: Bounds;
}

/** The 4-connected pieces of ink, of which some are touched. */
class InkPieces {
  readonly runs: Runs;
  /** Piece of each run. */
  readonly ids: Int32Array;
  private readonly height: number;
  private readonly isTouched: Uint8Array;

  constructor(sealed: Packed) {
    this.runs = findRuns(sealed, 1);
    const { ids, count } = connectRuns(this.runs, 4);
    this.ids = ids;
    this.height = sealed.height;
    this.isTouched = new Uint8Array(count + 1);
  }

  /** Touches what has a pixel in a span. */
  touch(y: number, start: number, end: number): void {
    if (y < 0 || y >= this.height) return;
    const { rowStart, end: ends, start: starts } = this.runs;
    const stop = rowStart[y + 1]!;
    let low = rowStart[y]!;
    for (let high = stop; low < high; ) {
      const middle = (low + high) >> 1;
      if (ends[middle]! <= start) low = middle + 1;
      else high = middle;
    }
    for (let r = low; r < stop && starts[r]! < end; r++) this.isTouched[this.ids[r]!] = 1;
  }

  /** Touches what lies at a side of a span. */
  touchBeside(y: number, start: number, end: number): void {
    this.touch(y - 1, start, end);
    this.touch(y, start - 1, end + 1);
    this.touch(y + 1, start, end);
  }

  touched(): Piece[] {
    const { runs, ids, isTouched, height } = this;
    const found = new Map<number, Bounds>();
    for (let y = 0; y < height; y++) {
      for (let r = runs.rowStart[y]!; r < runs.rowStart[y + 1]!; r++) {
        const number = ids[r]!;
        if (isTouched[number] === 0) continue;
        const bounds = found.get(number);
        if (bounds === undefined) found.set(number, [runs.start[r]!, y, runs.end[r]!, y + 1]);
        else {
          if (runs.start[r]! < bounds[0]) bounds[0] = runs.start[r]!;
          if (runs.end[r]! > bounds[2]) bounds[2] = runs.end[r]!;
          bounds[3] = y + 1;
        }
      }
    }
    return [...found].map(([number, bounds]) => ({ number, bounds }));
  }
}

/** Grows the paper round one piece of ink under it; adds spans of the piece with their regions. */
function growPiece(
  { width, height, runs, numbers, idOf }: Parts,
  pieces: InkPieces,
  { number, bounds }: Piece,
  spans: number[][],
): void {
  const [x0, y0] = [Math.max(0, bounds[0] - 1), Math.max(0, bounds[1] - 1)];
  const [x1, y1] = [Math.min(width, bounds[2] + 1), Math.min(height, bounds[3] + 1)];
  const [columns, rows] = [x1 - x0, y1 - y0];
  const labels = new Int32Array(columns * rows);
  for (let y = y0; y < y1; y++) {
    const at = (y - y0) * columns - x0;
    for (let r = runs.from[y]!; r < runs.to[y]!; r++) {
      const [start, end] = [Math.max(x0, runs.start[r]!), Math.min(x1, runs.end[r]!)];
      if (start < end) fillSpan(labels, idOf[numbers[r]!]!, at + start, at + end);
    }
  }
  fillNearest(labels, columns, rows);
  for (let y = bounds[1]; y < bounds[3]; y++) {
    const at = (y - y0) * columns - x0;
    for (let r = pieces.runs.rowStart[y]!; r < pieces.runs.rowStart[y + 1]!; r++) {
      if (pieces.ids[r] !== number) continue;
      for (let x = pieces.runs.start[r]!; x < pieces.runs.end[r]!; ) {
        const start = x;
        const region = labels[at + x]!;
        while (++x < pieces.runs.end[r]! && labels[at + x] === region);
        spans[y]!.push(start, x, region);
      }
    }
  }
}

/** The row by the new numbers, of which several may be the same; itself where they are the old ones. */
function renumbered(row: LabelRow, nowOf: Int32Array): LabelRow {
  let k = 1;
  while (k < row.length && nowOf[row[k]!] === row[k]) k += 2;
  if (k >= row.length) return row;
  const own = row.slice();
  for (; k < own.length; k += 2) own[k] = nowOf[own[k]!]!;
  return own;
}

/** Spans of one row, `[x0, x1, label]` each, from left to right. */
function inOrder(spans: readonly number[]): number[] {
  const order = Array.from({ length: spans.length / 3 }, (_, i) => 3 * i);
  order.sort((i, j) => spans[i]! - spans[j]!);
  return order.flatMap((i) => [spans[i]!, spans[i + 1]!, spans[i + 2]!]);
}
