import { formatColor } from '../color/hex.ts';
import { type Lab, labOfRgb } from '../color/lab.ts';
import type { Swatch } from '../palette/types.ts';
import { TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { LITTLE } from '../raster/quads.ts';
import { sampleOffsets, toEight } from '../raster/samples.ts';
import type { Dense, PixelData } from '../raster/types.ts';

/**
 * Pixels as words, `r | g << 8 | b << 16 | alpha << 24`, 8 bit a sample. RGBA of 8 bit is read in
 * place where memory allows; everything else is copied once, 16 bit samples rounded. O(pixels).
 */
export function wordsOf(dense: Dense<PixelData>, tick?: Tick): Uint32Array {
  const { data, width, height, channels } = dense;
  const size = width * height;
  if (channels === 4 && data.BYTES_PER_ELEMENT === 1 && LITTLE && (data.byteOffset & 3) === 0) {
    return new Uint32Array(data.buffer, data.byteOffset, size);
  }
  const words = new Uint32Array(size);
  const { green, blue, alpha, wide } = sampleOffsets(dense);
  for (let i = 0, p = 0; i < size; i++, p += channels) {
    if (i % TICK_PIXELS === 0) tick?.(i / size);
    const r = toEight(data[p]!, wide);
    const g = toEight(data[p + green]!, wide);
    const b = toEight(data[p + blue]!, wide);
    const a = alpha < 0 ? 255 : toEight(data[p + alpha]!, wide);
    words[i] = r | (g << 8) | (b << 16) | (a << 24);
  }
  return words;
}

/**
 * Place of each code in the order of its color, read as `0xrrggbb`, what is transparent first and
 * equal colors by code: an order that does not change when the picture is turned.
 */
export function rankColors(colors: Uint32Array): Uint16Array {
  const rank = new Uint16Array(colors.length);
  const order = sortColors(colors);
  for (let k = 0; k < order.length; k++) rank[order[k]!] = k;
  return rank;
}

/** The codes in that order. */
export function sortColors(colors: Uint32Array): number[] {
  const order = Array.from(colors, (_, code) => code);
  return order.sort((a, b) => compareColors(colors[a]!, colors[b]!) || a - b);
}

/** Below 0 where word a comes first: less alpha, then less red, green, blue. */
export function compareColors(a: number, b: number): number {
  if (a >>> 24 !== b >>> 24) return (a >>> 24) - (b >>> 24);
  return rgb(a) - rgb(b);
}

function rgb(word: number): number {
  return ((word & 255) << 16) | (word & 0xff00) | ((word >>> 16) & 255);
}

export function labOfWord(word: number): Lab {
  return labOfRgb(word & 255, (word >>> 8) & 255, (word >>> 16) & 255);
}

/** `#rrggbb` of a word `r | g << 8 | b << 16`, whatever its alpha. */
export function colorOfWord(word: number): string {
  return formatColor(word & 255, (word >>> 8) & 255, (word >>> 16) & 255);
}

/** A swatch for each word, with its color for a name. */
export function swatchesOfWords(words: ArrayLike<number>): Swatch[] {
  return Array.from(words, (word) => {
    const color = colorOfWord(word);
    return { name: color, color };
  });
}
