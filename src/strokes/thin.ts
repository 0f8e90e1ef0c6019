import { maskArgument } from '../raster/arguments.ts';
import { type Packed, packMask } from '../raster/pack.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { Mask, MaskLike } from '../raster/types.ts';

/**
 * Thins ink to lines one pixel wide that run near its middle: the skeleton (skeletonize).
 *
 * ```text
 * ink                  skeleton
 * 1 1 1 1 1 1 1 1      . . . . . . . .
 * 1 1 1 1 1 1 1 1      . . . . . . . .
 * 1 1 1 1 1 1 1 1      . 1 1 1 1 1 1 .
 * 1 1 1 1 1 1 1 1      . . . . . . . .
 * 1 1 1 1 1 1 1 1      . . . . . . . .
 * ```
 *
 * Ink is 8-connected and paper 4-connected: every component of ink keeps exactly one component of
 * skeleton, every hole stays one hole. No further pixel could go without breaking that, but for the
 * ends of lines, which stay. The skeleton ends up to half a stroke's width before the stroke does.
 *
 * Layers are peeled off from the north, south, west and east in turn, each time all pixels at once
 * that have paper on that side, are simple and end no line (Rosenfeld 1975, "A characterization of
 * parallel thinning algorithms", Information and Control 29, 286-291; simple by the crossing number
 * of Yokoi, Toriwaki, Fukumura 1975, "An analysis of topological properties of digitized binary
 * pictures using local features"). Unlike there, only pixels beside the last layer are visited, so
 * the time is O(pixels) however wide the ink is; and 32 pixels of a packed row are judged at once.
 * A stroke of even width has two middles; the peeling order decides for one, so a turned mask may
 * give a skeleton that lies one pixel aside.
 *
 * Memory: 1 byte per pixel beside the result.
 *
 * @param mask - `[w, h]` of 0 or 1. What lies outside counts as paper.
 * @returns A mask of the same shape, a subset of the ink.
 * @throws TypeError or RangeError for a raster that is no mask.
 * @example
 * ```ts
 * import { raster, thinInk } from 'underink';
 * const bar = raster(new Uint8Array(40).fill(1), [8, 5]);
 * console.log(Array.from(thinInk(bar).data).join('').slice(16, 24)); // 01111110
 * ```
 */
export function thinInk(mask: MaskLike): Mask {
  const { data, width, height, channels } = maskArgument(mask, 'mask');
  const packed = packMask({ data, width, height, channels }, 'mask');
  const skeleton = new Uint8Array(width * height);
  const thin = thinPacked(packed);
  eachPlace(thin, (p) => {
    const y = Math.floor(p / thin.pitch) - 1;
    skeleton[y * width + p - (y + 1) * thin.pitch] = 1;
  });
  return raster(skeleton, [width, height]);
}

/**
 * A skeleton, a bit a pixel, within paper, so that every pixel of it has eight neighbors: pixel (x, y) is
 * place `(y + 1) · pitch + x`, and place p is bit `p & 31` of word `p >>> 5`.
 */
export interface Skeleton {
  readonly words: Int32Array;
  readonly pitch: number;
}

/** The skeleton of ink. */
export function thinDense(data: Uint8Array, width: number, height: number): Skeleton {
  return thinPacked(packMask({ data, width, height, channels: 1 }, 'ink'));
}

/** The same of packed ink. */
export function thinPacked(packed: Packed, tick?: Tick): Skeleton {
  return { words: peel(packed, tick), pitch: 32 * (packed.stride + 1) };
}

/** Visits the places of a skeleton, row by row. */
export function eachPlace({ words }: Skeleton, visit: (place: number) => void, tick?: Tick): void {
  for (let k = 0; k < words.length; k++) {
    if (tick !== undefined && k % TICK_PLACES === 0) tick(k / words.length);
    for (let word = words[k]!; word !== 0; word &= word - 1) {
      visit(32 * k + 31 - Math.clz32(word & -word));
    }
  }
}

/** Words between two ticks while places are visited. */
const TICK_PLACES = 128;

