import { pixelsArgument } from '../raster/arguments.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import { over255, toEight } from '../raster/samples.ts';
import type { Dense, PixelData, Pixels, PixelsLike } from '../raster/types.ts';
import { findPaper } from './find-paper.ts';
import { type Paper, paperArgument } from './paper.ts';

export interface ClearPaperOptions {
  /**
   * What the ink is drawn on, as `inkCoverage` takes it: `white` or a color `'#rrggbb'`, which is taken out; of a picture on
   * `transparent` paper the samples stay. @default 'auto'
   */
  paper?: 'auto' | 'white' | 'transparent' | `#${string}`;
  /**
   * Pixels with every sample within so many levels of the paper, 0 to 254, become fully
   * transparent; on `transparent` paper those whose alpha is no more. @default 0
   */
  clear?: number;
}

/**
 * Takes the paper out of a scan: an RGBA picture whose ink floats and can be laid over flats. Laid
 * over the paper's color again it gives back the scan, at most 1 level off; with `clear`, what is
 * within so many levels of the paper becomes fully transparent, and comes back as many levels off.
 *
 * Alpha is the least that leaves a color in range: over all samples v the largest of `(p − v) / p`
 * below the paper's p and of `(v − p) / (255 − p)` above, rounded up to a level; on white
 * `255 − min(R, G, B)`. The color is what was mixed with the paper. Alpha that the picture has
 * already multiplies it. 16-bit samples are scaled to 8 bits. O(pixels).
 *
 * @param pixels - `[w, h]` gray or `[w, h, 1 to 4]`.
 * @returns Uint8 `[w, h, 4]`.
 * @throws TypeError or RangeError for a raster that holds no pixels, or a bad option.
 * @example
 * ```ts
 * import { clearPaper, raster } from 'underink';
 * const gray = raster(new Uint8Array([255, 100]), [2, 1]);
 * console.log([...clearPaper(gray).data].join(' ')); // 0 0 0 0 0 0 0 155
 * console.log([...clearPaper(gray, { paper: '#c8c8c8' }).data].join(' ')); // 255 255 255 255 1 1 1 128
 * ```
 */
export function clearPaper(pixels: PixelsLike, options?: ClearPaperOptions): Pixels<Uint8Array> {
  const { paper = 'auto', clear = 0 } = checkOptions(options, 'clearPaper', ['paper', 'clear']);
  const given = paperArgument(paper);
  checkNumber(clear, 'clear', { max: 254, integer: true, unit: 'levels' });
  const dense = pixelsArgument(pixels, 'pixels');
  const { width, height } = dense;
  const ground = given === 'auto' ? findPaper(dense) : given;
  const floating = new Uint8Array(4 * width * height);
  if (ground === 'transparent') keepSamples(dense, clear, floating);
  else takeOut(dense, ground, clear, floating);
  return raster(floating, [width, height, 4]);
}

function takeOut(
  { data, channels }: Dense<PixelData>,
  [red, green, blue]: Exclude<Paper, string>,
  clear: number,
  floating: Uint8Array,
): void {
  const wide = data instanceof Uint16Array;
  const hasAlpha = channels === 2 || channels === 4;
  const [second, third] = channels < 3 ? [0, 0] : [1, 2];
  const [reds, greens, blues] = [leastAlpha(red), leastAlpha(green), leastAlpha(blue)];
  for (let i = 0, k = 0; k < floating.length; i += channels, k += 4) {
    const r = toEight(data[i]!, wide);
    const g = toEight(data[i + second]!, wide);
    const b = toEight(data[i + third]!, wide);
    if (Math.max(Math.abs(r - red), Math.abs(g - green), Math.abs(b - blue)) <= clear) continue;
    const cover = Math.max(reds[r]!, greens[g]!, blues[b]!);
    const alpha = hasAlpha ? toEight(data[i + channels - 1]!, wide) : 255;
    floating[k] = unmix(r, red, cover);
    floating[k + 1] = unmix(g, green, cover);
    floating[k + 2] = unmix(b, blue, cover);
    floating[k + 3] = over255(cover * alpha);
  }
}

/** For each sample the least alpha with which ink in range gives it over the paper's. */
function leastAlpha(paper: number): Uint8Array {
  return Uint8Array.from({ length: 256 }, (_, v) => {
    if (v === paper) return 0;
    return Math.ceil(v < paper ? (255 * (paper - v)) / paper : (255 * (v - paper)) / (255 - paper));
  });
}

/** The ink's own sample, where `cover` of 255 of it lies over the paper's. */
function unmix(value: number, paper: number, cover: number): number {
  const half = cover >> 1;
  if (value <= paper) return paper - ((((paper - value) * 255 + half) / cover) | 0);
  return paper + ((((value - paper) * 255 + half) / cover) | 0);
}

function keepSamples(
  { data, channels }: Dense<PixelData>,
  clear: number,
  floating: Uint8Array,
): void {
  const wide = data instanceof Uint16Array;
  const hasAlpha = channels === 2 || channels === 4;
  const [second, third] = channels < 3 ? [0, 0] : [1, 2];
  for (let i = 0, k = 0; k < floating.length; i += channels, k += 4) {
    const alpha = hasAlpha ? toEight(data[i + channels - 1]!, wide) : 255;
    if (alpha <= clear) continue;
    floating[k] = toEight(data[i]!, wide);
    floating[k + 1] = toEight(data[i + second]!, wide);
    floating[k + 2] = toEight(data[i + third]!, wide);
    floating[k + 3] = alpha;
  }
}
