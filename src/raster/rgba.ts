import { sampleOffsets, toEight } from './samples.ts';
import type { Dense, Owned, PixelData } from './types.ts';

/** Pixels as RGBA of 8 bits, gray as three equal samples; a copy. O(pixels). */
export function toRgba(pixels: Dense<PixelData>): Owned<Uint8Array> {
  const { data, width, height, channels } = pixels;
  const { green, blue, alpha, wide } = sampleOffsets(pixels);
  const rgba = new Uint8Array(4 * width * height);
  for (let i = 0, k = 0; k < rgba.length; i += channels, k += 4) {
    rgba[k] = toEight(data[i]!, wide);
    rgba[k + 1] = toEight(data[i + green]!, wide);
    rgba[k + 2] = toEight(data[i + blue]!, wide);
    rgba[k + 3] = alpha < 0 ? 255 : toEight(data[i + alpha]!, wide);
  }
  return rgba;
}
