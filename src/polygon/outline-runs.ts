import type { Point } from '../raster/types.ts';
import type { Runs } from '../runs/runs.ts';

/** Corners of a region's border, and by corner the one that follows on its ring. */
interface Corners {
  readonly x: Int32Array;
  readonly y: Int32Array;
  readonly next: Int32Array;
  readonly count: number;
}

/**
 * The rings of one region, as `outlineRegions` gives them, from its maximal runs; row 0 of these is
 * row `y0` of the picture. O(runs).
 */
export function outlineOfRuns(runs: Runs, y0: number): Point[][] {
  const { x, y, next, count } = findCorners(runs);
  const rings: Point[][] = [];
  for (let first = 0; first < count; first++) {
    if (next[first]! < 0) continue;
    const ring: Point[] = [];
    for (let corner = first; next[corner]! >= 0; ) {
      ring.push([x[corner]!, y[corner]! + y0]);
      const after = next[corner]!;
      next[corner] = -1;
      corner = after;
    }
    rings.push(ring);
  }
  return rings;
}

/**
 * Merges the ends of the runs above and below each row of corners. An end that both have is a border
 * that goes straight on; any other is a corner, from which one border goes up or down and one to the
 * side: corners of a row are in pairs the ends of these. Where runs touch at a corner only, there are
 * two corners, the left one first. Borders have the region on their right, and the first corner of a
 * ring is its topmost, then leftmost one.
 *
 * ```text
 *   above   . # # # . .      ends 1, 4
 *   below   . # . . # .      ends 1, 2, 4, 5: corners at 2, 4, 4, 5
 * ```
 */
function findCorners({ rowStart, start, end }: Runs): Corners {
  const rows = rowStart.length - 1;
  const [x, y, next] = [0, 1, 2].map(() => new Int32Array(4 * start.length)) as [
    Int32Array,
    Int32Array,
    Int32Array,
  ];
  // Ends are numbered 2 · run, + 1 for the right one; by end, the corner where its border began.
  const began = new Int32Array(2 * start.length);
  const columnOf = (place: number): number =>
    (place & 1) === 0 ? start[place >> 1]! : end[place >> 1]!;
  let count = 0;
  for (let row = 0; row <= rows; row++) {
    const middle = 2 * rowStart[row]!;
    const stop = row < rows ? 2 * rowStart[row + 1]! : middle;
    let i = row > 0 ? 2 * rowStart[row - 1]! : middle;
    let j = middle;
    let isSecond = false;
    while (i < middle || j < stop) {
      const above = i < middle ? columnOf(i) : Number.POSITIVE_INFINITY;
      const below = j < stop ? columnOf(j) : Number.POSITIVE_INFINITY;
      if (above === below && ((i ^ j) & 1) === 0) {
        began[j++] = began[i++]!;
        continue;
      }
      // Within a pair the region is below where a run of the lower row is open.
      if (isSecond && (j & 1) === 1) next[count - 1] = count;
      if (isSecond && (j & 1) === 0) next[count] = count - 1;
      isSecond = !isSecond;
      if (above < below || (above === below && (i & 1) === 1)) {
        x[count] = above;
        if ((i & 1) === 0) next[count] = began[i]!;
        else next[began[i]!] = count;
        i++;
      } else {
        x[count] = below;
        began[j++] = count;
      }
      y[count++] = row;
    }
  }
  return { x, y, next, count };
}
