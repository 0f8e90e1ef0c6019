import { TICK_STEPS, type Tick } from './progress.ts';

/** Places that are put in order by insertion before any are merged: chosen. */
const SHORT = 16;

/**
 * The places 0, 1, 2, … of keys in the order of the keys, the least first; equal ones stay as they come.
 * No key is NaN.
 *
 * Merged from short stretches upwards, so that progress can be told in the middle of it, which a sort of
 * the engine's does not let happen. O(n · log n); 8 bytes per key.
 */
export function orderOf(keys: Float64Array, tick?: Tick): Int32Array {
  const { length } = keys;
  let order = new Int32Array(length);
  for (let i = 0; i < length; i++) order[i] = i;
  for (let from = 0; from < length; from += SHORT) {
    if (tick !== undefined && from % TICK_STEPS === 0) tick(0);
    insert(keys, order, from, Math.min(length, from + SHORT));
  }
  let merged = new Int32Array(length);
  for (let size = SHORT; size < length; size *= 2) {
    let [i, k, last, end] = [0, 0, 0, 0];
    for (let n = 0; n < length; n++) {
      if (tick !== undefined && n % TICK_STEPS === 0) tick(Math.min(1, size / length));
      if (n === end) [i, last, k, end] = [n, n + size, n + size, n + 2 * size];
      const first = i < last && i < length;
      const second = k < end && k < length;
      const takes = first && (!second || keys[order[i]!]! <= keys[order[k]!]!);
      merged[n] = takes ? order[i++]! : order[k++]!;
    }
    [order, merged] = [merged, order];
  }
  return order;
}

function insert(keys: Float64Array, order: Int32Array, from: number, to: number): void {
  for (let i = from + 1; i < to; i++) {
    const place = order[i]!;
    let k = i;
    for (; k > from && keys[order[k - 1]!]! > keys[place]!; k--) order[k] = order[k - 1]!;
    order[k] = place;
  }
}
