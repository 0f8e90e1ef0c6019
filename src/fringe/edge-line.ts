import type { Mixer } from './mixer.ts';

/** Most columns looked at on each side of a pixel. */
const FAR = 5;
/** Rows looked at above and below the place where an edge is expected. */
const ACROSS = 3;
/** No more columns are taken once the edge's height differs by so many pixels among them. */
const ENOUGH = 1;
/** Rasterizers with four rows of samples a pixel are off by no more than this in an edge's height. */
const ROUNDING = 0.125;
/** Shares are rounded to whole parts of this, whose sums are exact in any order. */
const GRAINS = 4096;
/** An edge whose height changes by more than this from one column to the next is followed no more. */
const STEEPEST = 1.5;

/**
 * Where an edge between two colors runs near a blended pixel, found from the shares of its
 * neighbors: each column's shares add up to the height of the edge in it, and a parabola fitted to
 * the heights of several columns is finer than the few levels of coverage that rasterizers have.
 * Where the edge is steeper than 45°, rows and columns change places. The heights are those of the volume-of-fluid method (Hirt, Nichols 1981, "Volume of fluid (VOF)
 * method for the dynamics of free boundaries", DOI 10.1016/0021-9991(81)90145-5).
 *
 * ```text
 * shares of b     height of b    so the second column has less than ½ of b, the third more
 * 0  0  0  ¼
 * ¼  ½  ½  1      ¼ ½ ½ 1¼
 * 1  1  1  1
 * ```
 */
export class EdgeLine {
  private readonly mixer: Mixer;
  private readonly width: number;
  private readonly height: number;
  private readonly tolerance: number;
  private readonly heights = new Float64Array(2 * FAR + 1);
  private a = 0;
  private b = 0;
  /** The pixel that is asked for. */
  private pixel = 0;
  /** From a pixel to the next row towards b, and the rows that the picture has on either side. */
  private step = 0;
  private rowsBefore = 0;
  private rowsAfter = 0;
  /** What `measure` found. */
  private position = 0;

  constructor(mixer: Mixer, width: number, height: number, tolerance: number) {
    this.mixer = mixer;
    this.width = width;
    this.height = height;
    this.tolerance = tolerance;
  }

  /** Share of b in a pixel by the edge through it; the given one where no edge is seen. */
  share(i: number, a: number, b: number, given: number): number {
    const { width, height } = this;
    const share = Math.round(GRAINS * given) / GRAINS;
    const x = i % width;
    const y = (i - x) / width;
    if (x === 0 || y === 0 || x === width - 1 || y === height - 1) return share;
    this.a = a;
    this.b = b;
    const nw = this.at(i - width - 1, share);
    const ne = this.at(i - width + 1, share);
    const sw = this.at(i + width - 1, share);
    const se = this.at(i + width + 1, share);
    const east = this.at(i + 1, share) - this.at(i - 1, share);
    const south = this.at(i + width, share) - this.at(i - width, share);
    const dx = ne + se - nw - sw + 2 * east;
    const dy = sw + se - nw - ne + 2 * south;
    if (dx === 0 && dy === 0) return share;
    const steep = Math.abs(dx) - Math.abs(dy);
    if (steep > 0) return this.across(i, share, true, dx);
    if (steep < 0) return this.across(i, share, false, dy);
    return (this.across(i, share, true, dx) + this.across(i, share, false, dy)) / 2;
  }

  /**
   * The same with the heights of columns or, where the edge is `tall`, with those of rows. The sign of
   * `rise` tells on which side b lies.
   */
  private across(i: number, share: number, tall: boolean, rise: number): number {
    const { width, height } = this;
    const x = i % width;
    const y = (i - x) / width;
    const [place, rows] = tall ? [x, width] : [y, height];
    this.pixel = i;
    this.step = (tall ? 1 : width) * (rise > 0 ? 1 : -1);
    this.rowsBefore = rise > 0 ? place : rows - 1 - place;
    this.rowsAfter = rows - 1 - this.rowsBefore;
    if (!this.measure(i, 0)) return share;
    this.heights[FAR] = this.position;
    const along = tall ? width : 1;
    const before = this.follow(-1, -along, tall ? y : x);
    const after = this.follow(1, along, tall ? height - 1 - y : width - 1 - x);
    const edge = this.fit(before, after);
    return Math.abs(edge - this.heights[FAR]!) > ROUNDING ? share : 1 - edge;
  }

