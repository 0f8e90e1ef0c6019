import { pixelsArgument } from '../raster/arguments.ts';
import { raster } from '../raster/raster.ts';
import type { Dense, Owned, PixelData, Pixels, RasterLike } from '../raster/types.ts';
import { lightTones, paperAlong, paperScale } from './paper-grid.ts';

/**
 * Takes uneven light out of a scan or a photo of a page (flat-field or shading correction): every
 * sample is divided by the paper's there, so that paper comes out white wherever it was.
 *
 * The paper of each channel is the lightest but for a fifth of the samples in blocks of 64 × 64
 * pixels; blocks less than half as light as the lightest tenth of all count as solid ink and take
 * the tone of the nearest that is not. Between the middles of the blocks it is bilinear. Areas wider
 * than a block and at least half as light as the page are thus taken for paper. A sample v on paper p
 * becomes `full · v / p` rounded half up, at most full: 255, or 65,535 with 16 bits. Alpha stays, and
 * pixels with less than half of it do not count for the paper. O(pixels), 8 bytes per column and 6
 * per block beside the result.
 *
 * Correction by division: common practice in microscopy and document imaging, no source; the
 * estimate by a rank within blocks is our own.
 *
 * @param pixels - `[w, h]` gray or `[w, h, 1 to 4]`; 2 and 4 channels end with alpha.
 * @returns Pixels `[w, h, channels]` of the same sample type.
 * @throws TypeError or RangeError for a raster that holds no pixels.
 * @example
 * ```ts
 * import { normalizePaper, raster } from 'underink';
 * const gray = raster(new Uint8Array([200, 200, 100, 200, 200, 0]), [6, 1]);
 * console.log([...normalizePaper(gray).data].join(' ')); // 255 255 128 255 255 0
 * ```
 */
export function normalizePaper<D extends PixelData>(pixels: RasterLike<D>): Pixels<D> {
  const dense = pixelsArgument(pixels, 'pixels') as Dense<D>;
  const { data, width, height, channels } = dense;
  const out = data.slice() as Owned<D>;
  const colors = channels < 3 ? 1 : 3;
  for (let c = 0; c < colors; c++) divideChannel(dense, c, out);
  return raster(out, [width, height, channels]);
}

function divideChannel(
  { data, width, height, channels }: Dense<PixelData>,
  at: number,
  out: PixelData,
): void {
  const hasAlpha = channels === 2 || channels === 4;
  const alpha = hasAlpha ? { alphaAt: channels - 1 } : {};
  const tones = { data, width, height, step: channels, at, inverted: false, ...alpha };
  const grid = lightTones(tones);
  const full = data instanceof Uint16Array ? 65_535 : 255;
  const paper = new Float64Array(width);
  const white = 255 * paperScale(grid);
  for (let y = 0; y < height; y++) {
    paperAlong(grid, y, paper);
    for (let x = 0, k = y * width * channels + at; x < width; x++, k += channels) {
      out[k] = Math.min(full, ((white * data[k]!) / paper[x]! + 0.5) | 0);
    }
  }
}
