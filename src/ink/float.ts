import { pixelsArgument } from '../raster/arguments.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import { over255, toEight } from '../raster/samples.ts';
import type { Pixels, PixelsLike } from '../raster/types.ts';

export interface FloatInkOptions {
  /** Pixels within so many levels of white, 0 to 254, become fully transparent. @default 0 */
  clear?: number;
}

/**
 * Takes the white paper out of a scan: an RGBA picture whose ink floats and can be laid over flats.
 * Laid over white again it gives back the scan, at most 1 level off; with
 * `clear`, what is within so many levels of white becomes fully transparent.
 *
 * Alpha is the least that leaves a color in range, `255 − min(R, G, B)`; the color is what was mixed
 * with white. Alpha that the picture has already multiplies it. 16-bit samples are scaled to 8 bits.
 * O(pixels).
 *
 * @param pixels - `[w, h]` gray or `[w, h, 1 to 4]`.
 * @returns Uint8 `[w, h, 4]`.
 * @throws TypeError or RangeError for a raster that holds no pixels.
 * @example
 * ```ts
 * import { floatInk, raster } from 'underink';
 * const gray = raster(new Uint8Array([255, 100]), [2, 1]);
 * console.log([...floatInk(gray).data].join(' ')); // 0 0 0 0 0 0 0 155
 * ```
 */
export function floatInk(pixels: PixelsLike, options?: FloatInkOptions): Pixels<Uint8Array> {
  const { clear = 0 } = checkOptions(options, 'floatInk', ['clear']);
  checkNumber(clear, 'clear', { max: 254, integer: true, unit: 'levels' });
  const { data, width, height, channels } = pixelsArgument(pixels, 'pixels');
  const wide = data instanceof Uint16Array;
  const hasAlpha = channels === 2 || channels === 4;
  const [green, blue] = channels < 3 ? [0, 0] : [1, 2];
  const floating = new Uint8Array(4 * width * height);
  for (let i = 0, k = 0; k < floating.length; i += channels, k += 4) {
    const r = toEight(data[i]!, wide);
    const g = toEight(data[i + green]!, wide);
    const b = toEight(data[i + blue]!, wide);
    const cover = 255 - Math.min(r, g, b);
    if (cover <= clear) continue;
    const alpha = hasAlpha ? toEight(data[i + channels - 1]!, wide) : 255;
    floating[k] = unmix(r, cover);
    floating[k + 1] = unmix(g, cover);
    floating[k + 2] = unmix(b, cover);
    floating[k + 3] = over255(cover * alpha);
  }
  return raster(floating, [width, height, 4]);
}

/** The ink's own sample, where `cover` of 255 of it lies over white. */
function unmix(value: number, cover: number): number {
  return 255 - ((((255 - value) * 255 + (cover >> 1)) / cover) | 0);
}
