import { flatsArgument } from '../palette/flats-argument.ts';
import type { FlatsLike } from '../palette/types.ts';
import { checkSameSize, coverageArgument } from '../raster/arguments.ts';
import { pixelCenter } from '../raster/pixel-center.ts';
import { raster } from '../raster/raster.ts';
import type { CoverageLike, Mask, Point } from '../raster/types.ts';
import { groundIndex, groundMask } from './ground-mask.ts';
import { haloMask } from './halo.ts';

/** Where a halo is widest. */
export interface HaloPlace {
  /** Pixels across: the shorter of the horizontal and the vertical run of halo through it. */
  readonly width: number;
  /** Center of its pixel, the first of the widest, row by row. */
  readonly at: Point;
}

export interface Halo {
  /** 1 where light shows. */
  readonly mask: Mask;
  readonly count: number;
  /** Null where there is none. */
  readonly widest: HaloPlace | null;
}

/**
 * Finds halo: pixels where light would show between a flat and the ink over it.
 *
 * Under ink of partial coverage, 1 to 254, what lies below shows. There, a bare pixel is halo, and so
 * is one of the ground on a flat's side of the ink: one that steps to 8-neighbors of ever more
 * coverage lead to from the clear paper of another flat, where coverage is at most 8; no step is
 * diagonal between two pixels that are darker than its end. Ground beyond the darkest ridge is where it
 * belongs, and under solid ink anything goes unseen. Where ground on clear paper meets a flat on that
 * flat's own side of the ink, as in a closed gap, the seam must leave the ridge at its ends: what such
 * steps lead to from the ground there is no halo.
 *
 * In flats without a ground their bare surroundings count as it: bare pixels that are 4-connected to the
 * picture's border through bare ones. Bare pixels that are enclosed, as seen through a wheel, count as
 * not laid yet; where they are meant, lay a ground.
 *
 * ```text
 * coverage     0   0  90 255 255  90   0
 * flats      fur fur   .   .   .   .   .      . is ground: its pixel under the first 90 is halo
 * ```
 *
 * Where coverage is 0 nothing is looked for: ground or bare pixels between a flat and the ink, as of a
 * flat drawn short of the line, are no halo, and neither is ground under the ink beyond them. The check
 * `seams` of `checkFlats` notices the flat's open edge with the ground; `bare` lists bare pixels.
 *
 * `mendHalo` repairs it, and so does growing flats anew with `growUnderInk` and its `coverage`.
 * O(pixels); 1 byte a pixel beside the result and 4 a pixel of halo; without a ground 24 more at most
 * for a horizontal run of bare surroundings.
 *
 * @param flats - The flats, with their `ground` where there is one: without, as above.
 * @param coverage - Ink coverage `[w, h]`, 0 to 255.
 * @throws TypeError or RangeError for flats or a coverage that are none, or of different sizes.
 * @example
 * ```ts
 * import { findHalo, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 1, 0, 0]), [4, 1]), palette };
 * const coverage = raster(new Uint8Array([0, 0, 90, 255]), [4, 1]);
 * console.log(findHalo(flats, coverage).widest); // { width: 1, at: [ 2.5, 0.5 ] }
 * ```
 */
export function findHalo(flats: FlatsLike, coverage: CoverageLike): Halo {
  const dense = flatsArgument(flats, 'flats');
  const ink = coverageArgument(coverage, 'coverage');
  checkSameSize(dense.indices, 'flats', ink, 'coverage');
  const { data, width, height } = dense.indices;
  const ground = groundMask(data, groundIndex(dense), width, height);
  const mask = haloMask({ indices: data, ground, coverage: ink.data, width, height });
  let count = 0;
  for (let i = 0; i < mask.length; i++) count += mask[i]!;
  const widest = count === 0 ? null : widestPlace(mask, width, height);
  return { mask: raster(mask, [width, height]), count, widest };
}

function widestPlace(mask: Uint8Array, width: number, height: number): HaloPlace {
  const down = new Int32Array(width);
  const tall = new Int32Array(width);
  let widest = 0;
  let best = 0;
  for (let y = 0; y < height; y++) {
    const row = y * width;
    for (let x = 0; x < width; ) {
      if (mask[row + x] === 0) {
        down[x++] = 0;
        continue;
      }
      const from = x;
      while (x < width && mask[row + x] === 1) x++;
      for (let u = from; u < x; u++) {
        if (down[u] === 0) {
          let to = row + u;
          while (to < mask.length && mask[to] === 1) to += width;
          tall[u] = (to - row - u) / width;
        }
        down[u]!++;
        const across = Math.min(x - from, tall[u]!);
        if (across <= widest) continue;
        widest = across;
        best = row + u;
      }
    }
  }
  return { width: widest, at: pixelCenter(best, width) };
}
