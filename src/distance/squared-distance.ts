/** Distances from here on are all given as this one, so that their squares fit in 31 bits. */
export const FARTHEST = 46_340;

/**
 * Squared Euclidean distance from every pixel to the nearest one that is not 0, between pixel
 * centres; 0 on those. Exact below `FARTHEST`²; what is farther, or has no such pixel in the
 * picture, gets `FARTHEST`². Outside the picture there is nothing to be near to.
 *
 * ```text
 * mask             squared distance
 * 0 0 0 0          5 4 5 8
 * 0 0 0 0          2 1 2 5
 * 0 1 0 0          1 0 1 4
 * ```
 *
 * The two phases of Meijster, Roerdink, Hesselink 2000, "A general algorithm for computing distance
 * transforms in linear time", DOI 10.1007/0-306-47025-X_36; the second is the lower envelope of
 * parabolas of Felzenszwalb, Huttenlocher 2012, "Distance transforms of sampled functions",
 * DOI 10.4086/toc.2012.v008a019, with whole numbers: a parabola takes over at a column, not at a
 * real abscissa. Here each run of zeros in a row is solved alone, which is exact, because the pixels
 * at its ends are nearer to all of it than anything in a column beyond them, and the downward half of
 * the first phase runs along with the second. A site outside the circle over the run between its
 * ends is left out: no column is nearest to it. A division is made only where a site stays.
 *
 * O(pixels) time; the result, 2 bytes per pixel and O(width).
 */
export function squaredDistance(data: Uint8Array, width: number, height: number): Int32Array {
  const squares = new Int32Array(width * height);
  eachSquaredRow(data, width, height, (row, y) => squares.set(row, y * width));
  return squares;
}

/**
 * The same row by row, from the last one up: `visit` sees the squares of row y, in storage that the
 * next row uses again. 2 bytes per pixel and O(width).
 */
export function eachSquaredRow(
  data: Uint8Array,
  width: number,
  height: number,
  visit: (row: Int32Array, y: number) => void,
): void {
  const above = distanceAbove(data, width, height);
  const near = new Int32Array(width);
  const below = new Int32Array(width).fill(FARTHEST);
  const envelope = new Envelope(width + 2);
  const squares = new Int32Array(width);
  for (let y = height - 1; y >= 0; y--) {
    const row = y * width;
    for (let x = 0; x < width; x++) {
      const up = above[row + x]!;
      const down = up === 0 ? 0 : Math.min(below[x]! + 1, FARTHEST);
      below[x] = down;
      near[x] = Math.min(up, down);
    }
    for (let x = 0; x < width; x++) {
      squares[x] = 0;
      if (near[x] === 0) continue;
      const from = x;
      while (x < width && near[x] !== 0) x++;
      envelope.solve(near, from, x, squares);
      if (x < width) squares[x] = 0;
    }
    visit(squares, y);
  }
}

/** The distance to the mask in the column, upwards; at most `FARTHEST`. */
function distanceAbove(data: Uint8Array, width: number, height: number): Uint16Array {
  const above = new Uint16Array(width * height);
  for (let x = 0; x < width; x++) above[x] = data[x] === 0 ? FARTHEST : 0;
  for (let i = width; i < above.length; i++) {
    above[i] = data[i] === 0 ? Math.min(above[i - width]! + 1, FARTHEST) : 0;
  }
  return above;
}

/** Lower envelope of the parabolas (x − site)² + square over the columns of one run. */
class Envelope {
  private readonly site: Int32Array;
  private readonly square: Int32Array;
  /** First column at which the parabola is the lowest. */
  private readonly first: Int32Array;

  constructor(capacity: number) {
    this.site = new Int32Array(capacity);
    this.square = new Int32Array(capacity);
    this.first = new Int32Array(capacity);
  }

  /** Writes the squares of the run `[from, to)`; `near` is the distance in the column. */
  solve(near: Int32Array, from: number, to: number, squares: Int32Array): void {
    const { site, square, first } = this;
    const left = from - 1;
    const closed = from > 0 && to < near.length;
    const last = Math.min(to, near.length - 1);
    let top = -1;
    for (let x = Math.max(left, 0); x <= last; x++) {
      const distance = near[x]!;
      const height = distance * distance;
      if (distance === FARTHEST || (closed && height > (x - left) * (to - x))) continue;
      let start = from;
      for (; top >= 0; top--) {
        // Taken from the left site on, so that numbers stay small in wide pictures.
        const step = x - site[top]!;
        const lead = step * step + height - square[top]!;
        if (lead < 2 * step * (first[top]! - site[top]!)) continue;
        start = site[top]! + 1 + (step === 1 ? lead >> 1 : Math.floor(lead / (2 * step)));
        break;
      }
      if (start >= to) continue;
      top++;
      site[top] = x;
      square[top] = height;
      first[top] = start;
    }
    const limit = FARTHEST * FARTHEST;
    if (top < 0) squares.fill(limit, from, to);
    for (let k = 0; k <= top; k++) {
      const end = k === top ? to : Math.min(first[k + 1]!, to);
      const low = square[k]!;
      let dx = first[k]! - site[k]!;
      for (let x = first[k]!; x < end; x++, dx++) squares[x] = Math.min(dx * dx + low, limit);
    }
  }
}
