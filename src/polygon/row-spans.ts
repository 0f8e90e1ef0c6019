import type { Band } from './band.ts';

/**
 * Reads the spans of inside pixels off a row of a band, `[spans[i], spans[i + 1])` for even i, and
 * empties the row. Gives the length of the list.
 *
 * ```text
 * flips   . 1 . . 1 . . 1 1
 * inside  . 1 1 1 . . . 1 .
 * ```
 *
 * A span that the last mark leaves open ends at `right`: an edge beyond is not marked. O(words + marks).
 */
export function takeSpans(
  band: Band,
  row: number,
  left: number,
  right: number,
  spans: Int32Array,
): number {
  const length =
    band.counts.length === 0
      ? takeFlips(band, row, left, spans)
      : takeTurns(band, row, left, spans);
  if ((length & 1) === 0) return length;
  if (spans[length - 1] === right) return length - 1;
  spans[length] = right;
  return length + 1;
}

/** Even-odd: every mark is an end of a span. */
function takeFlips({ stride, marks }: Band, row: number, left: number, spans: Int32Array): number {
  const begin = row * stride;
  let length = 0;
  for (let k = 0; k < stride; k++) {
    let rest = marks[begin + k]!;
    if (rest === 0) continue;
    marks[begin + k] = 0;
    const column = left + 32 * k;
    do {
      const p = Math.clz32(rest);
      rest &= 0x7fffffff >>> p;
      spans[length++] = column + p;
    } while (rest !== 0);
  }
  return length;
}

/** Nonzero: a span ends or begins where the sum of the counts comes to 0 or leaves it. */
function takeTurns(
  { stride, marks, counts }: Band,
  row: number,
  left: number,
  spans: Int32Array,
): number {
  const begin = row * stride;
  let length = 0;
  let winding = 0;
  for (let k = 0; k < stride; k++) {
    let rest = marks[begin + k]!;
    if (rest === 0) continue;
    marks[begin + k] = 0;
    const first = 32 * (begin + k);
    const column = left + 32 * k;
    do {
      const p = Math.clz32(rest);
      rest &= 0x7fffffff >>> p;
      const before = winding;
      winding += counts[first + p]!;
      counts[first + p] = 0;
      if (before === 0 ? winding !== 0 : winding === 0) spans[length++] = column + p;
    } while (rest !== 0);
  }
  return length;
}
