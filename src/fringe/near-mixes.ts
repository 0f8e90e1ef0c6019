import type { Mix } from './mix.ts';
import type { NearColors } from './near-colors.ts';
import type { Samples } from './samples.ts';

/** Squared distance that a unit of touch is worth where there is noise. */
const NOISE_PRICE = 4;

/**
 * The two gathered colors that give the pixel's color and touch it most, ties to the first colors;
 * false where no two do.
 */
export function mixTwo(
  { near, weight, count }: NearColors,
  samples: Samples,
  mix: Mix,
  tolerance: number,
): boolean {
  let best = 0;
  for (let j = 0; j < count; j++) {
    for (let k = j + 1; k < count; k++) {
      const touch = weight[j]! + weight[k]!;
      if (touch <= best) continue;
      const share = samples.project(near[j]!, near[k]!);
      if (samples.off(near[j]!, near[k]!, share) > tolerance) continue;
      best = touch;
      mix.set(near[j]!, near[k]!, 0, share, 0);
    }
  }
  return best > 0;
}

/** The same for three colors. */
export function mixThree(
  { near, weight, count }: NearColors,
  samples: Samples,
  mix: Mix,
  tolerance: number,
): boolean {
  let best = 0;
  for (let j = 0; j < count; j++) {
    for (let k = j + 1; k < count; k++) {
      for (let l = k + 1; l < count; l++) {
        const touch = weight[j]! + weight[k]! + weight[l]!;
        if (touch <= best) continue;
        if (!samples.fitThree(near[j]!, near[k]!, near[l]!, tolerance)) continue;
        best = touch;
        mix.set(near[j]!, near[k]!, near[l]!, samples.second, samples.third);
      }
    }
  }
  return best > 0;
}

/** The two gathered colors whose mix comes nearest, where touching the pixel is worth some distance. */
export function mixNearest({ near, weight, count }: NearColors, samples: Samples, mix: Mix): void {
  let least = Number.POSITIVE_INFINITY;
  for (let j = 0; j < count; j++) {
    for (let k = j + 1; k < count; k++) {
      const share = samples.project(near[j]!, near[k]!);
      const off = samples.off(near[j]!, near[k]!, share);
      const cost = off - NOISE_PRICE * (weight[j]! + weight[k]!);
      if (cost >= least) continue;
      least = cost;
      mix.set(near[j]!, near[k]!, 0, share, 0);
    }
  }
}
