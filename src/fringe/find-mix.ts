import type { Mix } from './mix.ts';
import type { NearColors } from './near-colors.ts';
import type { Samples } from './samples.ts';

/** Squared distance that a unit of touch is worth where there is noise. */
const NOISE_PRICE = 4;
/** A color that lies under two antialiased edges shows by less than this. */
const MOST_SHOWN = 0.3;

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

/**
 * One or two gathered colors with a little of any other of the picture: where two antialiased shapes
 * share an edge, what lies under both shows through, by a quarter at most. The one that shows least
 * is taken, ties to the first in the order of colors.
 */
export function mixHidden(
  { near, count }: NearColors,
  samples: Samples,
  mix: Mix,
  tolerance: number,
): boolean {
  if (count === 1) return mixLone(near[0]!, samples, mix, tolerance, MOST_SHOWN);
  let least = MOST_SHOWN;
  for (let j = 0; j < count; j++) {
    for (let k = j + 1; k < count; k++) {
      for (const code of samples.tried) {
        if (code === near[j] || code === near[k]) continue;
        if (!samples.fitThree(near[j]!, near[k]!, code, tolerance)) continue;
        if (samples.third >= least) continue;
        least = samples.third;
        mix.set(near[j]!, near[k]!, code, samples.second, samples.third);
      }
    }
  }
  return least < MOST_SHOWN;
}

/**
 * A color with less than `most` of any other of the picture, as where a line is so thin that no pixel
 * of it is solid. The one of the least share is taken, ties to the first in the
 * order of colors.
 */
export function mixLone(
  own: number,
  samples: Samples,
  mix: Mix,
  tolerance: number,
  most: number,
): boolean {
  let least = most;
  for (const code of samples.tried) {
    if (code === own) continue;
    const share = samples.project(own, code);
    if (share >= least || samples.off(own, code, share) > tolerance) continue;
    least = share;
    mix.set(own, code, 0, share, 0);
  }
  return least < most;
}
