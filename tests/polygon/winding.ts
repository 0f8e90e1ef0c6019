/** Exact fractions: numerator over 2^bits. */
const BITS = 1100n;

/** A double as a whole number of 2^-1100. */
export function exact(value: number): bigint {
  let scaled = value;
  let bits = 0n;
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    bits++;
  }
  return BigInt(scaled) << (BITS - bits);
}

/**
 * Winding number of rings round the center of a pixel, moved right by ε and down by δ, δ ≪ ε ≪ 1: what
 * the top-left rule amounts to. Whole numbers of any length throughout, edge by edge.
 */
export function windingAt(
  rings: readonly (readonly (readonly [number, number])[])[],
  x: number,
  y: number,
): number {
  const px = exact(x + 0.5);
  const py = exact(y + 0.5);
  let winding = 0;
  for (const ring of rings) {
    ring.forEach((b, i) => {
      const a = ring[(i + ring.length - 1) % ring.length]!;
      const [ax, ay, bx, by] = [exact(a[0]), exact(a[1]), exact(b[0]), exact(b[1])];
      // Moved down, a center on a level with a vertex lies below it.
      const spans = ay <= py && py < by ? 1 : by <= py && py < ay ? -1 : 0;
      if (spans === 0) return;
      // Moved right, a center on the edge lies right of it.
      const side = (px - ax) * (by - ay) - (py - ay) * (bx - ax);
      if (spans === 1 ? side >= 0n : side <= 0n) winding += spans;
    });
  }
  return winding;
}
