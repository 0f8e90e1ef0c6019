import { fillNearest } from '../../distance/nearest-label.ts';
import { partOf, type Tick } from '../../raster/progress.ts';
import { floodRidges } from '../../regions/ridge.ts';
import { fillSpan } from '../../runs/fill-span.ts';
import type { Parts } from '../../runs/parts.ts';
import { type LabelRow, rowOf } from './label-rows.ts';

/** The parts of paper between ink and closed gaps, grown until they meet under the ink. */
export interface GrownPaper {
  readonly paper: Parts;
  readonly rows: readonly LabelRow[];
}

/** Grows the regions of a whole picture. O(pixels); 4 bytes per pixel meanwhile, 8 with coverage. */
export function growAll(
  paper: Parts,
  coverage: Uint8Array | undefined,
  tick: Tick | undefined,
): GrownPaper {
  const { width, height, runs, numbers, idOf } = paper;
  const labels = new Int32Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let r = runs.from[y]!; r < runs.to[y]!; r++) {
      fillSpan(labels, idOf[numbers[r]!]!, y * width + runs.start[r]!, y * width + runs.end[r]!);
    }
  }
  const growing = partOf(tick, 0, 0.9);
  if (coverage === undefined) fillNearest(labels, width, height, growing);
  else floodRidges(labels, coverage, width, height, growing);
  tick?.(0.9);
  return { paper, rows: Array.from({ length: height }, (_, y) => rowOf(labels, y * width, width)) };
}
