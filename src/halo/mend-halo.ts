import { flatsArgument } from '../palette/flats-argument.ts';
import type { Flats, FlatsLike } from '../palette/types.ts';
import { checkSameSize, coverageArgument } from '../raster/arguments.ts';
import { raster } from '../raster/raster.ts';
import type { CoverageLike, Owned } from '../raster/types.ts';
import { groundIndex, groundMask } from './ground-mask.ts';
import { haloMask } from './halo.ts';

/**
 * Repairs halo: the pixels that `findHalo` reports take the flat beside them, pixel by pixel from its
 * edge; everything else stays, seams that a person placed included (`growUnderInk` would draw them
 * anew).
 *
 * A pixel takes the swatch of an 8-neighbor, one of a flat before one of the ground, then the one of
 * lowest index; a bare pixel takes the ground only where no flat is to be had. `findHalo` finds nothing
 * in the result but bare pixels to which nothing laid leads.
 *
 * In flats without a ground their bare surroundings count as it, as `findHalo` says, and stay bare beyond
 * the ink. Pixels of coverage 0 stay as they are: a flat drawn short of the line is not drawn on to it;
 * the check `seams` of `checkFlats` notices its open edge with the ground.
 *
 * O(pixels + halo · rounds), where a halo is as many rounds wide as it has pixels across.
 *
 * @param flats - The flats, with their `ground` where there is one.
 * @param coverage - Ink coverage `[w, h]`, 0 to 255.
 * @returns Flats that own their memory.
 * @throws TypeError or RangeError for flats or a coverage that are none, or of different sizes.
 * @example
 * ```ts
 * import { mendHalo, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 1, 0, 0]), [4, 1]), palette };
 * const coverage = raster(new Uint8Array([0, 0, 90, 255]), [4, 1]);
 * console.log([...mendHalo(flats, coverage).indices.data].join(' ')); // 1 1 1 0
 * ```
 */
export function mendHalo(flats: FlatsLike, coverage: CoverageLike): Flats {
  const dense = flatsArgument(flats, 'flats');
  const ink = coverageArgument(coverage, 'coverage');
  checkSameSize(dense.indices, 'flats', ink, 'coverage');
  const { width, height } = dense.indices;
  const indices = dense.indices.data.slice();
  const ground = groundIndex(dense);
  const laying = { indices, ground, width, height };
  for (;;) {
    // Anew each time: what was laid may cut bare pixels off from the surroundings.
    const around = groundMask(indices, ground, width, height);
    const halo = haloMask({ indices, ground: around, coverage: ink.data, width, height });
    if (!mendRounds(laying, pixelsOf(halo))) break;
  }
  return {
    indices: raster<Owned<Uint8Array> | Owned<Uint16Array>>(indices, [width, height]),
    palette: dense.palette,
    ...(dense.ground === undefined ? {} : { ground: dense.ground }),
  };
}

function pixelsOf(mask: Uint8Array): Int32Array {
  let count = 0;
  for (let i = 0; i < mask.length; i++) count += mask[i]!;
  const pixels = new Int32Array(count);
  for (let i = 0, k = 0; k < count; i++) if (mask[i] === 1) pixels[k++] = i;
  return pixels;
}

/** Flats that are being mended. */
interface Laying {
  readonly indices: Uint8Array | Uint16Array;
  /** Index of the ground; -1 without one. */
  readonly ground: number;
  readonly width: number;
  readonly height: number;
}

/** Lays what lies beside the halo, round by round; whether a pixel changed. */
function mendRounds({ indices, ground, width, height }: Laying, halo: Int32Array): boolean {
  const laid = new Uint16Array(halo.length);
  let rest = halo;
  let mended = false;
  for (let useGround = false; rest.length > 0; ) {
    let changed = 0;
    for (let k = 0; k < rest.length; k++) {
      const i = rest[k]!;
      laid[k] = beside(i, useGround && indices[i] === 0);
      if (laid[k] !== 0) changed++;
    }
    const waiting = new Int32Array(rest.length - changed);
    for (let k = 0, w = 0; k < rest.length; k++) {
      if (laid[k] === 0) waiting[w++] = rest[k]!;
      else indices[rest[k]!] = laid[k]!;
    }
    if (changed > 0) mended = true;
    else if (useGround || ground < 0) break;
    else useGround = true;
    rest = waiting;
  }
  return mended;

  /** Lowest index of a flat beside a pixel, the ground where that is let in; 0 with none. */
  function beside(i: number, withGround: boolean): number {
    const x = i % width;
    const y = (i - x) / width;
    let best = 0;
    let onGround = 0;
    for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++) {
      for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++) {
        const index = indices[v * width + u]!;
        if (index === ground) onGround = ground;
        else if (index !== 0 && (best === 0 || index < best)) best = index;
      }
    }
    return best === 0 && withGround ? onGround : best;
  }
}
