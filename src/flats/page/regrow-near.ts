import type { Tick } from '../../raster/progress.ts';
import type { Bounds } from '../../raster/types.ts';
import { floodRidges } from '../../regions/ridge.ts';
import { fillSpan } from '../../runs/fill-span.ts';
import type { Parts } from '../../runs/parts.ts';
import { ChangeBoxes } from './change-boxes.ts';

/** A span of paper that belongs to another region than before, or that was or is ink. */
export interface MovedSpan {
  readonly y: number;
  readonly start: number;
  readonly end: number;
  /** That it belongs to now; 0 for ink. */
  readonly region: number;
}

/** What floods from unchanged and from changed pixels win. */
const [STABLE, CHANGED] = [1, 2];
/** Share of the picture from which on flooding it all is no loss: chosen; a window is flooded twice. */
const MUCH = 0.4;

/**
 * Floods again, in the order of the coverage, what a change of the paper can reach. Gives the spans of
 * ink by row, `[x0, x1, region]` each, that may have another region than the successor of the one
 * they had; undefined where flooding it all is no more work.
 *
 * A pixel is won along a way from paper, and of two ways the earlier one stays the earlier, however
 * they go on: so what is won depends on ways alone, and a pixel that neither won before nor wins now
 * along a way from a changed pixel keeps what it had. A first flood of a window lets all changed pixels
 * start as paper, which is no later than they did or do. Where it does not reach the window's rim, all
 * that can change lies in what it wins. In a second one, of the paper as it is, the rim's ink
 * starts as early as it can with a region that is not known; what known ones win is right. Where
 * these do not win all that can change, the window grows.
 *
 * O(pixels of the windows).
 */
export function regrowNear(
  paper: Parts,
  coverage: Uint8Array,
  moved: readonly MovedSpan[],
  tick: Tick | undefined,
): number[][] | undefined {
  const { width, height } = paper;
  const boxes = new ChangeBoxes(width, height);
  const byRow: MovedSpan[][] = Array.from({ length: height }, () => []);
  for (const span of moved) {
    boxes.add(span.y, span.start, span.end);
    byRow[span.y]!.push(span);
  }
  boxes.finish();
  const found = new Map<Bounds, number[]>();
  let work = 0;
  for (let box = boxes.take(); box !== undefined; box = boxes.take()) {
    work += (box[2] - box[0]) * (box[3] - box[1]);
    if (work > MUCH * width * height) return undefined;
    const share = work / (MUCH * width * height);
    const won = floodWindow(paper, coverage, byRow, box, tick && (() => tick(share)));
    if (won === undefined) boxes.widen(box);
    else {
      found.set(box, won);
      boxes.settle(box);
    }
  }
  const spans: number[][] = Array.from({ length: height }, () => []);
  for (const box of boxes.settled) {
    const won = found.get(box)!;
    for (let k = 0; k < won.length; k += 4) {
      spans[won[k]!]!.push(won[k + 1]!, won[k + 2]!, won[k + 3]!);
    }
  }
  return spans;
}

/** Floods one window; gives spans as `[y, x0, x1, region]`, undefined where it is too small. */
function floodWindow(
  { width, height, runs, numbers, idOf, count }: Parts,
  coverage: Uint8Array,
  moved: readonly (readonly MovedSpan[])[],
  [x0, y0, x1, y1]: Readonly<Bounds>,
  tick: Tick | undefined,
): number[] | undefined {
  const [columns, rows] = [x1 - x0, y1 - y0];
  const unknown = count + 1;
  const reach = new Int32Array(columns * rows);
  const now = new Int32Array(columns * rows);
  const tones = new Uint8Array(columns * rows);
  for (let y = y0; y < y1; y++) {
    const at = (y - y0) * columns - x0;
    tones.set(coverage.subarray(y * width + x0, y * width + x1), at + x0);
    for (let r = runs.from[y]!; r < runs.to[y]!; r++) {
      const [start, end] = [Math.max(x0, runs.start[r]!), Math.min(x1, runs.end[r]!)];
      if (start >= end) continue;
      fillSpan(reach, STABLE, at + start, at + end);
      fillSpan(now, idOf[numbers[r]!]!, at + start, at + end);
    }
    for (const { start, end } of moved[y]!) {
      const [from, to] = [Math.max(x0, start), Math.min(x1, end)];
      if (from < to) fillSpan(reach, CHANGED, at + from, at + to);
    }
  }
  floodRidges(reach, tones, columns, rows, tick);
  const rim = rimOf([x0, y0, x1, y1], width, height);
  for (const i of rim) {
    if (reach[i] === CHANGED) return undefined;
    if (now[i] === 0) now[i] = unknown;
  }
  const ink = now.map((region) => (region === 0 ? 1 : 0));
  floodRidges(now, tones, columns, rows, tick);
  for (let i = 0; i < now.length; i++) {
    if (reach[i] === CHANGED && now[i] === unknown) return undefined;
  }
  const won: number[] = [];
  for (let y = y0, i = 0; y < y1; y++) {
    for (let x = x0; x < x1; ) {
      if (reach[i] !== CHANGED || ink[i] === 0) {
        x++;
        i++;
        continue;
      }
      const [start, region] = [x, now[i]!];
      do {
        x++;
        i++;
      } while (x < x1 && reach[i] === CHANGED && ink[i] === 1 && now[i] === region);
      won.push(y, start, x, region);
    }
  }
  return won;
}

/** Pixels of a window at its sides inside the picture. */
function rimOf([x0, y0, x1, y1]: Readonly<Bounds>, width: number, height: number): Set<number> {
  const [columns, rows] = [x1 - x0, y1 - y0];
  const rim = new Set<number>();
  for (let x = 0; x < columns; x++) {
    if (y0 > 0) rim.add(x);
    if (y1 < height) rim.add((rows - 1) * columns + x);
  }
  for (let y = 0; y < rows; y++) {
    if (x0 > 0) rim.add(y * columns);
    if (x1 < width) rim.add(y * columns + columns - 1);
  }
  return rim;
}
