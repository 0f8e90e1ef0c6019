import { parseColor } from '../color/hex.ts';
import { checkOneOf } from '../raster/checks.ts';
import { partOf, TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { sampleOffsets, toEight } from '../raster/samples.ts';
import type { Dense, PixelData } from '../raster/types.ts';
import { histogramOf } from './otsu.ts';

/** A `paper` option: what the picture shows, white, nothing, or a color. */
export type PaperOption = 'auto' | 'white' | 'transparent' | `#${string}`;

/** What ink is drawn on: the samples of its color, or nothing. */
export type Paper = readonly [r: number, g: number, b: number] | 'transparent';

const WHITE: Paper = [255, 255, 255];

/** Luma from which on a color may be paper. */
const LIGHT = 96;
/** Levels to either side of the middle of the fullest bin that still are the paper's. */
const NEAR = 16;

/** A `paper` option, checked; `auto` is for the caller to find. */
export function paperArgument(paper: string): Paper | 'auto' {
  if (paper === 'white') return WHITE;
  if (paper === 'transparent' || paper === 'auto') return paper;
  if (typeof paper !== 'string' || !paper.startsWith('#')) {
    checkOneOf(paper, 'paper', ['auto', 'white', 'transparent', '#rrggbb']);
  }
  return parseColor(paper, 'paper');
}

/** Luma of 8-bit samples, `(299 R + 587 G + 114 B) / 1000` (ITU-R BT.601), rounded half up. */
export function lumaOf(r: number, g: number, b: number): number {
  return ((299 * r + 587 * g + 114 * b + 500) / 1000) | 0;
}

/**
 * The paper that a picture shows.
 *
 * Colors of the pixels with alpha >= 128 and luma >= 96 are counted in bins of 16 levels per
 * channel; the fullest, ties to the lighter, tells what the paper's color is near (16 levels from
 * the bin's middle). The paper's samples are the most frequent there, each channel by itself, ties to
 * the lighter. It must hold a quarter of the pixels with alpha >= 128, else the paper is white.
 * Where a twentieth of the picture has less alpha, alpha carries the drawing and the paper is
 * transparent, unless that color holds half of the other pixels and ink of less than half its luma
 * a hundredth: then it is a cut-out piece of paper. O(pixels); 16 KiB.
 */
export function findPaper(pixels: Dense<PixelData>, tick?: Tick): Paper {
  const total = pixels.width * pixels.height;
  const bins = new Uint32Array(4096);
  const lumas = new Uint32Array(256);
  let visible = 0;
  eachRun(
    pixels,
    (r, g, b, n) => {
      const luma = lumaOf(r, g, b);
      visible += n;
      lumas[luma]! += n;
      if (luma >= LIGHT) bins[((r >> 4) << 8) | ((g >> 4) << 4) | (b >> 4)]! += n;
    },
    partOf(tick, 0, 0.5),
  );
  const bin = mostFrequent(bins, (k) => lumaOf(k >> 8, (k >> 4) & 15, k & 15));
  const middle = [16 * (bin >> 8) + 8, 16 * ((bin >> 4) & 15) + 8, 16 * (bin & 15) + 8];
  const [red, green, blue] = middle as [number, number, number];
  const counts = [new Uint32Array(256), new Uint32Array(256), new Uint32Array(256)] as const;
  let near = 0;
  eachRun(
    pixels,
    (r, g, b, n) => {
      if (Math.max(Math.abs(r - red), Math.abs(g - green), Math.abs(b - blue)) > NEAR) return;
      near += n;
      counts[0][r]! += n;
      counts[1][g]! += n;
      counts[2][b]! += n;
    },
    partOf(tick, 0.5, 1),
  );
  const found = counts.map((of) => mostFrequent(of, (v) => v)) as unknown as Exclude<Paper, string>;
  const isPaper = bins[bin]! > 0 && 4 * near >= visible;
  if (20 * (total - visible) >= total) {
    let dark = 0;
    for (let luma = 0; 2 * luma < lumaOf(...found); luma++) dark += lumas[luma]!;
    if (!isPaper || 2 * near < visible || 100 * dark < visible) return 'transparent';
  }
  return isPaper ? found : WHITE;
}

/**
 * Calls `see` with `n` equal pixels that have alpha >= 128, until all are seen: gray without alpha
 * tone by tone, other pictures run by run.
 */
function eachRun(
  dense: Dense<PixelData>,
  see: (r: number, g: number, b: number, n: number) => void,
  tick: Tick | undefined,
): void {
  const { data, channels } = dense;
  const at = sampleOffsets(dense);
  const { wide } = at;
  if (channels === 1 && !wide) {
    histogramOf(data as Uint8Array | Uint8ClampedArray, tick).forEach((n, v) => {
      if (n > 0) see(v, v, v, n);
    });
    return;
  }
  const last = Math.max(0, at.alpha);
  const chunk = TICK_PIXELS * channels;
  for (let from = 0; from < data.length; from += chunk) {
    tick?.(from / data.length);
    const end = Math.min(data.length, from + chunk);
    for (let i = from; i < end; ) {
      const red = data[i]!;
      const green = data[i + at.green]!;
      const blue = data[i + at.blue]!;
      const alpha = data[i + last]!;
      let to = i + channels;
      while (
        to < end &&
        data[to] === red &&
        data[to + at.green] === green &&
        data[to + at.blue] === blue &&
        data[to + last] === alpha
      ) {
        to += channels;
      }
      if (at.alpha < 0 || toEight(alpha, wide) >= 128) {
        const n = (to - i) / channels;
        see(toEight(red, wide), toEight(green, wide), toEight(blue, wide), n);
      }
      i = to;
    }
  }
}

/** The place of the highest count; of equal ones the lighter, then the later. */
function mostFrequent(counts: Uint32Array, lightness: (place: number) => number): number {
  let best = 0;
  for (let k = 1; k < counts.length; k++) {
    const more = counts[k]! - counts[best]!;
    if (more > 0 || (more === 0 && lightness(k) >= lightness(best))) best = k;
  }
  return best;
}
