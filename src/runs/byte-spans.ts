import { differing, LITTLE } from '../raster/quads.ts';
import type { Bounds } from '../raster/types.ts';
import type { SpanSink } from './span-sink.ts';

/**
 * Writes one value into rasters of one byte per pixel, 4 pixels at a time, and counts the pixels that
 * it changes. A word that the span begins or ends in is written under a mask.
 */
export class ByteSpans implements SpanSink {
  changed = 0;
  private readonly data: Uint8Array;
  private readonly width: number;
  private readonly value: number;
  private readonly word: number;
  /** Bytes before the first whole word. */
  private readonly lead: number;
  private readonly words: Int32Array;
  private x0: number;
  private x1 = 0;
  private y0 = Number.POSITIVE_INFINITY;
  private y1 = 0;

  constructor(data: Uint8Array, width: number, value: number) {
    this.data = data;
    this.width = width;
    this.value = value;
    this.word = Math.imul(value, 0x01010101);
    this.lead = -data.byteOffset & 3;
    const whole = LITTLE ? Math.max(0, (data.length - this.lead) >> 2) : 0;
    this.words =
      whole > 0 ? new Int32Array(data.buffer, data.byteOffset + this.lead, whole) : EMPTY;
    this.x0 = width;
  }

  get bounds(): Bounds | null {
    return this.changed === 0 ? null : [this.x0, this.y0, this.x1, this.y1];
  }

  row(y: number, spans: Int32Array, count: number): void {
    const { words, word, lead } = this;
    const start = y * this.width - lead;
    const limit = 4 * words.length;
    let changed = 0;
    for (let i = 0; i < count; i += 2) {
      const from = spans[i]!;
      const to = spans[i + 1]!;
      if (from < this.x0 || to > this.x1) this.widen(y, from, to);
      const first = start + from;
      const final = start + to - 1;
      if (first < 0 || final >= limit) {
        changed += this.single(first + lead, final + lead);
        continue;
      }
      let w = first >> 2;
      const end = final >> 2;
      const head = -1 << (8 * (first & 3));
      const tail = -1 >>> (24 - 8 * (final & 3));
      if (w === end) {
        const old = words[w]!;
        const off = (old ^ word) & head & tail;
        words[w] = old ^ off;
        changed += Math.imul(differing(off), 0x01010101) >>> 24;
        continue;
      }
      let old = words[w]!;
      let off = (old ^ word) & head;
      words[w++] = old ^ off;
      let sum = differing(off);
      if (end - w >= 8) {
        const stop = end - ((end - w) & 7);
        changed += overwrite(words, word, w, stop);
        w = stop;
      }
      for (; w < end; w++) {
        sum += differing(words[w]! ^ word);
        words[w] = word;
      }
      old = words[end]!;
      off = (old ^ word) & tail;
      words[end] = old ^ off;
      sum += differing(off);
      // At most 9 words of 4 pixels: the sum of the four bytes fits the highest.
      changed += Math.imul(sum, 0x01010101) >>> 24;
    }
    if (changed === 0) return;
    this.changed += changed;
    if (y < this.y0) this.y0 = y;
    if (y >= this.y1) this.y1 = y + 1;
  }

  /** Moves the bounds out to the first and the last pixel of a span that will change. */
  private widen(y: number, from: number, to: number): void {
    const { data, value } = this;
    const start = y * this.width;
    let x = from;
    const before = Math.min(to, this.x0);
    while (x < before && data[start + x] === value) x++;
    if (x < before) this.x0 = x;
    x = to;
    const after = Math.max(from, this.x1);
    while (x > after && data[start + x - 1] === value) x--;
    if (x > after) this.x1 = x;
  }

  /** Bytes `[first, final]`, where they share a word with what is not the raster's. */
  private single(first: number, final: number): number {
    const { data, value } = this;
    let changed = 0;
    for (let i = first; i <= final; i++) {
      if (data[i] !== value) changed++;
      data[i] = value;
    }
    return changed;
  }
}

const EMPTY = new Int32Array(0);

/**
 * Whole words, 8 at a time; gives the number of bytes that differed. Where the 8 words were alike,
 * as in flats they mostly are, one of them is looked at for all.
 */
function overwrite(words: Int32Array, word: number, from: number, to: number): number {
  let changed = 0;
  for (let w = from; w < to; w += 8) {
    const a = words[w]!;
    const b = words[w + 1]!;
    const c = words[w + 2]!;
    const d = words[w + 3]!;
    const e = words[w + 4]!;
    const f = words[w + 5]!;
    const g = words[w + 6]!;
    const h = words[w + 7]!;
    if (((a ^ b) | (a ^ c) | (a ^ d) | (a ^ e) | (a ^ f) | (a ^ g) | (a ^ h)) === 0) {
      if (a === word) continue;
      changed += (Math.imul(differing(a ^ word), 0x01010101) >>> 24) << 3;
    } else {
      const low = differing(a ^ word) + differing(b ^ word) + differing(c ^ word);
      const middle = differing(d ^ word) + differing(e ^ word) + differing(f ^ word);
      const high = differing(g ^ word) + differing(h ^ word);
      changed += Math.imul(low + middle + high, 0x01010101) >>> 24;
    }
    words[w] = word;
    words[w + 1] = word;
    words[w + 2] = word;
    words[w + 3] = word;
    words[w + 4] = word;
    words[w + 5] = word;
    words[w + 6] = word;
    words[w + 7] = word;
  }
  return changed;
}
