import { IntList } from '../raster/int-list.ts';
import type { Bounds, Connectivity } from '../raster/types.ts';
import type { Matcher } from './matcher.ts';

/** Takes the runs of a flood, `[from, to)` of a row, each once, in no order. */
export interface RunSink {
  run(y: number, from: number, to: number): void;
}

export interface Flooded {
  /** Pixels of the flood. */
  readonly area: number;
  readonly bounds: Bounds | null;
}

/**
 * The pixels that match and are connected to a seed, as runs (a scanline flood fill).
 *
 * A stack holds stretches of rows to look at. The matching runs that meet a stretch are found a word
 * at a time, taken to their full length, cleared, so that each is taken once, and handed on; they
 * leave a stretch above and one below. Pixels are matched 32 at a time when a word is first looked
 * at, so a small flood in a large picture looks at little.
 *
 * O(words looked at + runs) time; 5/32 byte per pixel of the picture, untouched where the flood does
 * not come, and 24 bytes per run at most.
 */
export function flood(
  matcher: Matcher,
  [width, height]: readonly [number, number],
  [x, y]: readonly [number, number],
  connectivity: Connectivity,
  sink: RunSink,
): Flooded {
  const search = new Search(matcher, width, height, connectivity, sink);
  search.look(y, x, x + 1);
  search.drain();
  return { area: search.area, bounds: search.area === 0 ? null : search.bounds };
}

class Search {
  area = 0;
  readonly bounds: Bounds;
  private readonly matcher: Matcher;
  private readonly width: number;
  private readonly height: number;
  private readonly widen: number;
  private readonly sink: RunSink;
  private readonly stride: number;
  private readonly words: Int32Array;
  private readonly known: Uint8Array;
  /** Stretches to look at: row, first column, end. */
  private readonly stack: IntList = new IntList();

  constructor(
    matcher: Matcher,
    width: number,
    height: number,
    connectivity: Connectivity,
    sink: RunSink,
  ) {
    this.matcher = matcher;
    this.width = width;
    this.height = height;
    this.widen = connectivity === 8 ? 1 : 0;
    this.sink = sink;
    this.stride = (width + 31) >>> 5;
    this.words = new Int32Array(this.stride * height);
    this.known = new Uint8Array(this.stride * height);
    this.bounds = [width, height, 0, 0];
  }

  drain(): void {
    const { stack } = this;
    while (stack.length > 0) {
      stack.length -= 3;
      const { data, length } = stack;
      this.look(data[length]!, data[length + 1]!, data[length + 2]!);
    }
  }

  /** Takes the runs that meet columns `[from, to)` of a row. */
  look(y: number, from: number, to: number): void {
    const { words, known, stride } = this;
    const base = y * stride;
    const lastWord = base + ((to - 1) >>> 5);
    let k = base + (from >>> 5);
    if (known[k] === 0) this.match(y, k);
    let word = words[k]! & (-1 << (from & 31));
    for (;;) {
      while (word === 0) {
        if (++k > lastWord) return;
        if (known[k] === 0) this.match(y, k);
        word = words[k]!;
      }
      const x = 32 * (k - base) + 31 - Math.clz32(word & -word);
      if (x >= to) return;
      const right = this.take(y, base, x, x === from);
      if (right >= to) return;
      k = base + (right >>> 5);
      if (known[k] === 0) this.match(y, k);
      word = words[k]! & (-1 << (right & 31));
    }
  }

  /** Takes the run that holds a pixel and gives its end; `back` looks for its start too. */
  private take(y: number, base: number, x: number, back: boolean): number {
    const { matcher, words, known, stride, bounds } = this;
    let left = x;
    if (back) {
      let k = base + (x >>> 5);
      let off = ~words[k]! & ((1 << (x & 31)) - 1);
      while (off === 0 && k > base) {
        k--;
        if (known[k] === 0) this.match(y, k);
        off = ~words[k]!;
      }
      // Column 0 where nothing is off: all words back to the row's first are whole then.
      left = 32 * (k - base) + 32 - Math.clz32(off);
    }
    let k = base + (x >>> 5);
    let off = ~words[k]! & (-1 << (x & 31));
    // Whole words further right are taken at once: a word first looked at is 0 as it stands.
    while (off === 0 && ++k < base + stride) {
      if (known[k] === 0) {
        known[k] = 1;
        const word = matcher.word(y, k - base);
        off = ~word;
        if (off !== 0) words[k] = word;
      } else {
        off = ~words[k]!;
        if (off === 0) words[k] = 0;
      }
    }
    const right = off === 0 ? this.width : 32 * (k - base) + 31 - Math.clz32(off & -off);
    this.clear(base, left, Math.min(right, 32 * ((x >>> 5) + 1)));
    const begun = right & 31;
    if (right >>> 5 > x >>> 5 && begun !== 0) words[base + (right >>> 5)]! &= -1 << begun;
    this.sink.run(y, left, right);
    this.area += right - left;
    if (left < bounds[0]) bounds[0] = left;
    if (right > bounds[2]) bounds[2] = right;
    if (y < bounds[1]) bounds[1] = y;
    if (y >= bounds[3]) bounds[3] = y + 1;
    const from = Math.max(0, left - this.widen);
    const to = Math.min(this.width, right + this.widen);
    if (y > 0) this.push(y - 1, from, to);
    if (y + 1 < this.height) this.push(y + 1, from, to);
    return right;
  }

  private clear(base: number, left: number, right: number): void {
    const { words } = this;
    const first = base + (left >>> 5);
    const last = base + ((right - 1) >>> 5);
    const head = -1 << (left & 31);
    const tail = -1 >>> (31 - ((right - 1) & 31));
    if (first === last) words[first]! &= ~(head & tail);
    else {
      words[first]! &= ~head;
      for (let k = first + 1; k < last; k++) words[k] = 0;
      words[last]! &= ~tail;
    }
  }

  private match(y: number, k: number): void {
    this.known[k] = 1;
    this.words[k] = this.matcher.word(y, k - y * this.stride);
  }

  private push(y: number, from: number, to: number): void {
    const { stack } = this;
    stack.reserve(3);
    const { data, length } = stack;
    data[length] = y;
    data[length + 1] = from;
    data[length + 2] = to;
    stack.length = length + 3;
  }
}
