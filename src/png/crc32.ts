/**
 * CRC-32 of a chunk's type and data, unsigned.
 *
 * Reference: PNG specification, third edition, 5.5 "CRC algorithm" and annex D: polynomial
 * 0xEDB88320 (reflected), start and final complement all ones. O(bytes), one table look-up each.
 */
export function crc32(bytes: Uint8Array): number {
  let crc = -1;
  for (let i = 0; i < bytes.length; i++) {
    crc = TABLE[(crc ^ bytes[i]!) & 255]! ^ (crc >>> 8);
  }
  return ~crc >>> 0;
}

const TABLE = Int32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let bit = 0; bit < 8; bit++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});
