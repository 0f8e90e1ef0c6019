import { TICK_PIXELS, TICK_ROWS, type Tick } from '../../raster/progress.ts';
import { singleSets, unite } from '../../runs/union.ts';

/**
 * Makes new regions one that are parts of one old region and meet on bare paper: only a bridge parts
 * them, which the old regions show to be none. Changes `labels` and `old`, which holds the old region of
 * each. The lowest id stays. O(pixels).
 */
export function joinParts(
  labels: Int32Array,
  ink: Uint8Array,
  width: number,
  old: Int32Array,
  tick?: Tick,
): boolean {
  const parent = singleSets(old.length);
  let joined = false;
  const height = labels.length / width;
  for (let y = 0, p = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick((0.5 * y) / height);
    const below = y + 1 < height ? width : 0;
    for (let x = 0; x < width; x++, p++) {
      if (ink[p] !== 0) continue;
      const id = labels[p]!;
      const right = x + 1 < width && ink[p + 1] === 0 ? labels[p + 1]! : id;
      const under = ink[p + below] === 0 ? labels[p + below]! : id;
      if (right === id && under === id) continue;
      for (const other of [right, under]) {
        if (other === id || old[other] !== old[id] || old[id] === 0) continue;
        unite(parent, other, id);
        joined = true;
      }
    }
  }
  if (!joined) return false;
  for (let id = 0; id < parent.length; id++) parent[id] = parent[parent[id]!]!;
  for (let p = 0; p < labels.length; p++) {
    if (tick !== undefined && p % TICK_PIXELS === 0) tick(0.5 + (0.5 * p) / labels.length);
    labels[p] = parent[labels[p]!]!;
  }
  return true;
}
