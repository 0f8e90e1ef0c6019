import type { Edges } from './edges.ts';

/** Words of marks in a band: 32 KiB, so that they stay in the nearest cache. */
const MARK_WORDS = 8192;
/** Winding counts in a band: 256 KiB, for the second cache. */
const COUNTS = 65_536;

/** Which pixels of a band of rows the edges cross at. Column 0 is the leftmost that can be inside. */
export interface Band {
  readonly rows: number;
  /** Words from row to row. */
  readonly stride: number;
  /** A mark for each column, the highest bit first: the leftmost of a word is `Math.clz32`. */
  readonly marks: Int32Array;
  /** Winding that begins at each marked column; empty under `evenodd`, where a mark is a flip. */
  readonly counts: Int32Array;
}

/** An empty band as wide as the edges reach, of as many rows as the caches hold. */
export function createBand({ left, right, top, bottom }: Edges, counting: boolean): Band {
  // Crossings right of everything are marked at column right - left, too.
  const stride = ((right - left) >>> 5) + 1;
  const fit = counting ? COUNTS / (32 * stride) : MARK_WORDS / stride;
  const rows = Math.max(1, Math.min(bottom - top, Math.floor(fit)));
  const words = rows * stride;
  return {
    rows,
    stride,
    marks: new Int32Array(words),
    counts: new Int32Array(counting ? 32 * words : 0),
  };
}
