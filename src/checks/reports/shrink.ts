import { sampleOffsets, toEight } from '../../raster/samples.ts';
import type { Bounds, Dense, PixelData } from '../../raster/types.ts';

/** 8 bit RGBA. */
export interface SmallPicture {
  readonly data: Uint8Array<ArrayBuffer>;
  readonly width: number;
  readonly height: number;
}

/**
 * A part of a picture, each pixel the mean of up to `factor` × `factor`, with color weighted by alpha;
 * at the right and lower border of those that are left. O(pixels of the part).
 */
export function shrink(
  picture: Dense<PixelData>,
  [x0, y0, x1, y1]: Readonly<Bounds>,
  factor: number,
): SmallPicture {
  const { data, width: stride, channels } = picture;
  const { green, blue, alpha, wide } = sampleOffsets(picture);
  const width = Math.ceil((x1 - x0) / factor);
  const height = Math.ceil((y1 - y0) / factor);
  const small = new Uint8Array(4 * width * height);
  for (let v = 0, to = 0; v < height; v++) {
    const top = y0 + v * factor;
    const bottom = Math.min(y1, top + factor);
    for (let u = 0; u < width; u++, to += 4) {
      const left = x0 + u * factor;
      const right = Math.min(x1, left + factor);
      let [red, greens, blues, alphas] = [0, 0, 0, 0];
      for (let y = top; y < bottom; y++) {
        for (
          let k = channels * (y * stride + left);
          k < channels * (y * stride + right);
          k += channels
        ) {
          const weight = alpha < 0 ? 255 : toEight(data[k + alpha]!, wide);
          alphas += weight;
          red += weight * toEight(data[k]!, wide);
          greens += weight * toEight(data[k + green]!, wide);
          blues += weight * toEight(data[k + blue]!, wide);
        }
      }
      if (alphas === 0) continue;
      small[to] = Math.floor(red / alphas + 0.5);
      small[to + 1] = Math.floor(greens / alphas + 0.5);
      small[to + 2] = Math.floor(blues / alphas + 0.5);
      small[to + 3] = Math.floor(alphas / ((bottom - top) * (right - left)) + 0.5);
    }
  }
  return { data: small, width, height };
}