/** 1 where the skeleton has a place. */
export function bitAt(words: Int32Array, place: number): number {
  return (words[place >>> 5]! >>> (place & 31)) & 1;
}

/** Codes of neighborhoods whose middle may go: simple, and not the end of a line. */
export function isRemovable(code: number): boolean {
  return REMOVABLE[code] === 1;
}

/**
 * What a skeleton has of the eight neighbors of place p, as bits:
 *
 * ```text
 * 3 2 1
 * 4 p 0
 * 5 6 7
 * ```
 */
export function neighborCode({ words, pitch }: Skeleton, p: number): number {
  const up = p - pitch;
  const down = p + pitch;
  return (
    bitAt(words, p + 1) |
    (bitAt(words, up + 1) << 1) |
    (bitAt(words, up) << 2) |
    (bitAt(words, up - 1) << 3) |
    (bitAt(words, p - 1) << 4) |
    (bitAt(words, down - 1) << 5) |
    (bitAt(words, down) << 6) |
    (bitAt(words, down + 1) << 7)
  );
}

const REMOVABLE: Uint8Array = Uint8Array.from({ length: 256 }, (_, code) => {
  const bit = (k: number) => (code >> (k & 7)) & 1;
  let neighbors = 0;
  let crossings = 0;
  for (let k = 0; k < 8; k++) neighbors += bit(k);
  for (let k = 0; k < 8; k += 2) crossings += (1 - bit(k)) & (bit(k + 1) | bit(k + 2));
  return crossings === 1 && neighbors > 1 ? 1 : 0;
});

/** Words between two ticks. */
const TICK_WORDS = 0x3fff;

/**
 * Peels off layer by layer; gives what is left, with an empty word behind each row and an empty row
 * above and below, so that a word's neighbors are always there: word c of row y is
 * `(y + 1) · (stride + 1) + c`.
 *
 * The first layer is the contour. A pixel that stays is looked at again only when one of its
 * neighbors went, so each is looked at at most 36 times.
 */
function peel({ words, height, stride }: Packed, tick?: Tick): Int32Array {
  const pitch = stride + 1;
  const ink = new Int32Array(pitch * (height + 2) + 1);
  for (let y = 0; y < height; y++) {
    ink.set(words.subarray(y * stride, (y + 1) * stride), (y + 1) * pitch);
  }
  const layer = new Layer(ink, pitch);
  layer.addContour(height, partOf(tick, 0, 0.3));
  const sides = [NORTH, SOUTH, WEST, EAST];
  let left = 0.7;
  while (layer.size > 0) {
    for (const side of sides) {
      layer.remove(side, tick && (() => tick(1 - left)));
      tick?.(1 - left);
    }
    left *= 0.8;
    layer.next(tick && (() => tick(1 - left)));
  }
  return ink;
}

const NORTH = 0;
const SOUTH = 1;
const WEST = 2;
const EAST = 3;

/** The pixels that may go next, as bits, with a list of the words that have any. */
class Layer {
  /** Words with pixels of this layer. */
  size = 0;
  private readonly ink: Int32Array;
  private readonly pitch: number;
  private readonly listed: Int32Array;
  private readonly list: Int32Array;
  /** Pixels that went from this layer, and the words that they went from. */
  private readonly gone: Int32Array;
  private readonly goneList: Int32Array;
  private goneSize = 0;
  /** Pixels that go at once, and their words. */
  private readonly doomed: Int32Array;
  private readonly doomedList: Int32Array;

  constructor(ink: Int32Array, pitch: number) {
    this.ink = ink;
    this.pitch = pitch;
    this.listed = new Int32Array(ink.length);
    this.list = new Int32Array(ink.length);
    this.gone = new Int32Array(ink.length);
    this.goneList = new Int32Array(ink.length);
    this.doomed = new Int32Array(ink.length);
    this.doomedList = new Int32Array(ink.length);
  }

