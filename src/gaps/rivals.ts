/** What tells whether two bridges are ways to close one gap. */
export interface Rival {
  /** Stroke ends at its two sides; -1 for none. */
  readonly a: number;
  readonly b: number;
  readonly pixels: Int32Array;
}

/**
 * Groups bridges, which come best first, by gap: each joins the first better one that it crosses or
 * that begins at a stroke's end where it does too, if that leads a group; else it leads one itself.
 * O(pixels of the bridges).
 */
export function groupRivals(bridges: readonly Rival[]): Int32Array {
  const groups = new Int32Array(bridges.length);
  const byEnd = new Map<number, number>();
  const byPixel = new Map<number, number>();
  let count = 0;
  bridges.forEach(({ a, b, pixels }, k) => {
    let leader = -1;
    const meet = (one: number | undefined) => {
      if (one !== undefined && (leader < 0 || one < leader)) leader = one;
    };
    if (a >= 0) meet(byEnd.get(a));
    if (b >= 0) meet(byEnd.get(b));
    for (const p of pixels) meet(byPixel.get(p));
    if (leader >= 0) {
      groups[k] = groups[leader]!;
      return;
    }
    groups[k] = count++;
    if (a >= 0) byEnd.set(a, k);
    if (b >= 0) byEnd.set(b, k);
    for (const p of pixels) byPixel.set(p, k);
  });
  return groups;
}