  private at(i: number, otherwise: number): number {
    const share = this.shareAt(i);
    return share < 0 ? otherwise : share;
  }

  /** Share of b in a pixel, rounded to grains; -1 where it is no mix of the two. */
  private shareAt(i: number): number {
    return Math.round(GRAINS * this.mixer.shareOf(i, this.a, this.b, this.tolerance)) / GRAINS;
  }

  /** Fills in the heights of the columns on one side, as far as the edge can be followed; their number. */
  private follow(side: number, step: number, columns: number): number {
    const most = Math.min(columns, FAR);
    let last = this.heights[FAR]!;
    for (let k = 1; k <= most; k++) {
      if (!this.measure(this.pixel + k * step, Math.floor(last))) return k - 1;
      if (Math.abs(this.position - last) > STEEPEST) return k - 1;
      last = this.position;
      this.heights[FAR + side * k] = last;
    }
    return most;
  }

  /**
   * Leaves in `position` the height of the edge in the column of pixel j, in rows from that of the
   * pixel asked for: the shares of b are added up from the last row that is all a to the first that is
   * all b. False where a row between is no mix of the two, or either lies too far from row `from`.
   */
  private measure(j: number, from: number): boolean {
    const { step } = this;
    const least = Math.max(from - ACROSS, -this.rowsBefore);
    const most = Math.min(from + ACROSS, this.rowsAfter);
    let sum = 0;
    let row = from;
    for (; ; row--) {
      if (row < least || row > most) return false;
      const share = this.shareAt(j + row * step);
      if (share < 0) return false;
      if (share === 0) break;
      sum += share;
    }
    for (row = from + 1; ; row++) {
      if (row > most) return false;
      const share = this.shareAt(j + row * step);
      if (share < 0) return false;
      if (share === 1) break;
      sum += share;
    }
    this.position = row - sum;
    return true;
  }

  /**
   * Height of the edge at the pixel by a parabola through two columns on each side, or as many more
   * as it takes for the height to differ by `ENOUGH` among them.
   */
  private fit(before: number, after: number): number {
    const { heights } = this;
    let low = heights[FAR]!;
    let high = low;
    let reach = 0;
    while (reach < FAR && (reach < 2 || high - low < ENOUGH)) {
      reach++;
      if (reach > before && reach > after) break;
      for (let side = -1; side <= 1; side += 2) {
        if (reach > (side < 0 ? before : after)) continue;
        const h = heights[FAR + side * reach]!;
        if (h < low) low = h;
        if (h > high) high = h;
      }
    }
    return this.parabola(Math.min(before, reach), Math.min(after, reach));
  }

  /**
   * Height at the pixel of the parabola fitted to columns -first to last by least squares; the
   * measured one where there are fewer than two columns on a side.
   */
  private parabola(first: number, last: number): number {
    const { heights } = this;
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    let s4 = 0;
    let h0 = 0;
    let h1 = 0;
    let h2 = 0;
    for (let k = -first; k <= last; k++) {
      const h = heights[FAR + k]!;
      const kk = k * k;
      s0 += 1;
      s1 += k;
      s2 += kk;
      s3 += kk * k;
      s4 += kk * kk;
      h0 += h;
      h1 += k * h;
      h2 += kk * h;
    }
    const d0 = s2 * s4 - s3 * s3;
    const d1 = s1 * s4 - s2 * s3;
    const d2 = s1 * s3 - s2 * s2;
    const det = s0 * d0 - s1 * d1 + s2 * d2;
    if (first < 2 || last < 2 || det === 0) return heights[FAR]!;
    return (h0 * d0 - h1 * d1 + h2 * d2) / det;
  }
}
