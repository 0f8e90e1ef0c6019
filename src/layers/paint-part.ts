import type { Bounds, Dense } from '../raster/types.ts';

/** Bounds of the pixels of each index, half-open; undefined for an index that no pixel has. O(pixels). */
export function boundsOfIndices(
  { data, width, height }: Dense<Uint8Array | Uint16Array>,
  count: number,
): (Bounds | undefined)[] {
  const left = new Int32Array(count).fill(width);
  const top = new Int32Array(count).fill(-1);
  const right = new Int32Array(count);
  const bottom = new Int32Array(count);
  for (let y = 0; y < height; y++) {
    const end = (y + 1) * width;
    for (let i = y * width; i < end; ) {
      const index = data[i]!;
      const x0 = i - y * width;
      while (i < end && data[i] === index) i++;
      const x1 = i - y * width;
      if (top[index]! < 0) top[index] = y;
      bottom[index] = y + 1;
      if (x0 < left[index]!) left[index] = x0;
      if (x1 > right[index]!) right[index] = x1;
    }
  }
  return Array.from(top, (y0, k) => (y0 < 0 ? undefined : [left[k]!, y0, right[k]!, bottom[k]!]));
}

/**
 * The part of flats within bounds, RGBA: `words` by index, each pixel a word in the byte order of the
 * machine. O(pixels of the part).
 */
export function paintPart(
  { data, width }: Dense<Uint8Array | Uint16Array>,
  [x0, y0, x1, y1]: Readonly<Bounds>,
  words: Uint32Array,
): Uint8Array {
  const part = new Uint32Array((x1 - x0) * (y1 - y0));
  for (let y = y0, k = 0; y < y1; y++) {
    for (let i = y * width + x0; i < y * width + x1; i++) part[k++] = words[data[i]!]!;
  }
  return new Uint8Array(part.buffer);
}
