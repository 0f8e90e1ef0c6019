import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import { type PaperGrid, paperAlong, paperScale } from './paper-grid.ts';

/**
 * Measures a coverage against the paper around, as `lightTones` gives it (flat-field correction):
 * with the tone t = 255 − coverage and the paper's tone p, 255 (p − t) / p rounded half up, and 0
 * for what is lighter. `out` may be `data`. O(pixels), 8 bytes per column.
 */
export function normalizeCoverage(
  data: Uint8Array,
  width: number,
  height: number,
  grid: PaperGrid,
  out: Uint8Array,
  tick?: Tick,
): void {
  const paper = new Float64Array(width);
  for (let y = 0; y < height; y++) {
    if (y % TICK_ROWS === 0) tick?.(y / height);
    normalizeRow(data, y * width, paper, grid, y, out, y * width);
  }
}

/** Counts of the values that `normalizeCoverage` would write. */
export function normalizedHistogram(
  data: Uint8Array,
  width: number,
  height: number,
  grid: PaperGrid,
  tick?: Tick,
): Float64Array {
  const histogram = new Float64Array(256);
  const paper = new Float64Array(width);
  const row = new Uint8Array(width);
  for (let y = 0; y < height; y++) {
    if (y % TICK_ROWS === 0) tick?.(y / height);
    normalizeRow(data, y * width, paper, grid, y, row, 0);
    for (let x = 0; x < width; x++) histogram[row[x]!]! += 1;
  }
  return histogram;
}

/** Measures a row of a coverage against the paper; `paper` is storage for the paper's row. */
export function normalizeRow(
  data: Uint8Array,
  from: number,
  paper: Float64Array,
  grid: PaperGrid,
  y: number,
  out: Uint8Array,
  to: number,
): void {
  paperAlong(grid, y, paper);
  const scale = paperScale(grid);
  for (let x = 0; x < paper.length; x++) {
    const p = paper[x]!;
    const t = scale * (255 - data[from + x]!);
    out[to + x] = t >= p ? 0 : ((255 * (p - t)) / p + 0.5) | 0;
  }
}