  /** Ink with paper on one of its four sides. */
  addContour(height: number, tick?: Tick): void {
    const { ink, pitch } = this;
    for (let y = 1; y <= height; y++) {
      if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
      for (let k = y * pitch; k < (y + 1) * pitch; k++) {
        const word = ink[k]!;
        if (word === 0) continue;
        const west = (word << 1) | (ink[k - 1]! >>> 31);
        const east = (word >>> 1) | (ink[k + 1]! << 31);
        this.add(k, ~(west & east & ink[k - pitch]! & ink[k + pitch]!));
      }
    }
  }

  /** Takes off, at once, all pixels of the layer that may go and have paper on a side. */
  remove(side: number, tick?: () => void): void {
    const { ink, pitch, listed, list, size, gone, goneList, doomed, doomedList } = this;
    let count = 0;
    for (let i = 0; i < size; i++) {
      if (tick !== undefined && (i & TICK_WORDS) === TICK_WORDS) tick();
      const k = list[i]!;
      const word = ink[k]!;
      let beside: number;
      if (side === NORTH) beside = ink[k - pitch]!;
      else if (side === SOUTH) beside = ink[k + pitch]!;
      else if (side === WEST) beside = (word << 1) | (ink[k - 1]! >>> 31);
      else beside = (word >>> 1) | (ink[k + 1]! << 31);
      const open = listed[k]! & word & ~beside;
      if (open === 0) continue;
      const going = open & removableBits(ink, k, pitch);
      if (going === 0) continue;
      doomed[count] = going;
      doomedList[count++] = k;
    }
    for (let i = 0; i < count; i++) {
      const k = doomedList[i]!;
      ink[k]! ^= doomed[i]!;
      if (gone[k] === 0) goneList[this.goneSize++] = k;
      gone[k]! |= doomed[i]!;
    }
  }

  /** Goes on to the ink around the pixels that went. */
  next(tick?: () => void): void {
    const { pitch, listed, list, gone, goneList, goneSize } = this;
    for (let i = 0; i < this.size; i++) listed[list[i]!] = 0;
    this.size = 0;
    for (let i = 0; i < goneSize; i++) {
      if (tick !== undefined && (i & TICK_WORDS) === TICK_WORDS) tick();
      const k = goneList[i]!;
      const bits = gone[k]!;
      gone[k] = 0;
      const wide = bits | (bits << 1) | (bits >>> 1);
      for (let row = k - pitch; row <= k + pitch; row += pitch) {
        this.add(row, wide);
        if ((bits & 1) !== 0) this.add(row - 1, 1 << 31);
        if (bits < 0) this.add(row + 1, 1);
      }
    }
    this.goneSize = 0;
  }

  private add(k: number, bits: number): void {
    const { ink, listed } = this;
    const added = bits & ink[k]!;
    if (added === 0) return;
    if (listed[k] === 0) this.list[this.size++] = k;
    listed[k]! |= added;
  }
}

/** `isRemovable` for the 32 pixels of a word, as bits. */
function removableBits(ink: Int32Array, k: number, pitch: number): number {
  const up = ink[k - pitch]!;
  const middle = ink[k]!;
  const down = ink[k + pitch]!;
  const e = (middle >>> 1) | (ink[k + 1]! << 31);
  const w = (middle << 1) | (ink[k - 1]! >>> 31);
  const ne = (up >>> 1) | (ink[k - pitch + 1]! << 31);
  const nw = (up << 1) | (ink[k - pitch - 1]! >>> 31);
  const se = (down >>> 1) | (ink[k + pitch + 1]! << 31);
  const sw = (down << 1) | (ink[k + pitch - 1]! >>> 31);
  // Crossings from paper to ink on the way round; exactly one means simple.
  const a = ~e & (ne | up);
  const b = ~up & (nw | w);
  const c = ~w & (sw | down);
  const d = ~down & (se | e);
  const one = (a ^ b ^ c ^ d) & ~((a & b) | (c & d));
  let some = e | ne;
  let two = e & ne;
  two |= some & up;
  some |= up;
  two |= some & nw;
  some |= nw;
  two |= some & w;
  some |= w;
  two |= some & sw;
  some |= sw;
  two |= some & down;
  some |= down;
  two |= some & se;
  return one & two;
}
