import { checkIndices, type DenseFlats } from './flats-argument.ts';

/** Marks an index past the palette in a table of pairs. */
const PAST = 1 << 16;

/** Words of one value that are written by `fill`; a loop is quicker below. */
const LONG_RUN = 16;

/**
 * The indices of flats by a table; an index past the palette is a RangeError that names its pixel.
 *
 * Bytes are mapped four at a time by two look-ups in a table of all pairs of them, and a run of
 * equal words, as flats are full of, by two in all. The table tells an index past the palette too,
 * so that no pass is made to check. O(pixels).
 *
 * @param flats - With indices that may be unchecked.
 * @param to - New index by old one, below 256 where `mapped` holds bytes.
 * @param mapped - Storage to write into, of as many pixels; not touched where 16 bit indices fail.
 */
export function mapIndices<D extends Uint8Array | Uint16Array>(
  flats: DenseFlats,
  to: Uint16Array,
  mapped: D,
  name: string,
): D {
  const { data } = flats.indices;
  const whole = mapped.byteOffset % 4 === 0;
  if (data instanceof Uint8Array && mapped instanceof Uint8Array && whole) {
    if (!mapBytes(data, to, mapped)) checkIndices(flats, name);
    return mapped;
  }
  checkIndices(flats, name);
  for (let i = 0; i < data.length; i++) mapped[i] = to[data[i]!]!;
  return mapped;
}

/** Whether every byte is in the table. */
function mapBytes(data: Uint8Array, to: Uint16Array, mapped: Uint8Array): boolean {
  const words = data.length >> 2;
  const aligned = data.byteOffset % 4 === 0 ? data : data.slice();
  const source = new Int32Array(aligned.buffer, aligned.byteOffset, words);
  const target = new Int32Array(mapped.buffer, mapped.byteOffset, words);
  const pairs = pairTable(to);
  let seen = 0;
  for (let start = 0, end = 0; start < words; start = end) {
    const word = source[start]!;
    const low = pairs[word & 0xffff]!;
    const high = pairs[word >>> 16]!;
    const result = (low & 0xffff) | (high << 16);
    seen |= low | high;
    end = start + 1;
    while (end < words && source[end] === word) end++;
    if (end - start > LONG_RUN) target.fill(result, start, end);
    else for (let i = start; i < end; i++) target[i] = result;
  }
  for (let i = 4 * words; i < data.length; i++) {
    const pair = pairs[data[i]! * 0x101]!;
    seen |= pair;
    mapped[i] = pair;
  }
  return seen < PAST;
}

/** The two new bytes for any two bytes side by side, whichever of them the machine reads first. */
function pairTable(to: Uint16Array): Int32Array {
  const single = Int32Array.from({ length: 256 }, (_, i) => to[i] ?? PAST);
  const pairs = new Int32Array(1 << 16);
  for (let high = 0, pair = 0; high < 256; high++) {
    const upper = single[high]!;
    const past = upper & PAST;
    const shifted = ((upper & 255) << 8) | past;
    for (let low = 0; low < 256; low++) pairs[pair++] = single[low]! | shifted;
  }
  return pairs;
}
