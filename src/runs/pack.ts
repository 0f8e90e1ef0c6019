import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { Dense } from '../raster/types.ts';

/**
 * A mask of 1 bit per pixel. Pixel x of row y is bit `x & 31` of word `y · stride + (x >> 5)`; bits
 * past the width are 0.
 */
export interface Packed {
  readonly words: Uint32Array;
  readonly width: number;
  readonly height: number;
  /** Words per row. */
  readonly stride: number;
}

/**
 * Packs a Uint8 mask; here it shows whether every value is 0 or 1. O(pixels), 1/8 byte per pixel.
 *
 * @throws RangeError for any other value, naming its place and what such a raster often is.
 */
export function packMask(mask: Dense<Uint8Array>, name: string, tick?: Tick): Packed {
  const { data, width, height } = mask;
  const stride = (width + 31) >>> 5;
  const words = new Uint32Array(stride * height);
  let seen = 0;
  let i = 0;
  let k = 0;
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    for (let x = 0; x < width; x += 32) {
      const n = Math.min(width - x, 32);
      let word = 0;
      for (let b = 0; b < n; b++) {
        const v = data[i++]!;
        seen |= v;
        word |= v << b;
      }
      words[k++] = word;
    }
  }
  if (seen > 1) refuse(mask, name);
  return { words, width, height, stride };
}

/** Names the first wrong value. */
function refuse({ data, width }: Dense<Uint8Array>, name: string): never {
  const i = data.findIndex((v) => v > 1);
  const only255 = data.every((v) => v === 0 || v === 255);
  const hint = only255
    ? 'this looks like a mask of 0 and 255: divide it by 255'
    : 'this looks like a coverage: thresholdInk makes a mask of it';
  throw new RangeError(
    `${name} must hold 0 or 1, got ${data[i]} at [${i % width}, ${Math.floor(i / width)}]; ${hint}`,
  );
}
