import type { Parts } from './parts.ts';

/** Whether most of what is stored is of other states: chosen. */
export function isCrowded({ runs: { from, to }, idOf, count, store }: Parts): boolean {
  let live = 0;
  for (let y = 0; y < from.length; y++) live += to[y]! - from[y]!;
  return store.used > 4 * live + 4096 || idOf.length > 4 * count + 4096;
}

/** The same with nothing else stored, and the parts as their own numbers. */
export function compacted(parts: Parts): Parts {
  const { runs, numbers, idOf, height, count } = parts;
  const from = new Int32Array(height);
  const to = new Int32Array(height);
  let used = 0;
  for (let y = 0; y < height; y++) {
    from[y] = used;
    used += runs.to[y]! - runs.from[y]!;
    to[y] = used;
  }
  const [start, end, own] = [new Int32Array(used), new Int32Array(used), new Int32Array(used)];
  for (let y = 0; y < height; y++) {
    for (let r = runs.from[y]!, k = from[y]!; r < runs.to[y]!; r++, k++) {
      start[k] = runs.start[r]!;
      end[k] = runs.end[r]!;
      own[k] = idOf[numbers[r]!]!;
    }
  }
  const store = { start, end, numbers: own, marks: new Int32Array(0), stamp: 0, used };
  const plain = Int32Array.from({ length: count + 1 }, (_, id) => id);
  return { ...parts, runs: { from, to, start, end }, numbers: own, idOf: plain, store };
}
