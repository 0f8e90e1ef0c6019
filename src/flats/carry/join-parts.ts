import { TICK_ROWS, type Tick } from '../../raster/progress.ts';
import { unite } from '../../runs/union.ts';

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
  const parent = Int32Array.from(old, (_, id) => id);
  let joined = false;
  for (let p = 0; p < labels.length; p++) {
    if (tick !== undefined && p % (TICK_ROWS * width) === 0) tick((0.5 * p) / labels.length);
    if (ink[p] !== 0) continue;
    const id = labels[p]!;
    const right = (p + 1) % width === 0 ? id : labels[p + 1]!;
    const under = p + width < labels.length ? labels[p + width]! : id;
    if (right !== id && ink[p + 1] === 0 && old[right] === old[id] && old[id] !== 0) {
      unite(parent, right, id);
      joined = true;
    }
    if (under !== id && ink[p + width] === 0 && old[under] === old[id] && old[id] !== 0) {
      unite(parent, under, id);
      joined = true;
    }
  }
  if (!joined) return false;
  for (let id = 0; id < parent.length; id++) parent[id] = parent[parent[id]!]!;
  for (let p = 0; p < labels.length; p++) {
    if (tick !== undefined && p % (TICK_ROWS * width) === 0) tick(0.5 + (0.5 * p) / labels.length);
    labels[p] = parent[labels[p]!]!;
  }
  return true;
}
