import type { Check, Finding } from './finding.ts';
import { placesOf } from './places.ts';

/**
 * Open seams: two flats meet where there is no ink. A seam is the edge between two 4-neighbours of
 * different swatches; it is open when neither pixel is ink. Bare pixels have no seams: they are
 * findings of their own. One finding per 8-connected place, the longest first.
 */
export const seams: Check = {
  name: 'seams',
  run: ({ flats, ink }) => {
    if (ink === undefined) throw new RangeError('ink must be given for the check "seams"');
    const { data, shape } = flats.indices;
    const [width, height] = shape as [number, number];
    const under = ink.data;
    const mask = new Uint8Array(data.length);
    const visit = (touch: (i: number, j: number) => void): void => {
      for (let y = 0; y < height; y++) {
        for (let x = 0, i = y * width; x < width; x++, i++) {
          if (under[i] === 1 || data[i] === 0) continue;
          const right = x + 1 < width ? i + 1 : i;
          const below = y + 1 < height ? i + width : i;
          if (data[right] !== data[i] && data[right] !== 0 && under[right] === 0) touch(i, right);
          if (data[below] !== data[i] && data[below] !== 0 && under[below] === 0) touch(i, below);
        }
      }
    };
    visit((i, j) => {
      mask[i] = 1;
      mask[j] = 1;
    });
    const { places, labels } = placesOf(mask, width, height, 8);
    const edges = new Int32Array(places.length);
    const pair: [number, number][] = [];
    visit((i, j) => {
      const place = labels[i]! - 1;
      pair[place] ??= [data[i]!, data[j]!];
      edges[place]! += 1;
    });
    const found = places.map(({ bounds, first }, k): Omit<Finding, 'check'> => {
      const [x, y] = [first % width, Math.floor(first / width)];
      const [a, b] = pair[k]!.map((index) => flats.palette[index]!.name) as [string, string];
      return {
        message: `open seam of ${edges[k]} pixel edges between "${a}" and "${b}" at [${x}, ${y}]`,
        count: edges[k]!,
        bounds,
        at: [x + 0.5, y + 0.5],
        swatches: [a, b],
      };
    });
    return found.sort((p, q) => q.count - p.count);
  },
};
