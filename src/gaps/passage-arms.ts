import type { Ascent } from './passage-ascent.ts';
import type { Levels } from './passage-levels.ts';

/** Cells that the flood reaches by several arms, in the order of the flood. */
export interface Crossings {
  readonly cell: Int32Array;
  /** Where the arms begin: bit 0 up, 1 right, 2 down, 3 left. */
  readonly arms: Uint8Array;
}

/**
 * Finds the cells at which separate arms of the flood meet: among the eight neighbours that the
 * flood reaches before, there is more than one 4-connected part that touches the cell by a side.
 * Only there do components of the flood join or loops close.
 *
 * O(pixels + crossings · log); 8 bytes per crossing while sorted.
 */
export function findCrossings(levels: Levels, ascent: Ascent): Crossings {
  const { level, stride, width, height } = levels;
  const { toward } = ascent;
  const size = level.length;
  let keys = new Float64Array(1024);
  let count = 0;
  for (let y = 0; y < height; y++) {
    const from = (y + 1) * stride;
    for (let p = from; p < from + width; p++) {
      const v = level[p]!;
      if (v === 0) continue;
      const up = before(level, toward, p - stride, p, v);
      const right = before(level, toward, p + 1, p, v);
      const down = before(level, toward, p + stride, p, v);
      const left = before(level, toward, p - 1, p, v);
      if (up + right + down + left < 2) continue;
      // An arm begins where the way round the next corner to the next neighbor is broken.
      let arms = up & ~(right && before(level, toward, p - stride + 1, p, v));
      arms |= (right & ~(down && before(level, toward, p + stride + 1, p, v))) << 1;
      arms |= (down & ~(left && before(level, toward, p + stride - 1, p, v))) << 2;
      arms |= (left & ~(up && before(level, toward, p - stride - 1, p, v))) << 3;
      if ((arms & (arms - 1)) === 0) continue;
      if (count === keys.length) keys = enlarged(keys);
      const place = toward[p]! >= 0 ? p : size - 1 - toward[p]!;
      keys[count++] = ((0xffff - v) * 2 ** 32 + place) * 16 + arms;
    }
  }
  return unpack(keys.subarray(0, count).sort(), size, ascent.flat);
}

/** 1 where the flood reaches cell q before cell p, whose level is v. */
function before(level: Uint16Array, toward: Int32Array, q: number, p: number, v: number): number {
  const w = level[q]!;
  if (w !== v) return w > v ? 1 : 0;
  const a = toward[q]!;
  const b = toward[p]!;
  if (a >= 0) return b < 0 || q < p ? 1 : 0;
  return a > b && b < 0 ? 1 : 0;
}

function enlarged(keys: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(2 * keys.length);
  larger.set(keys);
  return larger;
}

/** Keys hold the level, then the cell's place in the order of its level, then the arms: 52 bits. */
function unpack(keys: Float64Array, size: number, flat: Int32Array): Crossings {
  const cell = new Int32Array(keys.length);
  const arms = new Uint8Array(keys.length);
  for (let i = 0; i < keys.length; i++) {
    const rest = Math.floor(keys[i]! / 16);
    arms[i] = keys[i]! - 16 * rest;
    const place = rest - Math.floor(rest / 2 ** 32) * 2 ** 32;
    cell[i] = place < size ? place : flat[place - size]!;
  }
  return { cell, arms };
}
