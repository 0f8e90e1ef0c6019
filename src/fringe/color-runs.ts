import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import { GOLDEN } from '../raster/scatter.ts';

/** Horizontal runs of equal words, row by row, and the colors that they have. */
export interface ColorRuns {
  /** First pixel of each run; one more, the number of pixels, ends the last. */
  readonly start: Int32Array;
  /** Number of each run's color. */
  readonly color: Int32Array;
  readonly count: number;
  /** Word of each color, in the order of first pixels; 0 for all that is transparent. */
  readonly words: Uint32Array;
  /** Pixels of each color. */
  readonly pixels: Int32Array;
  /** 1 for each color that fills a square of 3 × 3 somewhere, or what of it the picture can hold. */
  readonly area: Uint8Array;
  readonly colors: number;
}

/**
 * Runs of equal words. Colors are looked up once a run, and a square is looked for until a color
 * has one. O(pixels); 8 bytes a run.
 */
export function colorRuns(
  words: Uint32Array,
  width: number,
  height: number,
  tick?: Tick,
): ColorRuns {
  let start: Int32Array = new Int32Array(2 * width + (words.length >> 5) + 1);
  let color: Int32Array = new Int32Array(start.length);
  let area = new Uint8Array(256);
  const table = new ColorTable();
  const side = Math.min(3, width);
  const up = height > 2 ? width : 0;
  const down = height > 1 ? width : 0;
  const first = up === 0 ? 0 : 1;
  const last = height > 2 ? height - 2 : 0;
  let count = 0;
  for (let y = 0; y < height; y++) {
    if (y % TICK_ROWS === 0) tick?.(y / height);
    if (count + width >= start.length) {
      start = longer(start, count + width + 1);
      color = longer(color, start.length);
    }
    const inner = y >= first && y <= last;
    const end = (y + 1) * width;
    for (let i = y * width; i < end; ) {
      const from = i;
      const word = words[i]!;
      do i++;
      while (i < end && words[i] === word);
      const number = table.add(word >>> 24 === 0 ? 0 : word, i - from);
      start[count] = from;
      color[count++] = number;
      if (number >= area.length) {
        const more = new Uint8Array(2 * area.length);
        more.set(area);
        area = more;
      }
      if (i - from < side || !inner || area[number] === 1) continue;
      for (let p = from, streak = 0; p < i; p++) {
        streak = words[p - up] === word && words[p + down] === word ? streak + 1 : 0;
        if (streak < side) continue;
        area[number] = 1;
        break;
      }
    }
  }
  start[count] = words.length;
  return {
    start,
    color,
    count,
    words: table.words,
    pixels: table.pixels,
    area,
    colors: table.size,
  };
}

/** The same numbers in storage half as long again, or as long as is asked for. */
function longer(list: Int32Array, least: number): Int32Array {
  const copy = new Int32Array(Math.max(least, list.length + (list.length >> 1)));
  copy.set(list);
  return copy;
}

/** Runs between two ticks. */
export const TICK_RUNS: number = 1 << 16;

/** The blended pixels, row by row: those of colors without a code. O(runs). */
export function blendsOf(
  { start, color, count }: ColorRuns,
  codeOf: Uint16Array,
  tick?: Tick,
): Int32Array {
  let size = 0;
  for (let r = 0; r < count; r++) if (codeOf[color[r]!] === 0) size += start[r + 1]! - start[r]!;
  const blends = new Int32Array(size);
  let k = 0;
  for (let r = 0; r < count; r++) {
    if (r % TICK_RUNS === 0) tick?.(r / count);
    if (codeOf[color[r]!] !== 0) continue;
    for (let i = start[r]!; i < start[r + 1]!; i++) blends[k++] = i;
  }
  return blends;
}

/** Blends that are looked at for a vote. */
const MOST_ASKED = 20_000;

/**
 * Of more than 20,000 blends about so many, spread over the picture by a hash of their distances from
 * its nearest sides, so that a mirrored or turned picture gives the same ones. Ascending. O(blends).
 */
export function someBlends(
  blends: Int32Array,
  width: number,
  height: number,
  tick?: Tick,
): Int32Array {
  if (blends.length <= MOST_ASKED) return blends;
  const limit = (MOST_ASKED / blends.length) * 2 ** 32;
  const some: number[] = [];
  for (let k = 0; k < blends.length; k++) {
    if (k % TICK_RUNS === 0) tick?.(k / blends.length);
    const i = blends[k]!;
    const x = i % width;
    const y = (i - x) / width;
    const u = Math.min(x, width - 1 - x);
    const v = Math.min(y, height - 1 - y);
    if (Math.imul(u * u + v * v, GOLDEN) >>> 0 < limit) some.push(i);
  }
  return Int32Array.from(some);
}

/** Numbers colors 0, 1, 2, … in the order they come and counts their pixels; open addressing. */
class ColorTable {
  words: Uint32Array = new Uint32Array(256);
  pixels: Int32Array = new Int32Array(256);
  size = 0;
  /** Number of the color plus one; 0 for a free slot. Twice as many slots as colors or more. */
  private slots = new Int32Array(512);
  private shift = 32 - 9;

  /** Adds n pixels to a color and gives its number. */
  add(word: number, n: number): number {
    const slot = this.slotOf(word);
    const known = this.slots[slot]!;
    if (known !== 0) {
      this.pixels[known - 1]! += n;
      return known - 1;
    }
    const number = this.size++;
    if (number === this.words.length) this.extend();
    this.words[number] = word;
    this.pixels[number] = n;
    if (2 * this.size > this.slots.length) this.rehash();
    else this.slots[slot] = number + 1;
    return number;
  }

  private slotOf(word: number): number {
    const { slots, words } = this;
    const mask = slots.length - 1;
    let slot = Math.imul(word, GOLDEN) >>> this.shift;
    for (;;) {
      const known = slots[slot]!;
      if (known === 0 || words[known - 1] === word) return slot;
      slot = (slot + 1) & mask;
    }
  }

  private extend(): void {
    const words = new Uint32Array(2 * this.words.length);
    words.set(this.words);
    this.words = words;
    const pixels = new Int32Array(words.length);
    pixels.set(this.pixels);
    this.pixels = pixels;
  }

  private rehash(): void {
    this.slots = new Int32Array(2 * this.slots.length);
    this.shift--;
    for (let k = 0; k < this.size; k++) this.slots[this.slotOf(this.words[k]!)] = k + 1;
  }
}
