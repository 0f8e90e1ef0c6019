import { levelOf } from './otsu.ts';

/** Share of the ink that is no more solid than what counts as solid ink. */
const SOLID = 0.8;

/** Half the way from paper to ink must be so many deviations of the grain. */
const CLEAR = 2;

/** Where the upper quartile of a normal distribution lies, in deviations. */
const QUARTILE = 0.6745;

/**
 * The coverage of paper and of solid ink in a histogram of 256 coverages: the median of what is not
 * above Otsu's level, and what a fifth of the rest exceeds.
 *
 * Where there is little ink, Otsu's level may part grain from grain. While half the way to the ink
 * is less than two deviations of the grain, what is above the level is parted again.
 */
export function inkTones(histogram: Float64Array): { paper: number; solid: number } {
  let split = levelOf(histogram);
  const grain = grainOf(histogram, split);
  for (;;) {
    const paper = rankIn(histogram, 0, split + 1, 0.5);
    const solid = split === 255 ? 255 : rankIn(histogram, split + 1, 256, SOLID);
    const higher = solid - paper < 2 * CLEAR * grain ? splitAbove(histogram, split) : split;
    if (higher === split) return { paper, solid };
    split = higher;
  }
}

/**
 * The deviation of the grain: that of a normal distribution with the lower quartile that the page
 * has, which ink leaves alone; where that is cut off at 0, with the upper one, if ink does not reach
 * there.
 */
function grainOf(histogram: Float64Array, split: number): number {
  const [lower, middle, upper] = [0.25, 0.5, 0.75].map((q) => rankIn(histogram, 0, 256, q));
  if (lower! > 0) return (middle! - lower!) / QUARTILE;
  return upper! <= split ? (upper! - middle!) / QUARTILE : 0;
}

/** Otsu's level of what is above a level; the level itself where that is of one tone. */
function splitAbove(histogram: Float64Array, level: number): number {
  const upper = histogram.slice().fill(0, 0, level + 1);
  const higher = levelOf(upper);
  return sumOf(upper, higher + 1, 256) === 0 ? level : higher;
}

/** The least value in a range that a share of its counts does not exceed. */
function rankIn(histogram: Float64Array, from: number, to: number, share: number): number {
  const least = share * sumOf(histogram, from, to);
  let sum = 0;
  let v = from - 1;
  do sum += histogram[++v]!;
  while (sum < least && v < to - 1);
  return v;
}

/** Counts of a range. */
export function sumOf(histogram: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let v = from; v < to; v++) sum += histogram[v]!;
  return sum;
}
