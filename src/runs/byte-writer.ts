import type { Bounds } from '../raster/types.ts';
import type { RowSink } from './row-sink.ts';

/** Bytes of a 32-bit word, all ones for each of 4 bits. */
const BYTES = Int32Array.from({ length: 16 }, (_, nibble) => {
  let mask = 0;
  for (let b = 0; b < 4; b++) if ((nibble >> b) & 1) mask |= 255 << (8 * b);
  return mask;
});

/** Whether the lowest byte of a word comes first in memory, as on all machines in common use. */
const LITTLE = new Uint8Array(Uint32Array.of(1).buffer)[0] === 1;

/**
 * Writes one value into a Uint8 raster of one channel, 4 pixels at a time, and counts the pixels
 * that it changes.
 */
export class ByteWriter implements RowSink {
  changed = 0;
  private readonly data: Uint8Array;
  private readonly quads: Int32Array;
  private readonly lead: number;
  private readonly width: number;
  private readonly value: number;
  private x0: number;
  private x1 = 0;
  private y0 = -1;
  private y1 = 0;

  constructor(data: Uint8Array, width: number, value: number) {
    this.data = data;
    this.width = width;
    this.value = value;
    this.x0 = width;
    const { buffer, byteOffset } = data;
    /** Bytes of the first, incomplete quad; `quads` begins behind it. */
    this.lead = -byteOffset & 3;
    const whole = LITTLE ? (data.length - this.lead) >> 2 : 0;
    this.quads =
      whole > 0 ? new Int32Array(buffer, byteOffset + this.lead, whole) : new Int32Array(0);
  }

  get bounds(): Bounds | null {
    return this.changed === 0 ? null : [this.x0, this.y0, this.x1, this.y1];
  }

  row(y: number, words: Int32Array, from: number, firstWord: number, count: number): void {
    const { width, quads } = this;
    const before = this.changed;
    const start = y * width + 32 * firstWord;
    // Groups of 32 pixels begin where a quad does, `skip` pixels into the words.
    const skip = (this.lead - start) & 3;
    const head = words[from]! & ((1 << skip) - 1);
    if (head !== 0) this.single(y, 32 * firstWord, head);
    let quad = (start + skip - this.lead) >> 2;
    let column = 32 * firstWord + skip;
    for (let k = from; k < from + count; k++, quad += 8, column += 32) {
      let bits = words[k]!;
      if (skip > 0)
        bits = (bits >>> skip) | (k + 1 < from + count ? words[k + 1]! << (32 - skip) : 0);
      if (bits === 0) continue;
      // Near the bounds so far every pixel is looked at, to move them.
      if (column < this.x0 || column + 32 > this.x1 || quad + 8 > quads.length) {
        this.single(y, column, bits);
      } else if (bits === -1) this.full(quad);
      else this.some(quad, bits);
    }
    if (this.changed > before) {
      if (this.y0 < 0) this.y0 = y;
      this.y1 = y + 1;
    }
  }

  private single(y: number, column: number, bits: number): void {
    const { data, value } = this;
    const row = y * this.width;
    let rest = bits;
    while (rest !== 0) {
      const lowest = rest & -rest;
      rest ^= lowest;
      const x = column + 31 - Math.clz32(lowest);
      if (data[row + x] === value) continue;
      data[row + x] = value;
      this.changed++;
      if (x < this.x0) this.x0 = x;
      if (x >= this.x1) this.x1 = x + 1;
    }
  }

  /** 32 pixels, all inside. */
  private full(quad: number): void {
    const { quads } = this;
    const value = Math.imul(this.value, 0x01010101);
    let sum = 0;
    for (let q = quad; q < quad + 8; q++) {
      const off = quads[q]! ^ value;
      sum += ((((off & 0x7f7f7f7f) + 0x7f7f7f7f) | off) >>> 7) & 0x01010101;
      quads[q] = value;
    }
    this.changed += Math.imul(sum, 0x01010101) >>> 24;
  }

  /** 32 pixels, some inside. */
  private some(quad: number, bits: number): void {
    const { quads } = this;
    const value = Math.imul(this.value, 0x01010101);
    let sum = 0;
    let rest = bits;
    for (let q = quad; rest !== 0; q++, rest >>>= 4) {
      const old = quads[q]!;
      const off = (old ^ value) & BYTES[rest & 15]!;
      sum += ((((off & 0x7f7f7f7f) + 0x7f7f7f7f) | off) >>> 7) & 0x01010101;
      quads[q] = old ^ off;
    }
    this.changed += Math.imul(sum, 0x01010101) >>> 24;
  }
}
