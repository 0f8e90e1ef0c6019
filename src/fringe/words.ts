import type { Dense, PixelData } from '../raster/types.ts';
import { LITTLE } from '../runs/quads.ts';

/**
 * Pixels as words, `r | g << 8 | b << 16 | alpha << 24`, 8 bit a sample. RGBA of 8 bit is read in
 * place where memory allows; everything else is copied once, 16 bit samples rounded. O(pixels).
 */
export function wordsOf({ data, width, height, channels }: Dense<PixelData>): Uint32Array {
  const size = width * height;
  if (channels === 4 && data.BYTES_PER_ELEMENT === 1 && LITTLE && (data.byteOffset & 3) === 0) {
    return new Uint32Array(data.buffer, data.byteOffset, size);
  }
  const words = new Uint32Array(size);
  const deep = data.BYTES_PER_ELEMENT === 2;
  const green = channels < 3 ? 0 : 1;
  const blue = channels < 3 ? 0 : 2;
  const alpha = channels === 2 || channels === 4 ? channels - 1 : -1;
  for (let i = 0, p = 0; i < size; i++, p += channels) {
    const r = data[p]!;
    const g = data[p + green]!;
    const b = data[p + blue]!;
    const a = alpha < 0 ? (deep ? 65_535 : 255) : data[p + alpha]!;
    words[i] = deep
      ? narrow(r) | (narrow(g) << 8) | (narrow(b) << 16) | (narrow(a) << 24)
      : r | (g << 8) | (b << 16) | (a << 24);
  }
  return words;
}

/** The nearest 8 bit sample of a 16 bit one; alpha stays partial where it is. */
function narrow(sample: number): number {
  return Math.floor((sample + 128) / 257);
}
