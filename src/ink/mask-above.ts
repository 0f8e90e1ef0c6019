import { TICK_PIXELS, type Tick } from '../raster/progress.ts';

/**
 * Writes where a coverage is above a level, 0 to 254, also over itself; gives the pixels of ink.
 *
 * Where the storage allows, four pixels go through as one word: a byte is above a level below 128
 * where its top bit is set or its low seven bits plus 127 less the level carry into it. A level from
 * 128 on is that of the complement, whose result is turned round.
 */
export function maskAbove(data: Uint8Array, level: number, mask: Uint8Array, tick?: Tick): number {
  const whole = Math.floor(level);
  const aligned = ((data.byteOffset | mask.byteOffset) & 3) === 0;
  const words = aligned ? data.length >> 2 : 0;
  const from = new Int32Array(data.buffer, aligned ? data.byteOffset : 0, words);
  const to = new Int32Array(mask.buffer, aligned ? mask.byteOffset : 0, words);
  let ink = 0;
  for (let first = 0; first < words; first += TICK_PIXELS >> 2) {
    tick?.(first / words);
    ink += maskWords(from, to, first, Math.min(words, first + (TICK_PIXELS >> 2)), whole);
  }
  for (let i = 4 * words; i < data.length; i++) {
    const bit = data[i]! > whole ? 1 : 0;
    mask[i] = bit;
    ink += bit;
  }
  return ink;
}

function maskWords(
  from: Int32Array,
  to: Int32Array,
  first: number,
  end: number,
  level: number,
): number {
  const lowBits = 0x7f7f7f7f;
  const ones = 0x01010101;
  const flip = level < 128 ? 0 : -1;
  const carry = Math.imul(level < 128 ? 127 - level : level - 127, ones);
  const turn = flip & ones;
  let ink = 0;
  for (let i = first; i < end; ) {
    // Counts of the four bytes side by side, which 255 words cannot overflow.
    const last = Math.min(end, i + 255);
    let counts = 0;
    for (; i < last; i++) {
      const four = from[i]! ^ flip;
      const bits = (((((four & lowBits) + carry) | four) >>> 7) & ones) ^ turn;
      to[i] = bits;
      counts = (counts + bits) | 0;
    }
    ink += (counts & 255) + ((counts >>> 8) & 255) + ((counts >>> 16) & 255) + (counts >>> 24);
  }
  return ink;
}
