import { orderOf } from '../raster/order.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type { Proposal } from './proposals.ts';

/** How many proposals of an end are shorter, and a proposal's length beside the shortest of them. */
export function rankRivals(
  proposals: readonly Proposal[],
  ends: number,
  none: number,
  tick?: Tick,
): { rank: Float64Array; ratio: Float64Array } {
  const rank = new Float64Array(2 * proposals.length).fill(none);
  const ratio = new Float64Array(2 * proposals.length).fill(none);
  const lengths = new Float64Array(proposals.length);
  for (let k = 0; k < proposals.length; k++) lengths[k] = proposals[k]!.length;
  const order = orderOf(lengths, partOf(tick, 0, 0.5));
  const seen = new Int32Array(ends);
  const shortest = new Float64Array(ends);
  for (let i = 0; i < order.length; i++) {
    if (tick !== undefined && i % 4096 === 0) tick(0.5 + (0.5 * i) / order.length);
    const k = order[i]!;
    const { a, b, length } = proposals[k]!;
    for (let side = 0; side < 2; side++) {
      const end = side === 0 ? a : b;
      if (end < 0) continue;
      if (seen[end] === 0) shortest[end] = length;
      rank[2 * k + side] = seen[end]!++;
      ratio[2 * k + side] = length / shortest[end]!;
    }
  }
  return { rank, ratio };
}
