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
 * at its ends are nearer to all of it than anything in a column beyond them, and the upward half of
 * the first phase runs along with the second.
 *
 * O(pixels) time; the result and O(width).
 */
export function squaredDistance(data: Uint8Array, width: number, height: number): Int32Array {
  const squares = new Int32Array(width * height);
  storeDistanceAbove(data, width, height, squares);
  const below = new Int32Array(width).fill(FARTHEST);
  const envelope = new Envelope(width + 2);
  for (let y = height - 1; y >= 0; y--) {
    const row = y * width;
    for (let x = 0; x < width; x++) {
      if (squares[row + x] === 0) {
        below[x] = 0;
        continue;
      }
      const from = x;
      if (from > 0) envelope.offer(from - 1, 0, from, width);
      for (; x < width && squares[row + x] !== 0; x++) {
        let near = squares[row + x]!;
        const down = below[x]! + 1;
        if (down <= FARTHEST) {
          below[x] = down;
          if (down < near) near = down;
        }
        if (near < FARTHEST) envelope.offer(x, near * near, from, width);
      }
      if (x < width) {
        envelope.offer(x, 0, from, x);
        below[x] = 0;
      }
      envelope.write(squares, row, from, x);
    }
  }
  return squares;
}

/** The distance to the mask in the column, upwards. */
function storeDistanceAbove(
  data: Uint8Array,
  width: number,
  height: number,
  squares: Int32Array,
): void {
  for (let x = 0; x < width; x++) squares[x] = data[x] === 0 ? FARTHEST : 0;
  for (let y = 1; y < height; y++) {
    const row = y * width;
    for (let i = row; i < row + width; i++) {
      const above = squares[i - width]!;
      squares[i] = data[i] !== 0 ? 0 : above < FARTHEST ? above + 1 : above;
    }
  }
}

/** Lower envelope of the parabolas (x − site)² + square over the columns of one run. */
class Envelope {
  private readonly site: Int32Array;
  private readonly square: Int32Array;
  /** First column at which the parabola is the lowest. */
  private readonly first: Int32Array;
  private top = -1;

  constructor(capacity: number) {
    this.site = new Int32Array(capacity);
    this.square = new Int32Array(capacity);
    this.first = new Int32Array(capacity);
  }

  /** Adds a site to the right of all before it; only columns `[from, to)` matter. */
  offer(at: number, height: number, from: number, to: number): void {
    const { site, square, first } = this;
    let k = this.top;
    let start = from;
    while (k >= 0) {
      const left = site[k]!;
      const step = at - left;
      // Taken from the left site on, so that numbers stay small in wide pictures.
      start = left + Math.floor((step * step + height - square[k]!) / (2 * step)) + 1;
      if (start > first[k]!) break;
      k--;
      start = from;
    }
    if (start < to) {
      k++;
      site[k] = at;
      square[k] = height;
      first[k] = start;
    }
    this.top = k;
  }

  /** Writes the lowest values of columns `[from, to)`; the envelope is empty afterwards. */
  write(squares: Int32Array, row: number, from: number, to: number): void {
    const { site, square, first, top } = this;
    const limit = FARTHEST * FARTHEST;
    if (top < 0) squares.fill(limit, row + from, row + to);
    for (let k = 0; k <= top; k++) {
      const end = k === top ? to : Math.min(first[k + 1]!, to);
      const low = square[k]!;
      let dx = first[k]! - site[k]!;
      for (let x = first[k]!; x < end; x++, dx++) {
        squares[row + x] = Math.min(dx * dx + low, limit);
      }
    }
    this.top = -1;
  }
}
