import { coverageArgument } from '../raster/arguments.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type { CoverageLike } from '../raster/types.ts';
import { type FixedChoice, HALF } from './fixed.ts';
import { inkTones, sumOf } from './ink-tones.ts';
import { normalizedHistogram } from './normalize-coverage.ts';
import { histogramOf } from './otsu.ts';
import { type PaleLine, paleLine } from './pale-line.ts';
import { coverageTones, lightTones, type PaperGrid, unevenness } from './paper-grid.ts';

/** What {@link chooseThreshold} says: one level, of the coverage or of the normalized coverage. */
export interface ChosenLevel extends FixedChoice {
  /** Whether the coverage is first measured against the paper around. */
  readonly normalize: boolean;
  /** Line that this level drops, where it is 5 % or more of all line; not looked for on uneven paper. */
  readonly pale?: PaleLine;
}

/** Unevenness of the paper from which on the coverage is normalized. */
const UNEVEN = 0.1;

/**
 * Says how a coverage is best thresholded: always at one level, `fixed`.
 *
 * - A clean drawing, half of it even paper (coverage below 8) and with no more pixels of other
 *   tones than of solid ink (248 and above), is cut at half coverage, the geometric edge of its
 *   strokes; so is a page of one tone.
 * - Anything else is cut halfway between paper and solid ink, where the edge of a gray or blurred
 *   stroke lies: paper is the median of what is not above Otsu's level, solid ink what a fifth of
 *   the coverage above it exceeds. Otsu's level itself falls where blur and grain pull the mean of
 *   the ink down, and strokes come out fat; and on a page of little ink it may part grain from grain,
 *   in which case what is above it is parted again.
 * - Where the paper is uneven, its darkest tenth by 10 % or more below its lightest, as blocks of
 *   64 × 64 pixels show it, the coverage is first measured against the paper around (`normalize`).
 *
 * Where much of the line is paler than the cut, `pale` says how much, how dark it is and which level
 * would hold it, and so does `why`.
 *
 * Ties are those of {@link otsuLevel}. O(pixels).
 *
 * @param coverage - Uint8 `[w, h]`.
 * @throws TypeError or RangeError for a raster that holds no coverage.
 * @example
 * ```ts
 * import { chooseThreshold, raster } from 'underink';
 * console.log(chooseThreshold(raster(new Uint8Array([0, 0, 0, 255]), [2, 2])).level); // 127
 * console.log(chooseThreshold(raster(new Uint8Array([10, 10, 10, 90]), [2, 2])).level); // 50
 * ```
 */
export function chooseThreshold(coverage: CoverageLike): ChosenLevel {
  const { data, width, height } = coverageArgument(coverage, 'coverage');
  return choose(data, width, height).choice;
}

/** The same on dense storage; with the paper, where the coverage is to be normalized. */
export function choose(
  data: Uint8Array,
  width: number,
  height: number,
  tick?: Tick,
): { choice: ChosenLevel; grid?: PaperGrid } {
  const half = { method: 'fixed', level: HALF, normalize: false } as const;
  const histogram = histogramOf(data, partOf(tick, 0, 0.2));
  const paper = sumOf(histogram, 0, 8);
  const solid = sumOf(histogram, 248, 256);
  const between = data.length - paper - solid;
  if (paper >= 0.5 * data.length && between <= solid) {
    const why = 'clean drawing: cut at half coverage';
    const pale = paleLine(data, width, height, 0, HALF, partOf(tick, 0.2, 1));
    return { choice: withPale({ ...half, why }, pale) };
  }
  if (histogram.some((count) => count === data.length)) {
    return { choice: { ...half, why: 'one tone: no level to choose' } };
  }
  const grid = lightTones(coverageTones(data, width, height), partOf(tick, 0.2, 0.5));
  const uneven = unevenness(grid);
  if (uneven < UNEVEN) {
    const why = 'soft edges on even paper: halfway from paper to solid ink';
    const { paper: tone, level } = halfway(histogram);
    const pale = paleLine(data, width, height, tone, level, partOf(tick, 0.5, 1));
    return { choice: withPale({ ...half, level, why }, pale) };
  }
  const normalized = normalizedHistogram(data, width, height, grid, partOf(tick, 0.5, 1));
  const { level } = halfway(normalized);
  const why = `paper uneven by ${Math.round(100 * uneven)} %: normalized, then halfway from paper to solid ink`;
  return { choice: { ...half, level, normalize: true, why }, grid };
}

/** The choice with what it drops. */
function withPale(choice: ChosenLevel, pale: PaleLine | undefined): ChosenLevel {
  if (pale === undefined) return choice;
  const { share, coverage, level } = pale;
  const dropped = `${Math.round(100 * share)} % of the line, of coverage about ${coverage}, is paler`;
  return { ...choice, why: `${choice.why}; ${dropped}: level ${level} would hold it`, pale };
}

/** The tone of the paper, and the level halfway between it and solid ink, 0 to 254. */
function halfway(histogram: Float64Array): { paper: number; level: number } {
  const { paper, solid } = inkTones(histogram);
  return { paper, level: Math.min(254, Math.floor((paper + solid) / 2)) };
}
