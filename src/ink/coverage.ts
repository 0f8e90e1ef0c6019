import { pixelsArgument } from '../raster/arguments.ts';
import { checkOptions } from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import { outArgument, outResult } from '../raster/out.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
import { over255, sampleOffsets, toEight } from '../raster/samples.ts';
import type { Coverage, Dense, PixelData, PixelsLike, RasterView } from '../raster/types.ts';
import { dropFrom, type HueRange, hueArgument, type PencilRange } from './drop-hue.ts';
import { findPaper, lumaOf, type Paper, type PaperOption, paperArgument } from './find-paper.ts';

export interface InkCoverageOptions {
  /**
   * What the ink is drawn on. `white` or a color `'#rrggbb'` lighter than black: darkness against it
   * times alpha. `transparent`: alpha alone, for lines of any color on transparent paper. `auto`:
   * what the picture shows, see below. @default 'auto'
   */
  readonly paper?: PaperOption | undefined;
  /**
   * Drops colored under-drawing of one pencil: blue (`true` or `'blue'`), or a range of hues.
   * @default false
   */
  readonly dropHue?: boolean | 'blue' | HueRange | undefined;
  /** A Uint8 raster `[w, h]` to write into. */
  readonly out?: RasterView<Uint8Array> | undefined;
}

/** Names of the options that say how to measure. */
export const COVERAGE_OPTIONS = ['paper', 'dropHue'] as const;

/** What the options ask for, checked. */
export interface CoverageRule {
  readonly paper: Paper | 'auto';
  readonly range: PencilRange | undefined;
}

/**
 * How much ink covers each pixel, as an alpha: 0 is bare paper, 255 solid ink.
 *
 * Luma is `(299 R + 587 G + 114 B) / 1000` of the sRGB samples (weights of ITU-R BT.601) rounded
 * half up. Darkness is the share of the paper's luma that a pixel lacks, `255 (P − L) / P` rounded
 * half up, and 0 for what is lighter than the paper; on white it is `255 − L`. Ink as light as the
 * paper, of whatever color, is not seen. Darkness is taken times alpha, rounded to the nearest.
 * 16-bit samples are scaled to 8 bits first. A picture without alpha on `transparent` paper is solid
 * ink.
 *
 * Paper found by `auto` is the most frequent light color (luma 96 or more, within 16 levels a
 * channel) where it holds a quarter of the opaque pixels, else white. Where a twentieth of the
 * picture is transparent, the paper is too, unless such a color holds half of what is opaque and
 * dark ink a hundredth of it: a cut-out drawing on paper.
 *
 * With `dropHue`, pixels whose hue lies in the range lose what the pencil adds to them, found from
 * the picture's most colorful pixels of these hues; a line that crosses the pencil keeps its coverage
 * to about a level. Hue and chroma are those of the hexagon of sRGB samples: chroma is the largest
 * less the smallest. `'blue'` is 210° ± 35° from chroma 24 on (common practice, no source; the
 * non-photo blue `#a4dded`, a value from memory, has hue 193° and chroma 73). What rounding can turn,
 * 60° / chroma, is allowed on top. A color whose largest sample lies more than 1.5 times its chroma
 * below the paper's is ink, not pencil. Gray pictures stay as they are. O(pixels).
 *
 * @param pixels - `[w, h]` gray or `[w, h, 1 to 4]`; 2 and 4 channels end with alpha.
 * @returns Uint8 `[w, h]`.
 * @throws TypeError or RangeError for a raster that holds no pixels, or a bad option.
 * @example
 * ```ts
 * import { inkCoverage, raster } from 'underink';
 * const gray = raster(new Uint8Array([255, 128, 0]), [3, 1]);
 * console.log([...inkCoverage(gray).data].join(' ')); // 0 127 255
 * console.log([...inkCoverage(gray, { paper: '#808080' }).data].join(' ')); // 0 0 255
 * const pencil = raster(new Uint8Array([164, 221, 237, 0, 0, 0]), [2, 1, 3]);
 * console.log([...inkCoverage(pencil, { dropHue: true }).data].join(' ')); // 0 255
 * ```
 */
