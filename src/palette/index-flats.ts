import { formatColor } from '../color/hex.ts';
import { pixelsArgument } from '../raster/arguments.ts';
import { raster } from '../raster/raster.ts';
import { sampleOffsets } from '../raster/samples.ts';
import { GOLDEN } from '../raster/scatter.ts';
import type { Dense, Owned, PixelData, PixelsLike } from '../raster/types.ts';
import { BARE_SWATCH, MAX_SWATCHES } from './swatches.ts';
import type { Flats, Swatch } from './types.ts';

const SLOT_BITS = 17; // twice the colors there may be: a table at most half full

/**
 * Flats from art in solid colors (color indexing, without quantization): one swatch for each distinct
 * color.
 *
 * Fully transparent pixels are `bare`, whatever color they hold. Swatches stand in the order of
 * their first pixel, row by row, and are named by their color, `#rrggbb`.
 *
 * @param pixels - 8 or 16 bit, `[w, h]` or `[w, h, 1 to 4]` (gray, gray + alpha, RGB, RGB + alpha).
 * @returns Flats that own their memory. O(pixels); two bytes a pixel of scratch.
 * @throws RangeError for a partly transparent pixel, a 16 bit sample that no 8 bit sample stands
 *   for (one that 257 does not divide), and more than 65,535 colors; each names the pixel.
 * @example
 * ```ts
 * import { indexFlats, raster } from 'underink';
 * const art = raster(new Uint8Array([200, 0, 0, 0, 0, 200, 200, 0, 0]), [3, 1, 3]);
 * const { indices, palette } = indexFlats(art);
 * console.log([...indices.data]); // [ 1, 2, 1 ]
 * console.log(palette.map((swatch) => swatch.name).join(' ')); // bare #c80000 #0000c8
 * ```
 */
export function indexFlats(pixels: PixelsLike): Flats {
  const dense = pixelsArgument(pixels, 'pixels');
  const { width, height } = dense;
  const { indices, palette } = indexColors(dense);
  const data = palette.length > 256 ? indices : new Uint8Array(indices);
  return {
    indices: raster<Owned<Uint8Array> | Owned<Uint16Array>>(data, [width, height]),
    palette,
  };
}

function indexColors(dense: Dense<PixelData>): {
  indices: Owned<Uint16Array>;
  palette: Swatch[];
} {
  const { data, width, height, channels } = dense;
  const { green, blue, alpha: alphaAt, wide, full } = sampleOffsets(dense);
  const indices = new Uint16Array(width * height);
  const palette: Swatch[] = [BARE_SWATCH];
  const keys = new Int32Array(1 << SLOT_BITS).fill(-1);
  const values = new Uint16Array(1 << SLOT_BITS);
  let r = -1;
  let g = -1;
  let b = -1;
  let alpha = -1;
  let index = 0;
  for (let i = 0, p = 0; i < indices.length; i++, p += channels) {
    const ri = data[p]!;
    const gi = data[p + green]!;
    const bi = data[p + blue]!;
    const ai = alphaAt < 0 ? full : data[p + alphaAt]!;
    if (ri === r && gi === g && bi === b && ai === alpha) {
      indices[i] = index;
      continue;
    }
    r = ri;
    g = gi;
    b = bi;
    alpha = ai;
    if (alpha !== full) {
      if (alpha !== 0) throw partialAlpha(alpha, i, width);
      index = 0;
      continue;
    }
    const key = wide ? narrow(r, g, b, i, width) : (r << 16) | (g << 8) | b;
    let slot = Math.imul(key, GOLDEN) >>> (32 - SLOT_BITS);
    while (keys[slot] !== key && keys[slot] !== -1) slot = (slot + 1) & ((1 << SLOT_BITS) - 1);
    if (keys[slot] === -1) {
      if (palette.length === MAX_SWATCHES) throw tooMany(i, width);
      keys[slot] = key;
      values[slot] = palette.length;
      const color = formatColor(key >> 16, (key >> 8) & 255, key & 255);
      palette.push({ name: color, color });
    }
    index = values[slot]!;
    indices[i] = index;
  }
  return { indices, palette };
}

/** The 8 bit color of 16 bit samples; 255 · 257 = 65,535. */
function narrow(r: number, g: number, b: number, i: number, width: number): number {
  if (r % 257 !== 0 || g % 257 !== 0 || b % 257 !== 0) {
    throw new RangeError(
      `pixels must hold 16 bit samples that are 257 times an 8 bit one, got [${r}, ${g}, ${b}] ${place(i, width)}`,
    );
  }
  return ((r / 257) << 16) | ((g / 257) << 8) | (b / 257);
}

function partialAlpha(alpha: number, i: number, width: number): RangeError {
  const at = place(i, width);
  return new RangeError(`pixels must be opaque or fully transparent, got alpha ${alpha} ${at}`);
}

function tooMany(i: number, width: number): RangeError {
  const most = MAX_SWATCHES - 1;
  return new RangeError(
    `pixels must hold at most ${most} colors, got color ${most + 1} ${place(i, width)}`,
  );
}

function place(i: number, width: number): string {
  return `at [${i % width}, ${Math.floor(i / width)}]`;
}
