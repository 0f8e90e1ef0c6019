import { over255, sampleOffsets, toEight } from '../raster/samples.ts';
import type { Dense, PixelData } from '../raster/types.ts';

/** Pixels as RGBA of 8 bits, gray as three equal samples. O(pixels). */
export function toRgba(line: Dense<PixelData>): Uint8Array {
  const { data, width, height, channels } = line;
  const { green, blue, alpha, wide } = sampleOffsets(line);
  const rgba = new Uint8Array(4 * width * height);
  for (let i = 0, k = 0; k < rgba.length; i += channels, k += 4) {
    rgba[k] = toEight(data[i]!, wide);
    rgba[k + 1] = toEight(data[i + green]!, wide);
    rgba[k + 2] = toEight(data[i + blue]!, wide);
    rgba[k + 3] = alpha < 0 ? 255 : toEight(data[i + alpha]!, wide);
  }
  return rgba;
}

/**
 * Lays a line over a picture whose pixels are opaque or fully transparent, both RGBA of 8 bits; changes
 * the picture. With `multiply` the line's samples are multiplied by those below, as `svg:multiply`
 * does; on a transparent pixel the line stays as it is.
 *
 * Reference: Compositing and Blending Level 1 (W3C), 5.1 and 10.1.2: co = cs·αs·(1 − αb) + αs·αb·B(cb, cs)
 * + (1 − αs)·αb·cb. O(pixels).
 */
export function layLine(picture: Uint8Array, line: Uint8Array, multiply: boolean): void {
  for (let k = 0; k < picture.length; k += 4) {
    const over = line[k + 3]!;
    if (over === 0) continue;
    if (picture[k + 3] === 0) {
      picture[k] = line[k]!;
      picture[k + 1] = line[k + 1]!;
      picture[k + 2] = line[k + 2]!;
      picture[k + 3] = over;
      continue;
    }
    for (let c = k; c < k + 3; c++) {
      const below = picture[c]!;
      const own = multiply ? over255(line[c]! * below) : line[c]!;
      picture[c] = over255(own * over + below * (255 - over));
    }
  }
}