export function inkCoverage(pixels: PixelsLike, options?: InkCoverageOptions): Coverage {
  const checked = checkOptions(options, 'inkCoverage', [...COVERAGE_OPTIONS, 'out']);
  const rule = coverageRule(checked);
  const { out } = checked;
  const dense = pixelsArgument(pixels, 'pixels');
  const { width, height } = dense;
  const data = outArgument(out, Uint8Array, width, height, [pixels.data]);
  coverByRule(dense, rule, data);
  return outResult(out, data, width, height);
}

/** Checks what is asked of a coverage. */
export function coverageRule({ paper = 'auto', dropHue }: InkCoverageOptions): CoverageRule {
  const given = paperArgument(paper);
  if (typeof given !== 'string' && lumaOf(...given) === 0) {
    throw wrongValue('paper', 'lighter than black', paper);
  }
  return { paper: given, range: hueArgument(dropHue) };
}

/** Writes the coverage of dense pixels into `out`; gives the paper it was measured against. */
export function coverByRule(
  pixels: Dense<PixelData>,
  { paper, range }: CoverageRule,
  out: Uint8Array,
  tick?: Tick,
): Paper {
  const ground = paper === 'auto' ? findPaper(pixels, partOf(tick, 0, 0.4)) : paper;
  coverDense(pixels, ground, out, partOf(tick, 0.4, range === undefined ? 1 : 0.6));
  if (range !== undefined) {
    const put = (i: number, coverage: number): void => {
      out[i] = coverage;
    };
    dropFrom(pixels, ground, range, put, partOf(tick, 0.6, 1));
  }
  return ground;
}

function coverDense(dense: Dense<PixelData>, paper: Paper, out: Uint8Array, tick?: Tick): void {
  const { data, width, height, channels } = dense;
  const { wide } = sampleOffsets(dense);
  const rows = TICK_ROWS * width;
  const darkness = darknessOn(paper);
  for (let from = 0; from < out.length; from += rows) {
    tick?.(from / (width * height));
    const to = Math.min(out.length, from + rows);
    if (paper === 'transparent') coverAlpha(data, channels, wide, out, from, to);
    else if (channels < 3) coverGray(data, channels, wide, darkness, out, from, to);
    else coverColor(data, channels, wide, darkness, out, from, to);
  }
}

/** Darkness by luma; on white 255 less luma. */
function darknessOn(paper: Paper): Uint8Array {
  const full = paper === 'transparent' ? 255 : lumaOf(...paper);
  return Uint8Array.from({ length: 256 }, (_, luma) =>
    luma >= full ? 0 : Math.floor((510 * (full - luma) + full) / (2 * full)),
  );
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
  darkness: Uint8Array,
  out: Uint8Array,
  from: number,
  to: number,
): void {
  if (channels === 1 && !wide) {
    for (let i = from; i < to; i++) out[i] = darkness[data[i]!]!;
    return;
  }
  for (let i = from; i < to; i++) {
    const dark = darkness[toEight(data[i * channels]!, wide)]!;
    out[i] = channels === 1 ? dark : over255(dark * toEight(data[i * channels + 1]!, wide));
  }
}

function coverColor(
  data: PixelData,
  channels: number,
  wide: boolean,
  darkness: Uint8Array,
  out: Uint8Array,
  from: number,
  to: number,
): void {
  for (let i = from, k = from * channels; i < to; i++, k += channels) {
    const r = toEight(data[k]!, wide);
    const g = toEight(data[k + 1]!, wide);
    const b = toEight(data[k + 2]!, wide);
    const dark = darkness[lumaOf(r, g, b)]!;
    out[i] = channels === 3 ? dark : over255(dark * toEight(data[k + 3]!, wide));
  }
}
