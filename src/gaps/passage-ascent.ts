import { IntList } from './int-list.ts';
import type { Levels } from './passage-levels.ts';

/**
 * The order in which a flood from the highest level down reaches the paper, and from where.
 *
 * Higher levels come first. Of equal ones, cells beside a higher cell come first, row by row; then
 * flat cells, in the order in which the flood spreads over the plateau.
 */
export interface Ascent {
  /**
   * By cell: the highest neighbor, if that is higher; −1 − n for flat cell n of the order; what
   * stands on ink and in the margin says nothing.
   */
  readonly toward: Int32Array;
  /** Flat cells in their order, and the neighbor from which each is reached; itself at a top. */
  readonly flat: Int32Array;
  readonly flatFrom: Int32Array;
}

/**
 * Finds for every cell of paper the neighbor from which a flood reaches it, ties to the one above,
 * then left, right, below. The flood spreads over a plateau from all its higher sides at once, so
 * that two of them meet in the middle of a passage of even width (the lower completion of Meyer
 * 1994, "Topographic distance and watershed lines", DOI 10.1016/0165-1684(94)90060-4); over one
 * without a higher side, from its first pixel. Nothing is sorted: what a flood decides at a cell
 * shows in its neighbours.
 *
 * O(pixels); 4 bytes per pixel and 12 per flat one, of which line art has few.
 */
export function ascend({ level, stride, width, height }: Levels): Ascent {
  const toward = new Int32Array(level.length);
  const flats = new IntList();
  for (let y = 0; y < height; y++) {
    const from = (y + 1) * stride;
    for (let p = from; p < from + width; p++) {
      let highest = level[p]!;
      if (highest === 0) continue;
      let best = -1;
      if (level[p - stride]! > highest) {
        highest = level[p - stride]!;
        best = p - stride;
      }
      if (level[p - 1]! > highest) {
        highest = level[p - 1]!;
        best = p - 1;
      }
      if (level[p + 1]! > highest) {
        highest = level[p + 1]!;
        best = p + 1;
      }
      if (level[p + stride]! > highest) best = p + stride;
      toward[p] = best;
      if (best < 0) flats.push(p);
    }
  }
  return { toward, ...spread(level, stride, toward, flats) };
}

/** Orders the flat cells; until one has its place, it points to −1 − all of them. */
function spread(
  level: Uint16Array,
  stride: number,
  toward: Int32Array,
  { data: flats, length }: IntList,
): { flat: Int32Array; flatFrom: Int32Array } {
  const flat = new Int32Array(length);
  const flatFrom = new Int32Array(length);
  const waiting = -1 - length;
  for (let i = 0; i < length; i++) toward[flats[i]!] = waiting;
  const steps = [-stride, -1, 1, stride];
  let tail = 0;
  for (let i = 0; i < length; i++) {
    const p = flats[i]!;
    for (let k = 0; k < 4; k++) {
      const q = p + steps[k]!;
      if (level[q] !== level[p] || toward[q]! < 0) continue;
      flatFrom[tail] = q;
      flat[tail++] = p;
      break;
    }
  }
  for (let n = 0; n < tail; n++) toward[flat[n]!] = -1 - n;
  let head = 0;
  for (let i = 0; ; i++) {
    while (head < tail) {
      const p = flat[head++]!;
      for (let k = 0; k < 4; k++) {
        const q = p + steps[k]!;
        if (level[q] !== level[p] || toward[q] !== waiting) continue;
        toward[q] = -1 - tail;
        flatFrom[tail] = p;
        flat[tail++] = q;
      }
    }
    while (i < length && toward[flats[i]!] !== waiting) i++;
    if (i >= length) return { flat, flatFrom };
    const top = flats[i]!;
    toward[top] = -1 - tail;
    flatFrom[tail] = top;
    flat[tail++] = top;
  }
}
