import { pixelsArgument } from '../raster/arguments.ts';
import { checkOptions } from '../raster/checks.ts';
import type { Dense, Owned, PixelData, PixelsLike } from '../raster/types.ts';
import { encodePng, resolutionChunks } from './encode.ts';
import { profileChunk } from './profile-chunk.ts';
import type { IccProfile, Resolution } from './types.ts';

export interface WritePngOptions {
  /**
   * Pixels per unit, written as pHYs: `{ x: 11811, y: 11811, unit: 'meter' }` is 300 dots per inch.
   * @default undefined, and no pHYs
   */
  readonly resolution?: Resolution | undefined;
  /**
   * The ICC profile of the samples, such as `readPng` gives of a scan; without one the file says that
   * they are sRGB. @default none
   */
  readonly icc?: IccProfile | undefined;
}

/**
 * Writes pixels as a PNG: gray, gray and alpha, RGB or RGBA, of 8 bits, or 16 for Uint16. The file says
 * that its samples are sRGB (chunk sRGB), or carries the profile that is given (iCCP).
 *
 * @param pixels - `[w, h]` or `[w, h, 1 to 4]`, any view; Uint8, Uint8Clamped or Uint16.
 * @returns The file. The same pixels give the same bytes everywhere. O(samples); up to four
 *   times the bytes of the picture while it is written.
 * @throws TypeError or RangeError for pixels or a resolution that are none; RangeError for a `[w, h]`
 *   raster of 0 and 1, which is a mask and would look black: write `maskToPixels(mask)`.
 * @example
 * ```ts
 * import { raster, readPng, writePng } from 'underink';
 * const art = raster(new Uint16Array([0, 300, 65535]), [1, 1, 3]);
 * const bytes = writePng(art, { resolution: { x: 11811, y: 11811, unit: 'meter' } });
 * console.log(readPng(bytes).pixels.data.join(' ')); // 0 300 65535
 * ```
 */
export function writePng(pixels: PixelsLike, options?: WritePngOptions): Owned<Uint8Array> {
  const { resolution, icc } = checkOptions(options, 'writePng', ['resolution', 'icc']);
  const dense = pixelsArgument(pixels, 'pixels');
  if ('shape' in pixels && pixels.shape?.length === 2) refuseMask(dense);
  const ofColor = icc === undefined ? undefined : profileChunk(icc);
  return encodePng(dense, 'pixels', resolutionChunks(resolution), ofColor);
}

/** A picture of one channel with nothing but 0 and 1, and a 1 somewhere, is a mask. */
function refuseMask({ data, width }: Dense<PixelData>): void {
  let first = -1;
  for (let i = 0; i < data.length; i++) {
    if (data[i]! > 1) return;
    if (first < 0 && data[i] === 1) first = i;
  }
  if (first < 0) return;
  throw new RangeError(
    `pixels must be a picture of samples up to 255, got a mask of 0 and 1 (1 at [${first % width}, ${Math.floor(first / width)}]); write maskToPixels(mask), or a raster of shape [w, h, 1] to keep its samples`,
  );
}
