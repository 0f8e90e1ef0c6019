import type { Rings } from './rings-argument.ts';

/** The edges of rings that can decide a pixel of a raster, by number. */
export interface Edges {
  readonly count: number;
  /** Upper end, then lower end: y0 < y1. */
  readonly x0: Float64Array;
  readonly y0: Float64Array;
  readonly x1: Float64Array;
  readonly y1: Float64Array;
  /** Rows `[first, last)` whose centers have y0 <= yc < y1, cut to the raster. */
  readonly first: Int32Array;
  readonly last: Int32Array;
  /** 1 where the ring goes down along the edge, -1 where it goes up. */
  readonly turn: Int8Array;
  /** Columns `[left, right)` and rows `[top, bottom)` outside of which no pixel is inside. */
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * Collects the edges of rings. Level edges and those between two rows of centers decide nothing;
 * nor do those wholly right of the raster. O(points).
 */
export function collectEdges(rings: Rings, width: number, height: number): Edges {
  let most = 0;
  for (let r = 0; r < rings.length; r++) most += rings[r]!.length;
  const x0 = new Float64Array(most);
  const y0 = new Float64Array(most);
  const x1 = new Float64Array(most);
  const y1 = new Float64Array(most);
  const first = new Int32Array(most);
  const last = new Int32Array(most);
  const turn = new Int8Array(most);
  let count = 0;
  let lowX = Number.POSITIVE_INFINITY;
  let highX = Number.NEGATIVE_INFINITY;
  let top = height;
  let bottom = 0;
  for (let r = 0; r < rings.length; r++) {
    const ring = rings[r]!;
    if (ring.length < 3) continue;
    let ax = ring[ring.length - 1]![0];
    let ay = ring[ring.length - 1]![1];
    for (let i = 0; i < ring.length; i++) {
      const bx = ring[i]![0];
      const by = ring[i]![1];
      const down = ay < by;
      const from = firstCenter(down ? ay : by, height);
      const to = firstCenter(down ? by : ay, height);
      if (from < to) {
        lowX = Math.min(lowX, ax, bx);
        highX = Math.max(highX, ax, bx);
        top = Math.min(top, from);
        bottom = Math.max(bottom, to);
        if (ax < width || bx < width) {
          x0[count] = down ? ax : bx;
          y0[count] = down ? ay : by;
          x1[count] = down ? bx : ax;
          y1[count] = down ? by : ay;
          first[count] = from;
          last[count] = to;
          turn[count] = down ? 1 : -1;
          count++;
        }
      }
      ax = bx;
      ay = by;
    }
  }
  const left = firstCenter(lowX, width);
  const right = firstCenter(highX, width);
  return { count, x0, y0, x1, y1, first, last, turn, left, right, top, bottom };
}

/**
 * The first pixel whose center is at `v` or beyond, cut to `[0, size]`.
 *
 * Exact, although v − ½ may be rounded: for v >= ¼ it is not (up to 1 the two are within a factor of
 * 2; above, ½ is a multiple of the last place of v), and what a smaller v gives is at most 0 and cut
 * to 0, as it must be.
 */
export function firstCenter(v: number, size: number): number {
  const pixel = Math.ceil(v - 0.5);
  return pixel <= 0 ? 0 : Math.min(pixel, size);
}
