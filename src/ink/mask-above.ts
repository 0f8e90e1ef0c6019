import { TICK_PIXELS, type Tick } from '../raster/progress.ts';

const LOW_BITS = 0x7f7f7f7f;
const ONES = 0x01010101;

/**
 * Writes where a coverage is above a level, 0 to 254, also over itself; gives the pixels of ink.
 *
 * Where the storage allows, four pixels go through as one word: the low seven bits of a byte plus
 * 127 less those of the level carry into its top bit where they are above. With the byte's own top
 * bit that decides: either is enough for a level below 128, both are needed from there on.
 */
export function maskAbove(data: Uint8Array, level: number, mask: Uint8Array, tick?: Tick): number {
  const whole = Math.floor(level);
  const aligned = ((data.byteOffset | mask.byteOffset) & 3) === 0;
  const words = aligned ? data.length >> 2 : 0;
  const from = new Uint32Array(data.buffer, aligned ? data.byteOffset : 0, words);
  const to = new Uint32Array(mask.buffer, aligned ? mask.byteOffset : 0, words);
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
  from: Uint32Array,
  to: Uint32Array,
  first: number,
  end: number,
  level: number,
): number {
  const carry = Math.imul(127 - (level & 127), ONES);
  const any = level < 128 ? -1 : 0;
  let ink = 0;
  for (let i = first; i < end; ) {
    // Counts of the four bytes side by side, which 255 words cannot overflow.
    const last = Math.min(end, i + 255);
    let counts = 0;
    for (; i < last; i++) {
      const four = from[i]!;
      const low = ((four & LOW_BITS) + carry) | 0;
      const above = (low & four) | ((low | four) & any);
      const bits = (above >>> 7) & ONES;
      to[i] = bits;
      counts = (counts + bits) | 0;
    }
    ink += (counts & 255) + ((counts >>> 8) & 255) + ((counts >>> 16) & 255) + (counts >>> 24);
  }
  return ink;
}
