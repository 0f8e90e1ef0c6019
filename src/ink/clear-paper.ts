import { pixelsArgument } from '../raster/arguments.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import { over255, sampleOffsets, toEight } from '../raster/samples.ts';
import type { Dense, PixelData, Pixels, PixelsLike } from '../raster/types.ts';
import { dropFrom, type HueRange, hueArgument } from './drop-hue.ts';
import { findPaper, type Paper, type PaperOption, paperArgument } from './find-paper.ts';

export interface ClearPaperOptions {
  /**
   * What the ink is drawn on, as `inkCoverage` takes it: `white` or a color `'#rrggbb'`, which is
   * taken out; of a picture on `transparent` paper the samples stay. @default 'auto'
   */
  readonly paper?: PaperOption | undefined;
  /**
   * Pixels with every sample within so many levels of the paper, 0 to 254, become fully
   * transparent; on `transparent` paper those whose alpha is no more. @default 0
   */
  readonly clear?: number | undefined;
  /**
   * Drops colored under-drawing as `inkCoverage` does: blue (`true` or `'blue'`), or a range of
   * hues. @default false
   */
  readonly dropHue?: boolean | 'blue' | HueRange | undefined;
}

/**
 * Makes the paper of a scan transparent: an RGBA picture of the line alone, to be laid over flats.
 * Laid over the paper's color again it gives back the scan, at most 1 level off; with `clear`, what
 * is within so many levels of the paper becomes fully transparent, and comes back as many levels off.
 *
 * Alpha is the least that leaves a color in range: over all samples v the largest of `(p − v) / p`
 * below the paper's p and of `(v − p) / (255 − p)` above, rounded up to a level; on white
 * `255 − min(R, G, B)`. The color is what was mixed with the paper (un-premultiplied, "color to
 * alpha"). Alpha that the picture has already multiplies it. With `dropHue`, a pixel of the pencil's
 * hue becomes black with `inkCoverage` for alpha: nothing but pencil is transparent, and a line that
 * crosses it stays. 16-bit samples are scaled to 8 bits. O(pixels).
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
 * const pencil = raster(new Uint8Array([164, 221, 237]), [1, 1, 3]);
 * console.log([...clearPaper(pencil, { paper: 'white', dropHue: true }).data].join(' ')); // 0 0 0 0
 * ```
 */
export function clearPaper(pixels: PixelsLike, options?: ClearPaperOptions): Pixels<Uint8Array> {
  const names = ['paper', 'clear', 'dropHue'] as const;
  const { paper = 'auto', clear = 0, dropHue } = checkOptions(options, 'clearPaper', names);
  const given = paperArgument(paper);
  checkNumber(clear, 'clear', { max: 254, integer: true, unit: 'levels' });
  const range = hueArgument(dropHue);
  const dense = pixelsArgument(pixels, 'pixels');
  const { width, height } = dense;
  const ground = given === 'auto' ? findPaper(dense) : given;
  const line = new Uint8Array(4 * width * height);
  if (ground === 'transparent') keepSamples(dense, clear, line);
  else takeOut(dense, ground, clear, line);
  if (range !== undefined) {
    const lightest = ground === 'transparent' ? 255 : Math.max(...ground);
    dropFrom(dense, ground, range, (i, cover) => {
      line.fill(0, 4 * i, 4 * i + 3);
      line[4 * i + 3] = over255(cover * lightest) <= clear ? 0 : cover;
    });
  }
  return raster(line, [width, height, 4]);
}

function takeOut(
  dense: Dense<PixelData>,
  [red, green, blue]: Exclude<Paper, string>,
  clear: number,
  line: Uint8Array,
): void {
  const { data, channels } = dense;
  const at = sampleOffsets(dense);
  const { wide } = at;
  const [reds, greens, blues] = [leastAlpha(red), leastAlpha(green), leastAlpha(blue)];
  for (let i = 0, k = 0; k < line.length; i += channels, k += 4) {
    const r = toEight(data[i]!, wide);
    const g = toEight(data[i + at.green]!, wide);
    const b = toEight(data[i + at.blue]!, wide);
    if (Math.max(Math.abs(r - red), Math.abs(g - green), Math.abs(b - blue)) <= clear) continue;
    const cover = Math.max(reds[r]!, greens[g]!, blues[b]!);
    const alpha = at.alpha < 0 ? 255 : toEight(data[i + at.alpha]!, wide);
    line[k] = unmix(r, red, cover);
    line[k + 1] = unmix(g, green, cover);
    line[k + 2] = unmix(b, blue, cover);
    line[k + 3] = over255(cover * alpha);
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

function keepSamples(dense: Dense<PixelData>, clear: number, line: Uint8Array): void {
  const { data, channels } = dense;
  const at = sampleOffsets(dense);
  const { wide } = at;
  for (let i = 0, k = 0; k < line.length; i += channels, k += 4) {
    const alpha = at.alpha < 0 ? 255 : toEight(data[i + at.alpha]!, wide);
    if (alpha <= clear) continue;
    line[k] = toEight(data[i]!, wide);
    line[k + 1] = toEight(data[i + at.green]!, wide);
    line[k + 2] = toEight(data[i + at.blue]!, wide);
    line[k + 3] = alpha;
  }
}
