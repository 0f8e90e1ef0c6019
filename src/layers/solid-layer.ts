import { formatColor } from '../color/hex.ts';
import { toRgba } from '../raster/rgba.ts';
import type { Dense, PixelData } from '../raster/types.ts';

/** A layer of flats as kernels see it: RGBA of 8 bits, once by samples and once by pixels. */
export interface SolidLayer {
  readonly samples: Uint8Array;
  readonly words: Uint32Array;
  readonly width: number;
  readonly height: number;
  /** The one color; undefined where a list of colors was given. */
  readonly color: string | undefined;
}

/**
 * Checks that a layer has one color, every pixel opaque or fully transparent, or, where `allowed` is given,
 * none but those colors. A layer without an opaque pixel has the color of its first pixel. O(pixels).
 *
 * @throws RangeError naming the layer, what is wrong and where.
 */
export function solidLayer(
  layer: Dense<PixelData>,
  name: string,
  allowed: ReadonlySet<string> | undefined,
): SolidLayer {
  const { width, height } = layer;
  const samples = toRgba(layer);
  const words = new Uint32Array(samples.buffer);
  let solid = -1;
  for (let i = 0; i < words.length; i++) {
    if (words[i] === solid) continue;
    const alpha = samples[4 * i + 3]!;
    if (alpha === 0) continue;
    const at = `at [${i % width}, ${Math.floor(i / width)}] of the layer`;
    if (alpha !== 255) {
      throw new RangeError(
        `${name} must be opaque or fully transparent, got alpha ${alpha} ${at}; hardenEdges(pixels) makes flats of it, and a layer that is no flats is left out by layers.filter`,
      );
    }
    const color = colorAt(samples, i);
    if (allowed === undefined ? solid >= 0 : !allowed.has(color)) {
      const rule = allowed === undefined ? 'have one color' : 'have the colors of its palette';
      const first = solid >= 0 ? `${colorAt(samples, words.indexOf(solid))} and ` : '';
      throw new RangeError(
        `${name} must ${rule}, got ${first}${color} ${at}; indexFlats(pixels) takes a picture of many colors, and a layer that is no flats is left out by layers.filter`,
      );
    }
    solid = words[i]!;
  }
  const first = solid < 0 ? 0 : words.indexOf(solid);
  const color = allowed === undefined ? colorAt(samples, first) : undefined;
  return { samples, words, width, height, color };
}

export function colorAt(samples: Uint8Array, i: number): string {
  return formatColor(samples[4 * i]!, samples[4 * i + 1]!, samples[4 * i + 2]!);
}
