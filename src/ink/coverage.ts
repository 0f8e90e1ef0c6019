import { pixelsArgument } from '../raster/arguments.ts';
import { checkOneOf, checkOptions } from '../raster/checks.ts';
import { outArgument } from '../raster/out.ts';
import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import { over255, toEight } from '../raster/samples.ts';
import type { Coverage, Dense, PixelData, PixelsLike, View } from '../raster/types.ts';

export interface InkCoverageOptions {
  /**
   * What the ink is drawn on. `white`: darkness times alpha, which serves scans on white paper and
   * dark floating lines alike. `transparent`: alpha alone, for floating lines of any color.
   * @default 'white'
   */
  paper?: 'white' | 'transparent';
  /** A Uint8 raster `[w, h]` to write into. */
  out?: View<Uint8Array>;
}

/**
 * How much ink covers each pixel: 0 is bare paper, 255 solid ink.
 *
 * Darkness is 255 minus luma, `(299 R + 587 G + 114 B) / 1000` of the sRGB samples (weights of
 * ITU-R BT.601) rounded half up; times alpha, rounded to the nearest. 16-bit samples are scaled to 8
 * bits first. A picture without alpha on `transparent` paper is solid ink. O(pixels).
 *
 * @param pixels - `[w, h]` gray or `[w, h, 1 to 4]`; 2 and 4 channels end with alpha.
 * @returns Uint8 `[w, h]`.
 * @throws TypeError or RangeError for a raster that holds no pixels, or a bad option.
 * @example
 * ```ts
 * import { inkCoverage, raster } from 'underink';
 * const gray = raster(new Uint8Array([255, 128, 0]), [3, 1]);
 * console.log([...inkCoverage(gray).data].join(' ')); // 0 127 255
 * ```
 */
export function inkCoverage(pixels: PixelsLike, options?: InkCoverageOptions): Coverage {
  const { paper = 'white', out } = checkOptions(options, 'inkCoverage', ['paper', 'out']);
  checkOneOf(paper, 'paper', ['white', 'transparent']);
  const dense = pixelsArgument(pixels, 'pixels');
  const { width, height } = dense;
  const data = outArgument(out, Uint8Array, width, height, [pixels.data]);
  coverDense(dense, paper, data);
  return out === undefined ? raster(data, [width, height]) : (out as Coverage);
}

/** Writes the coverage of dense pixels into `out`. */
export function coverDense(
  { data, width, height, channels }: Dense<PixelData>,
  paper: 'white' | 'transparent',
  out: Uint8Array,
  tick?: Tick,
): void {
  const wide = data instanceof Uint16Array;
  const rows = TICK_ROWS * width;
  for (let from = 0; from < out.length; from += rows) {
    tick?.(from / (width * height));
    const to = Math.min(out.length, from + rows);
    if (paper === 'transparent') coverAlpha(data, channels, wide, out, from, to);
    else if (channels < 3) coverGray(data, channels, wide, out, from, to);
    else coverColor(data, channels, wide, out, from, to);
  }
}

function coverAlpha(
  data: PixelData,
  channels: number,
  wide: boolean,
  out: Uint8Array,
  from: number,
  to: number,
): void {
  if (channels === 1 || channels === 3) out.fill(255, from, to);
  else for (let i = from; i < to; i++) out[i] = toEight(data[i * channels + channels - 1]!, wide);
}

function coverGray(
  data: PixelData,
  channels: number,
  wide: boolean,
  out: Uint8Array,
  from: number,
  to: number,
): void {
  if (channels === 1 && !wide) {
    for (let i = from; i < to; i++) out[i] = 255 - data[i]!;
    return;
  }
  for (let i = from; i < to; i++) {
    const dark = 255 - toEight(data[i * channels]!, wide);
    out[i] = channels === 1 ? dark : over255(dark * toEight(data[i * channels + 1]!, wide));
  }
}

function coverColor(
  data: PixelData,
  channels: number,
  wide: boolean,
  out: Uint8Array,
  from: number,
  to: number,
): void {
  for (let i = from, k = from * channels; i < to; i++, k += channels) {
    const r = toEight(data[k]!, wide);
    const g = toEight(data[k + 1]!, wide);
    const b = toEight(data[k + 2]!, wide);
    const dark = 255 - (((299 * r + 587 * g + 114 * b + 500) / 1000) | 0);
    out[i] = channels === 3 ? dark : over255(dark * toEight(data[k + 3]!, wide));
  }
}
