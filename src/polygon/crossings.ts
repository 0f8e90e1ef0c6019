import type { Band } from './band.ts';
import { type Edges, firstCenter } from './edges.ts';
import { isAtOrRight } from './exact-side.ts';

/**
 * Marks, in each row of `[from, to)` that an edge counts in, the first pixel whose center is at the
 * edge's crossing or right of it. `from` is the band's first row. O(rows).
 *
 * A crossing is computed in 7 rounded steps: 5 up to the product (3 in the slope, the difference of
 * rows, the product), whose size is at most |x1 − x0|, and x0 − ½ and the sum, of at most
 * max(|x0|, |x1|) + ½. Each is off by 2^-53 of its result at most, so the crossing is off by less
 * than 2^-50 · (|x0| + |x1| + 1); an underflow is lost in the 1, and coordinates within ±2^30 overflow
 * nothing, as an edge that counts in a row is at least 2^-54 high. Within twice that bound of a
 * center the exact predicate decides.
 */
export function markCrossings(edges: Edges, e: number, from: number, to: number, band: Band): void {
  const { left } = edges;
  const { stride, marks, counts } = band;
  const limit = edges.right - left;
  const x0 = edges.x0[e]!;
  const y0 = edges.y0[e]!;
  const x1 = edges.x1[e]!;
  const y1 = edges.y1[e]!;
  const turn = edges.turn[e]!;
  const begin = Math.max(from, edges.first[e]!);
  const end = Math.min(to, edges.last[e]!);
  const counting = counts.length > 0;
  let at = (begin - from) * stride;
  if (x0 === x1) {
    const p = firstCenter(x0, edges.right) - left;
    const bit = 0x80000000 >>> (p & 31);
    at += p >> 5;
    for (let y = begin; y < end; y++, at += stride) {
      if (counting) {
        marks[at]! |= bit;
        counts[32 * at + (p & 31)]! += turn;
      } else marks[at]! ^= bit;
    }
    return;
  }
  const slope = (x1 - x0) / (y1 - y0);
  const error = 2 ** -49 * (Math.abs(x0) + Math.abs(x1) + 1);
  const most = 1 - error;
  const start = x0 - 0.5;
  for (let y = begin; y < end; y++, at += stride) {
    const t = start + (y + 0.5 - y0) * slope;
    const above = Math.ceil(t);
    const beyond = above - t;
    let p = above | 0;
    if (beyond < error || beyond > most) {
      p = Math.round(t);
      if (!isAtOrRight(p + 0.5, y + 0.5, x0, y0, x1, y1)) p++;
    }
    p -= left;
    if (p < 0) p = 0;
    else if (p > limit) p = limit;
    const word = at + (p >> 5);
    const bit = 0x80000000 >>> (p & 31);
    if (counting) {
      marks[word]! |= bit;
      counts[32 * at + p]! += turn;
    } else marks[word]! ^= bit;
  }
}
