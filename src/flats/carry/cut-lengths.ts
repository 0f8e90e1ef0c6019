import { TICK_ROWS, type Tick } from '../../raster/progress.ts';
import { PairIndex } from '../../runs/pair-index.ts';
import type { PlacedIds } from './likeness.ts';
import { inverse, type Similarity } from './similarity.ts';

/**
 * How long the longest cut is that parts each new region from another of the same old one, in pixel
 * edges: of the border between the two, what lies where that old one had paper. A line across a region
 * cuts it over its width; where a thin place of the paper has closed the cut is short. O(pixels).
 *
 * @param labels - New regions, grown under the ink.
 * @param of - Old region of each, 0 for none.
 */
export function cutLengths(
  labels: Int32Array,
  width: number,
  of: Int32Array,
  old: PlacedIds,
  transform: Similarity,
  tick?: Tick,
): Int32Array {
  const { a, b, dx, dy } = inverse(transform);
  const pairs = new PairIndex();
  const height = labels.length / width;
  for (let y = 0, p = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    const below = y + 1 < height ? width : 0;
    for (let x = 0; x < width; x++, p++) {
      const id = labels[p]!;
      const right = x + 1 < width ? labels[p + 1]! : id;
      const under = labels[p + below]!;
      if (right === id && under === id) continue;
      const mine = of[id]!;
      if (mine === 0 || (of[right] !== mine && of[under] !== mine)) continue;
      const u = Math.floor(a * (x + 0.5) - b * (y + 0.5) + dx);
      const v = Math.floor(b * (x + 0.5) + a * (y + 0.5) + dy);
      if (u < 0 || v < 0 || u >= old.width || v >= old.height) continue;
      if (old.ids[v * old.width + u] !== mine) continue;
      if (right !== id && of[right] === mine)
        pairs.add(Math.min(id, right), Math.max(id, right), 1);
      if (under !== id && of[under] === mine)
        pairs.add(Math.min(id, under), Math.max(id, under), 1);
    }
  }
  const longest = new Int32Array(of.length);
  for (let k = 0; k < pairs.size; k++) {
    for (const id of [pairs.first[k]!, pairs.second[k]!]) {
      longest[id] = Math.max(longest[id]!, pairs.counts[k]!);
    }
  }
  return longest;
}
