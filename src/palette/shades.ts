import { ciede2000 } from '../color/color-difference.ts';
import { labOfRgb } from '../color/lab.ts';

/**
 * The colors nearest to a base, itself first: so many shades as are asked for that are not taken,
 * in the order of their CIEDE2000 from the base, ties by sample. They are marked as taken.
 *
 * Looked for in cubes round the base, of twice the side until one holds four times as many: then
 * the shades fill a ball inside it. O(count · log).
 *
 * @param base - `0xrrggbb`, as are the shades.
 * @throws RangeError when fewer colors than asked for are left in all.
 */
export function takeShades(base: number, count: number, taken: Set<number>): number[] {
  for (let reach = 1; ; reach *= 2) {
    const free = cube(base, reach).filter((rgb) => !taken.has(rgb));
    if (free.length < 4 * count && reach < 255) continue;
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
