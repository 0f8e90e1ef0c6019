import { ciede2000 } from '../color/color-difference.ts';
import { labOfRgb } from '../color/lab.ts';
import { GOLDEN, scatter } from '../raster/scatter.ts';

/** Farthest that a sample of a shade is from its base's, and that the shade looks, in CIEDE2000. */
const REACH = 9;
const FARTHEST_SHADE = 2.5;

/** Places looked at before a shade is given up. */
const TRIES = 32;

/**
 * The first free shade of a base that a seed leads to, which is marked as taken; -1 where it is not
 * found. Less than 2.5 from the base in CIEDE2000. Two seeds lead to one shade in about one of 3000
 * cases. O(1).
 */
export function shadeOf(base: number, seed: number, taken: Set<number>): number {
  const [r0, g0, b0] = samples(base);
  const center = labOfRgb(r0, g0, b0);
  const side = 2 * REACH + 1;
  for (let t = 0; t < TRIES; t++) {
    let bits = scatter(seed ^ Math.imul(t + 1, GOLDEN));
    const r = r0 - REACH + (bits % side);
    bits = Math.floor(bits / side);
    const g = g0 - REACH + (bits % side);
    bits = Math.floor(bits / side);
    const b = b0 - REACH + (bits % side);
    if (Math.min(r, g, b) < 0 || Math.max(r, g, b) > 255) continue;
    const shade = (r << 16) | (g << 8) | b;
    if (taken.has(shade) || ciede2000(center, labOfRgb(r, g, b)) >= FARTHEST_SHADE) continue;
    taken.add(shade);
    return shade;
  }
  return -1;
}

/**
 * The colors nearest to a base, itself first: so many shades as are asked for that are not taken,
 * in the order of their CIEDE2000 from the base, ties by sample. They are marked as taken.
 *
 * Looked for in cubes round the base, of twice the side until one holds four times as many as
 * are asked for and taken: then they fill a ball inside it. O(count · log).
 *
 * @param base - `0xrrggbb`, as are the shades.
 * @throws RangeError when fewer colors than asked for are left in all.
 */
export function takeShades(base: number, count: number, taken: Set<number>): number[] {
  for (let reach = 1; ; reach *= 2) {
    const colors = cube(base, reach);
    const free = colors.filter((rgb) => !taken.has(rgb));
    const inBall = count + colors.length - free.length;
    if (colors.length < 4 * inBall && reach < 255) continue;
    if (free.length < count) {
      throw new RangeError(`count must be a number of colors that are left, got ${count}`);
    }
    const shades = nearest(base, free).slice(0, count);
    for (const shade of shades) taken.add(shade);
    return shades;
  }
}

/** All colors no sample of which is more than `reach` from the base's. */
function cube(base: number, reach: number): number[] {
  const [r0, g0, b0] = samples(base);
  const colors: number[] = [];
  for (let r = Math.max(0, r0 - reach); r <= Math.min(255, r0 + reach); r++) {
    for (let g = Math.max(0, g0 - reach); g <= Math.min(255, g0 + reach); g++) {
      for (let b = Math.max(0, b0 - reach); b <= Math.min(255, b0 + reach); b++) {
        colors.push((r << 16) | (g << 8) | b);
      }
    }
  }
  return colors;
}

function nearest(base: number, colors: readonly number[]): number[] {
  const center = labOfRgb(...samples(base));
  const far = Float64Array.from(colors, (rgb) => ciede2000(center, labOfRgb(...samples(rgb))));
  const order = [...far.keys()].sort((i, j) => far[i]! - far[j]! || colors[i]! - colors[j]!);
  return order.map((i) => colors[i]!);
}

/** The three samples of `0xrrggbb`. */
export function samples(rgb: number): [r: number, g: number, b: number] {
  return [rgb >> 16, (rgb >> 8) & 255, rgb & 255];
}
