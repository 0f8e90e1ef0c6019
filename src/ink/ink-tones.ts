import { levelOf } from './otsu.ts';

/** Share of the ink that is no more solid than what counts as solid ink. */
const SOLID = 0.8;

/**
 * The coverage of paper and of solid ink in a histogram of 256 coverages: the median of what is not
 * above Otsu's level, and what a fifth of the rest exceeds.
 */
export function inkTones(histogram: Float64Array): { paper: number; solid: number } {
  const split = levelOf(histogram);
  return {
    paper: rankIn(histogram, 0, split + 1, 0.5),
    solid: split === 255 ? 255 : rankIn(histogram, split + 1, 256, SOLID),
  };
}

/** The least value in a range that a share of its counts does not exceed. */
function rankIn(histogram: Float64Array, from: number, to: number, share: number): number {
  let total = 0;
  for (let v = from; v < to; v++) total += histogram[v]!;
  let sum = 0;
  let v = from - 1;
  do sum += histogram[++v]!;
  while (sum < share * total && v < to - 1);
  return v;
}
