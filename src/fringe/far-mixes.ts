import type { Mix } from './mix.ts';
import type { NearColors } from './near-colors.ts';
import type { Samples } from './samples.ts';

/** A color that lies under two antialiased edges shows by less than this. */
const MOST_SHOWN = 0.3;
/** Colors of the picture that are tried as such. */
const MOST_TRIED = 64;

/**
 * One or two gathered colors with a little of any other of the picture: where two antialiased shapes
 * share an edge, what lies under both shows through, by a quarter at most. The one that shows least
 * is taken.
 */
export function mixHidden(
  { near, count }: NearColors,
  samples: Samples,
  mix: Mix,
  tolerance: number,
): boolean {
  if (count === 1) return mixLone(near[0]!, samples, mix, tolerance, MOST_SHOWN);
  const codes = Math.min(samples.colors, MOST_TRIED);
  let least = MOST_SHOWN;
  for (let j = 0; j < count; j++) {
    for (let k = j + 1; k < count; k++) {
      for (let code = 1; code < codes; code++) {
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
 * of it is solid. The one of the least share is taken.
 */
export function mixLone(
  own: number,
  samples: Samples,
  mix: Mix,
  tolerance: number,
  most: number,
): boolean {
  const codes = Math.min(samples.colors, MOST_TRIED);
  let least = most;
  for (let code = 1; code < codes; code++) {
    if (code === own) continue;
    const share = samples.project(own, code);
    if (share >= least || samples.off(own, code, share) > tolerance) continue;
    least = share;
    mix.set(own, code, 0, share, 0);
  }
  return least < most;
}
