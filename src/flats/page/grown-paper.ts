import { fillNearest } from '../../distance/nearest-label.ts';
import { partOf, type Tick } from '../../raster/progress.ts';
import { floodRidges } from '../../regions/ridge.ts';
import { fillSpan } from '../../runs/fill-span.ts';
import type { Packed } from '../../runs/pack.ts';
import { findRuns, type Runs } from '../../runs/runs.ts';
import { componentAreas, connectRuns } from '../../runs/union.ts';
import { type LabelRow, rowOf } from './label-rows.ts';

/** The regions of paper, numbered by their first pixels. */
export interface PaperRegions {
  readonly width: number;
  readonly height: number;
  /** The ink with the closed gaps. */
  readonly sealed: Packed;
  readonly runs: Runs;
  /** Region of each run, from 1 on. */
  readonly ids: Int32Array;
  readonly count: number;
}

/** The same grown until they meet under the ink. */
export interface GrownPaper {
  readonly paper: PaperRegions;
  readonly rows: readonly LabelRow[];
}

/** O(pixels / 32 + runs). */
export function findPaperRegions(sealed: Packed): PaperRegions {
  const runs = findRuns(sealed, 0);
  return { width: sealed.width, height: sealed.height, sealed, runs, ...connectRuns(runs, 4) };
}

/** Pixels of paper by region. */
export function paperAreas(paper: PaperRegions): Int32Array {
  return componentAreas(paper.runs, paper);
}

/** Regions whose paper touches the picture's border. */
export function paperAtBorder({ width, height, runs, ids }: PaperRegions): Set<number> {
  const { rowStart, start, end } = runs;
  const found = new Set<number>();
  for (let y = 0; y < height; y++) {
    const edge = y === 0 || y === height - 1;
    for (let r = rowStart[y]!; r < rowStart[y + 1]!; r++) {
      if (edge || start[r] === 0 || end[r] === width) found.add(ids[r]!);
    }
  }
  return found;
}

/** Grows the regions of a whole picture. O(pixels); 4 bytes per pixel meanwhile, 8 with coverage. */
export function growAll(
  paper: PaperRegions,
  coverage: Uint8Array | undefined,
  tick: Tick | undefined,
): GrownPaper {
  const { width, height, runs, ids } = paper;
  const labels = new Int32Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let r = runs.rowStart[y]!; r < runs.rowStart[y + 1]!; r++) {
      fillSpan(labels, ids[r]!, y * width + runs.start[r]!, y * width + runs.end[r]!);
    }
  }
  const growing = partOf(tick, 0, 0.9);
  if (coverage === undefined) fillNearest(labels, width, height, growing);
  else floodRidges(labels, coverage, width, height, growing);
  tick?.(0.9);
  return { paper, rows: Array.from({ length: height }, (_, y) => rowOf(labels, y * width, width)) };
}
