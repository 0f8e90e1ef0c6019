import { refuseMask } from './mask-values.ts';
import { TICK_ROWS, type Tick } from './progress.ts';
import { LITTLE } from './quads.ts';
import type { Dense, Owned } from './types.ts';

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
 * Packs a Uint8 mask, and checks on the way that every value is 0 or 1. O(pixels), 1/8 byte per pixel.
 *
 * Whole words are made of 4 pixels at a time, but for the last row, where 4 pixels may reach past
 * the mask.
 *
 * @throws RangeError for any other value, naming its place and what such a raster often is.
 */
export function packMask(mask: Dense<Uint8Array>, name: string, tick?: Tick): Packed {
  const { data, width, height } = mask;
  const stride = (width + 31) >>> 5;
  const words = new Uint32Array(stride * height);
  const aligned = LITTLE && (data.byteOffset & 3) === 0;
  const quads = aligned ? new Int32Array(data.buffer, data.byteOffset, data.length >> 2) : EMPTY;
  let seen = 0;
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    const row = y * width;
    const k = y * stride;
    const whole = aligned && y < height - 1 ? width >>> 5 : 0;
    if (whole > 0) seen |= packWords(quads, row, words, k, whole);
    seen |= packPixels(data, row + 32 * whole, row + width, words, k + whole);
  }
  if ((seen & 0xfefefefe) !== 0) refuseMask(mask, name);
  return { words, width, height, stride };
}

/** The mask of packed pixels, 0 and 1. */
export function unpackMask({ words, width, height, stride }: Packed): Owned<Uint8Array> {
  const data = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let k = 0; k < stride; k++) {
      const at = y * width + 32 * k;
      for (let bits = words[y * stride + k]!; bits !== 0; bits &= bits - 1) {
        data[at + 31 - Math.clz32(bits & -bits)] = 1;
      }
    }
  }
  return data;
}

const EMPTY = new Int32Array(0);

/** Gathers the lowest bits of 4 bytes in bits 24 to 27, those 4 bits higher in bits 28 to 31. */
const GATHER = 0x01020408;

/**
 * Packs `count` words from a pixel on; gives all that was read, combined.
 *
 * ```text
 * quads      | a b c d | e f g h | … |      a row may begin anywhere in a quad, here at c: the
 * word           0 1     2 3 4 5   …        last quad of a word is the first of the next
 * ```
 */
function packWords(
  quads: Int32Array,
  from: number,
  words: Uint32Array,
  to: number,
  count: number,
): number {
  const shift = from & 3;
  let i = from >>> 2;
  let last = quads[i]!;
  let seen = last;
  for (let k = to; k < to + count; k++, i += 8) {
    const first = last;
    const b = quads[i + 1]!;
    const c = quads[i + 2]!;
    const d = quads[i + 3]!;
    const e = quads[i + 4]!;
    const f = quads[i + 5]!;
    const g = quads[i + 6]!;
    const h = quads[i + 7]!;
    last = quads[i + 8]!;
    const any = first | b | c | d | e | f | g | h | last;
    if (any === 0) continue;
    seen |= any;
    const word =
      (Math.imul(first | (b << 4), GATHER) >>> 24) |
      ((Math.imul(c | (d << 4), GATHER) >>> 24) << 8) |
      ((Math.imul(e | (f << 4), GATHER) >>> 24) << 16) |
      ((Math.imul(g | (h << 4), GATHER) >>> 24) << 24);
    words[k] = (word >>> shift) | (((Math.imul(last, GATHER) >>> 24) << (31 - shift)) << 1);
  }
  return seen;
}

/** Packs pixels `[from, to)` one by one, from word k on; gives all values combined. */
function packPixels(
  data: Uint8Array,
  from: number,
  to: number,
  words: Uint32Array,
  k: number,
): number {
  let seen = 0;
  for (let i = from; i < to; k++) {
    const n = Math.min(to - i, 32);
    let word = 0;
    for (let b = 0; b < n; b++) {
      const v = data[i++]!;
      seen |= v;
      word |= v << b;
    }
    words[k] = word;
  }
  return seen;
}
