import type { Packed } from '../raster/pack.ts';
import { differing, LITTLE } from '../raster/quads.ts';
import type { Dense } from '../raster/types.ts';

/** Tells the pixels that a value takes, 32 at a time. */
export interface Matcher {
  /** Bits of columns 32 · k on of a row, the lowest bit first; bits past the width are 0. */
  word(y: number, k: number): number;
}

export interface MatchRule {
  /** What is looked for, a number per channel. */
  readonly value: readonly number[];
  /** Largest difference in each channel. */
  readonly tolerance: readonly number[];
  /** Pixels that are never taken. */
  readonly barrier?: Packed | undefined;
  /** Whether a pixel, by number, may be taken; left out, all may. */
  readonly mayTake?: ((pixel: number) => boolean) | undefined;
}

/** The quickest matcher for a raster and a rule. */
export function matcherFor(raster: Dense, rule: MatchRule): Matcher {
  const { data, channels } = raster;
  const { value, tolerance, barrier, mayTake } = rule;
  const bytes = data instanceof Uint8Array || data instanceof Uint8ClampedArray;
  const plain = bytes && channels === 1 && tolerance[0] === 0 && mayTake === undefined;
  const quick = plain && LITTLE && data.length >= 8;
  const own = quick ? new ByteMatcher(raster, value[0]!) : new SampleMatcher(raster, rule);
  return barrier === undefined ? own : new BarredMatcher(own, barrier);
}

/** Bytes that equal one value, compared 4 at a time. */
class ByteMatcher implements Matcher {
  private readonly data: Uint8Array | Uint8ClampedArray;
  private readonly quads: Int32Array;
  private readonly lead: number;
  private readonly width: number;
  private readonly value: number;
  private readonly pattern: number;

  constructor({ data, width }: Dense, value: number) {
    const { buffer, byteOffset, length } = data;
    this.data = data as Uint8Array;
    this.width = width;
    this.value = value;
    this.pattern = Math.imul(value, 0x01010101);
    this.lead = -byteOffset & 3;
    this.quads = new Int32Array(buffer, byteOffset + this.lead, (length - this.lead) >> 2);
  }

  word(y: number, k: number): number {
    const { quads, width, pattern } = this;
    const start = y * width + 32 * k;
    const offset = start - this.lead;
    const shift = 8 * (offset & 3);
    let q = offset >> 2;
    if (q < 0 || q + 9 > quads.length || 32 * k + 32 > width) return this.edge(start, k);
    // All bytes of the pattern are alike, so the 9 quads that hold the 32 bytes need no alignment.
    const all =
      ((quads[q]! ^ pattern) >>> shift) |
      (quads[q + 1]! ^ pattern) |
      (quads[q + 2]! ^ pattern) |
      (quads[q + 3]! ^ pattern) |
      (quads[q + 4]! ^ pattern) |
      (quads[q + 5]! ^ pattern) |
      (quads[q + 6]! ^ pattern) |
      (quads[q + 7]! ^ pattern) |
      (shift === 0 ? 0 : (quads[q + 8]! ^ pattern) << (32 - shift));
    if (all === 0) return -1;
    let word = 0;
    let quad = quads[q]!;
    for (let b = 0; b < 32; b += 4) {
      const next = quads[++q]!;
      const own = shift === 0 ? quad : (quad >>> shift) | (next << (32 - shift));
      quad = next;
      const off = own ^ pattern;
      // 1 in the lowest bit of each byte that is 0, brought together by a product.
      const zero = ~differing(off) & 0x01010101;
      word |= ((Math.imul(zero, 0x01020408) >>> 24) & 15) << b;
    }
    return word;
  }

  private edge(start: number, k: number): number {
    const { data, value } = this;
    const count = Math.min(32, this.width - 32 * k);
    let word = 0;
    for (let b = 0; b < count; b++) if (data[start + b] === value) word |= 1 << b;
    return word;
  }
}

/** Samples of any type and number within a tolerance. */
class SampleMatcher implements Matcher {
  private readonly raster: Dense;
  private readonly rule: MatchRule;

  constructor(raster: Dense, rule: MatchRule) {
    this.raster = raster;
    this.rule = rule;
  }

  word(y: number, k: number): number {
    const { data, width, channels } = this.raster;
    const { value, tolerance, mayTake } = this.rule;
    const count = Math.min(32, width - 32 * k);
    const start = y * width + 32 * k;
    let word = 0;
    for (let b = 0; b < count; b++) {
      const p = start + b;
      let fits = true;
      for (let c = 0; c < channels && fits; c++) {
        // False for what is not a number on either side.
        fits = Math.abs(data[p * channels + c]! - value[c]!) <= tolerance[c]!;
      }
      if (fits && (mayTake === undefined || mayTake(p))) word |= 1 << b;
    }
    return word;
  }
}

class BarredMatcher implements Matcher {
  private readonly inner: Matcher;
  private readonly barrier: Packed;

  constructor(inner: Matcher, barrier: Packed) {
    this.inner = inner;
    this.barrier = barrier;
  }

  word(y: number, k: number): number {
    return this.inner.word(y, k) & ~this.barrier.words[y * this.barrier.stride + k]!;
  }
}
