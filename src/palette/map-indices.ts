import { checkIndices, type DenseFlats, indexStorage } from './flats-argument.ts';

/** Marks an index past the palette in a table of pairs. */
const PAST = 1 << 16;

/**
 * The indices of flats by a table, in storage of their own for a palette of `swatches`; an index
 * past the palette is a RangeError that names its pixel.
 *
 * Bytes are mapped four at a time by two look-ups in a table of all pairs of them, and a word that
 * is the same as the word before, as most are in flats, by none. The table tells an index past the
 * palette too, so that no pass is made to check. O(pixels).
 *
 * @param flats - With indices that may be unchecked.
 * @param to - New index by old one, below `swatches`.
 */
export function mapIndices(
  flats: DenseFlats,
  to: Uint16Array,
  swatches: number,
  name: string,
): Uint8Array | Uint16Array {
  const { data } = flats.indices;
  const mapped = indexStorage(data.length, swatches);
  if (data instanceof Uint8Array && mapped instanceof Uint8Array) {
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
  const source = new Uint32Array(aligned.buffer, aligned.byteOffset, words);
  const target = new Uint32Array(mapped.buffer, 0, words);
  const pairs = pairTable(to);
  let seen = 0;
  let last = -1;
  let result = 0;
  for (let i = 0; i < words; i++) {
    const word = source[i]!;
    if (word !== last) {
      const low = pairs[word & 0xffff]!;
      const high = pairs[word >>> 16]!;
      seen |= low | high;
      result = (low & 0xffff) | (high << 16);
      last = word;
    }
    target[i] = result;
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
