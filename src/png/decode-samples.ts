import { type Pass, passBytes, passesOf } from './header.ts';
import { inflateExactly } from './inflate.ts';
import type { PngFile } from './parse-png.ts';
import { PngError } from './png-error.ts';
import { unfilterRows } from './unfilter-rows.ts';

type Samples = Uint8Array | Uint16Array;

/**
 * The samples as the file holds them, row-major, one in each element, not scaled.
 *
 * The picture is inflated once, into the bytes that IHDR implies, and its filters are undone in
 * place. Where it has 8 bits and is not interlaced, these bytes are the samples; else they are put
 * in their places in an array of their own. O(samples); at most three times the bytes of the
 * picture.
 */
export function decodeSamples({ header, compressed }: PngFile): Samples {
  const { width, height, depth, channels, interlaced } = header;
  const passes = passesOf(header);
  const length = passes.reduce((sum, pass) => sum + passBytes(pass), 0);
  const inflated = inflateExactly(compressed, length, 'the picture');
  undoFilters(inflated, passes, Math.max(1, (channels * depth) / 8));
  const size = width * height * channels;
  if (depth === 8 && !interlaced) return inflated.subarray(0, size);
  const samples = depth === 16 ? new Uint16Array(size) : new Uint8Array(size);
  let at = 0;
  for (const pass of passes) {
    if (depth < 8) unpack(inflated, at, depth, pass, samples, width);
    else place(inflated, at, pass, channels, samples, width);
    at += passBytes(pass);
  }
  return samples;
}

function undoFilters(inflated: Uint8Array, passes: readonly Pass[], bpp: number): void {
  try {
    let at = 0;
    for (const pass of passes) {
      unfilterRows(inflated, at, pass.height, pass.rowBytes, bpp);
      at += passBytes(pass);
    }
  } catch (error) {
    throw new PngError('the rows of the picture cannot be decoded', { cause: error });
  }
}

/** Puts the samples of a pass, packed several to the byte, at their places in the picture. */
function unpack(
  packed: Uint8Array,
  start: number,
  depth: number,
  { x0, y0, dx, dy, width, height, rowBytes }: Pass,
  samples: Samples,
  pictureWidth: number,
): void {
  const most = (1 << depth) - 1;
  for (let j = 0; j < height; j++) {
    const row = start + j * rowBytes;
    let to = (y0 + j * dy) * pictureWidth + x0;
    for (let i = 0; i < width; i++, to += dx) {
      const bit = i * depth;
      samples[to] = (packed[row + Math.floor(bit / 8)]! >> (8 - depth - (bit % 8))) & most;
    }
  }
}

/** The same for samples of one byte, or of two, the high one first. */
function place(
  bytes: Uint8Array,
  start: number,
  { x0, y0, dx, dy, width, height }: Pass,
  channels: number,
  samples: Samples,
  pictureWidth: number,
): void {
  const isWide = samples instanceof Uint16Array;
  let from = start;
  for (let j = 0; j < height; j++) {
    let to = ((y0 + j * dy) * pictureWidth + x0) * channels;
    const skip = (dx - 1) * channels;
    for (let i = 0; i < width; i++, to += skip) {
      for (let c = 0; c < channels; c++) {
        const high = bytes[from++]!;
        samples[to++] = isWide ? (high << 8) | bytes[from++]! : high;
      }
    }
  }
}
