import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
import { inkTones } from './ink-tones.ts';
import { normalizedHistogram, normalizeRow } from './normalize-coverage.ts';
import { coverageTones, lightTones, type PaperGrid } from './paper-grid.ts';

/** Stroke widths that a window measures: ink is then a small part of it beside any stroke. */
const STROKES = 12;

/**
 * Sauvola's window and k for a page, both from its strokes, measured against the paper around.
 *
 * Paper and solid ink are those of {@link inkTones}; strokes are what is more than halfway between.
 * Their mean width is area over length, the length π/8 of the changes between ink and paper along
 * rows and columns (Crofton's formula gives π/4 for both edges of a stroke; the picture's border is
 * no edge). The window, odd, 15 to 255 pixels, is 12 times as wide.
 *
 * A straight stroke through the window's middle holds the share a, stroke over window, of it.
 * With paper and ink of tones p and i the mean is m = p − a (p − i), the deviation s = √(a (1 − a))
 * (p − i), and k is what puts the threshold m (1 + k (s / 127.5 − 1)) halfway from p to i; 0.05 to 1.
 * O(pixels), 10 bytes per column.
 */
export function sauvolaDefaults(
  data: Uint8Array,
  width: number,
  height: number,
  tick?: Tick,
): { window: number; k: number } {
  const grid = lightTones(coverageTones(data, width, height), partOf(tick, 0, 0.2));
  const histogram = normalizedHistogram(data, width, height, grid, partOf(tick, 0.2, 0.6));
  const { paper, solid } = inkTones(histogram);
  const level = (paper + solid) / 2;
  const strokes = meanWidth(data, width, height, grid, level, partOf(tick, 0.6, 1));
  const side = Math.floor(STROKES * strokes);
  const window = Math.min(255, Math.max(15, side - (side % 2) + 1));
  const share = Math.min(0.5, strokes / window);
  const mean = 255 - paper - share * (solid - paper);
  const spread = Math.sqrt(share * (1 - share)) * (solid - paper);
  const k = mean === 0 ? 1 : (1 - (255 - level) / mean) / (1 - spread / 127.5);
  return { window, k: Math.min(1, Math.max(0.05, k)) };
}

/**
 * Mean width of strokes above a level of normalized coverage; 0 without any. The picture's border is
 * no edge of a stroke.
 */
function meanWidth(
  data: Uint8Array,
  width: number,
  height: number,
  grid: PaperGrid,
  level: number,
  tick: Tick | undefined,
): number {
  const paper = new Float64Array(width);
  const row = new Uint8Array(width);
  const above = new Uint8Array(width);
  let area = 0;
  let changes = 0;
  for (let y = 0; y < height; y++) {
    if (y % TICK_ROWS === 0) tick?.(y / height);
    normalizeRow(data, y * width, paper, grid, y, row, 0);
    let left = row[0]! > level ? 1 : 0;
    for (let x = 0; x < width; x++) {
      const ink = row[x]! > level ? 1 : 0;
      area += ink;
      changes += (ink ^ left) + (y === 0 ? 0 : ink ^ above[x]!);
      left = ink;
      above[x] = ink;
    }
  }
  return changes === 0 ? 0 : area / (0.3927 * changes);
}
