import { IntList } from '../raster/int-list.ts';
import { partOf, TICK_PIXELS, TICK_ROWS, TICK_STEPS, type Tick } from '../raster/progress.ts';
import type { Scratch } from '../raster/scratch.ts';
import type { Levels } from './levels.ts';

/**
 * The order in which a flood from the highest level down reaches the paper, and from where.
 *
 * Higher levels come first. Of equal ones, cells beside a higher cell come first, row by row; then
 * flat cells, in the order in which the flood spreads over the plateau.
 */
export interface Ascent {
  /**
   * By cell: ~q where neighbor q is the highest, and higher than the cell; n for flat cell n of the
   * order; 0 on ink and in the margin.
   */
  readonly toward: Int32Array;
  /** Flat cells in their order, and the neighbor from which each is reached; itself at a top. */
  readonly flat: Int32Array;
  readonly flatFrom: Int32Array;
  /** Cells beside a higher one at which arms of the flood meet, were no neighbor of equal level flat. */
  readonly forks: Int32Array;
}

/**
 * Where the arms of the flood begin at a cell: bit 0 up, 1 right, 2 down, 3 left; 0 for fewer than
 * two. By the neighbors that the flood reaches before, as bits:
 *
 * ```text
 * 7 0 1
 * 6 p 2
 * 5 4 3
 * ```
 *
 * An arm begins where the way round the next corner to the next neighbor is broken.
 */
export const ARMS: Uint8Array = Uint8Array.from({ length: 256 }, (_, code) => {
  let arms = 0;
  for (let k = 0; k < 8; k += 2) {
    const on = (code >> (k + 1)) & (code >> ((k + 2) & 7)) & 1;
    arms |= ((code >> k) & 1 & ~on) << (k >> 1);
  }
  return (arms & (arms - 1)) === 0 ? 0 : arms;
});

/**
 * Finds for every cell of paper the neighbor from which a flood reaches it, ties to the one above,
 * then left, right, below. The flood spreads over a plateau from all its higher sides at once, so
 * that two of them meet in the middle of a passage of even width (the lower completion of Meyer
 * 1994, "Topographic distance and watershed lines", DOI 10.1016/0165-1684(94)90060-4); over one
 * without a higher side, from its first pixel. Nothing is sorted: what a flood decides at a cell
 * shows in its neighbors.
 *
 * O(pixels); 4 bytes per pixel and 12 per flat one, of which line art has few.
 */
export function ascend(
  { level, stride, width, height }: Levels,
  tick?: Tick,
  scratch?: Scratch,
): Ascent {
  const toward = scratch?.int32(level.length) ?? new Int32Array(level.length);
  let flats = 0;
  const forks = new IntList();
  const steps = Int32Array.of(stride, 1, -1, -stride);
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick((0.7 * y) / height);
    const from = (y + 1) * stride;
    let upLeft = 0;
    let up = level[from - stride]!;
    let left = 0;
    let v = level[from]!;
    let downLeft = 0;
    let down = level[from + stride]!;
    for (let p = from; p < from + width; p++) {
      const upRight = level[p - stride + 1]!;
      const right = level[p + 1]!;
      const downRight = level[p + stride + 1]!;
      if (v !== 0) {
        // The highest neighbor, with its number in the last bits; the differences have no branches.
        let best = (up << 2) | 3;
        let more = best - ((left << 2) | 2);
        best -= more & (more >> 31);
        more = best - ((right << 2) | 1);
        best -= more & (more >> 31);
        more = best - (down << 2);
        best -= more & (more >> 31);
        if (best >> 2 <= v) flats++;
        else {
          toward[p] = ~(p + steps[best & 3]!);
          // Of equal levels, those in front count as reached before.
          const least = v - 1;
          const code =
            ((least - up) >>> 31) |
            (((least - upRight) >>> 31) << 1) |
            (((v - right) >>> 31) << 2) |
            (((v - downRight) >>> 31) << 3) |
            (((v - down) >>> 31) << 4) |
            (((v - downLeft) >>> 31) << 5) |
            (((least - left) >>> 31) << 6) |
            (((least - upLeft) >>> 31) << 7);
          if (ARMS[code] !== 0) forks.push(p);
        }
      }
      upLeft = up;
      up = upRight;
      left = v;
      v = right;
      downLeft = down;
      down = downRight;
    }
  }
  const cells = flatCells(level, toward, flats, partOf(tick, 0.7, 0.75));
  const flat = spread(level, stride, toward, cells, partOf(tick, 0.75, 1));
  return { toward, ...flat, forks: forks.data.subarray(0, forks.length) };
}

/** The so many cells of paper that have no higher neighbor, row by row. */
function flatCells(
  level: Uint16Array,
  toward: Int32Array,
  count: number,
  tick: Tick | undefined,
): Int32Array {
  const flats = new Int32Array(count);
  for (let p = 0, i = 0; i < count; p++) {
    if (tick !== undefined && p % TICK_PIXELS === 0) tick(p / level.length);
    if (toward[p] === 0 && level[p] !== 0) flats[i++] = p;
  }
  return flats;
}

/** Orders the flat cells; until one has its place, it has the number of all of them. */
function spread(
  level: Uint16Array,
  stride: number,
  toward: Int32Array,
  flats: Int32Array,
  tick: Tick | undefined,
): { flat: Int32Array; flatFrom: Int32Array } {
  const { length } = flats;
  const flat = new Int32Array(length);
  const flatFrom = new Int32Array(length);
  const waiting = length;
  for (let i = 0; i < length; i++) {
    if (i % TICK_STEPS === 0) tick?.(0);
    toward[flats[i]!] = waiting;
  }
  const steps = [-stride, -1, 1, stride];
  let tail = 0;
  for (let i = 0; i < length; i++) {
    if (i % TICK_STEPS === 0) tick?.((0.5 * i) / length);
    const p = flats[i]!;
    for (let k = 0; k < 4; k++) {
      const q = p + steps[k]!;
      if (level[q] !== level[p] || toward[q]! >= 0) continue;
      flatFrom[tail] = q;
      flat[tail++] = p;
      break;
    }
  }
  for (let n = 0; n < tail; n++) {
    if (n % TICK_STEPS === 0) tick?.(0.5);
    toward[flat[n]!] = n;
  }
  let head = 0;
  for (let i = 0; ; i++) {
    while (head < tail) {
      if (head % TICK_STEPS === 0) tick?.(0.5 + (0.5 * head) / length);
      const p = flat[head++]!;
      for (let k = 0; k < 4; k++) {
        const q = p + steps[k]!;
        if (level[q] !== level[p] || toward[q] !== waiting) continue;
        toward[q] = tail;
        flatFrom[tail] = p;
        flat[tail++] = q;
      }
    }
    while (i < length && toward[flats[i]!] !== waiting) i++;
    if (i >= length) return { flat, flatFrom };
    const top = flats[i]!;
    toward[top] = tail;
    flatFrom[tail] = top;
    flat[tail++] = top;
  }
}
