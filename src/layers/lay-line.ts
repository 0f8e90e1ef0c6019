import { over255 } from '../raster/samples.ts';

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
