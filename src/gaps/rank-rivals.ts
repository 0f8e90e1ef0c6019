import type { Proposal } from './proposals.ts';

/** How many proposals of an end are shorter, and a proposal's length beside the shortest of them. */
export function rankRivals(
  proposals: readonly Proposal[],
  ends: number,
  none: number,
): { rank: Float64Array; ratio: Float64Array } {
  const rank = new Float64Array(2 * proposals.length).fill(none);
  const ratio = new Float64Array(2 * proposals.length).fill(none);
  const order = Int32Array.from(proposals, (_, k) => k).sort(
    (p, q) => proposals[p]!.length - proposals[q]!.length || p - q,
  );
  const seen = new Int32Array(ends);
  const shortest = new Float64Array(ends);
  for (const k of order) {
    const { a, b, length } = proposals[k]!;
    for (const [place, end] of [
      [2 * k, a],
      [2 * k + 1, b],
    ] as const) {
      if (end < 0) continue;
      if (seen[end] === 0) shortest[end] = length;
      rank[place] = seen[end]!++;
      ratio[place] = length / shortest[end]!;
    }
  }
  return { rank, ratio };
}
