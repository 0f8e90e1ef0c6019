/** Different colors that are looked at round one pixel. */
const MOST = 8;
/** Pixels within the largest reach, 4, but the one in the middle. */
const PIXELS = 80;

/**
 * The solid colors round a pixel, in the order of their ranks, and how much each touches it. `codes`
 * holds the code of each solid pixel's color, 0 for the others. Of more than eight colors those that
 * touch most are kept, ties in the order of ranks.
 */
export class NearColors {
  readonly near: Int32Array = new Int32Array(PIXELS);
  readonly weight: Int32Array = new Int32Array(PIXELS);
  count = 0;
  private readonly codes: Uint16Array;
  private readonly width: number;
  private readonly height: number;
  private readonly rank: Uint16Array;

  constructor(codes: Uint16Array, width: number, height: number, rank: Uint16Array) {
    this.codes = codes;
    this.width = width;
    this.height = height;
    this.rank = rank;
  }

  /** Looks at the pixels within `reach` columns and rows of pixel i; at most 4. */
  gather(i: number, reach: number): void {
    const { codes, width, height, near, weight } = this;
    const x = i % width;
    const y = (i - x) / width;
    const x0 = Math.max(0, x - reach);
    const x1 = Math.min(width - 1, x + reach);
    const y0 = Math.max(0, y - reach);
    const y1 = Math.min(height - 1, y + reach);
    let count = 0;
    for (let v = y0; v <= y1; v++) {
      for (let u = x0; u <= x1; u++) {
        const code = codes[v * width + u]!;
        if (code === 0) continue;
        const far = (u - x) * (u - x) + (v - y) * (v - y);
        if (far === 0) continue;
        let k = 0;
        while (k < count && near[k] !== code) k++;
        if (k === count) {
          near[k] = code;
          weight[count++] = 0;
        }
        weight[k]! += far === 1 ? 20 : far === 2 ? 10 : far <= 5 ? 3 : 1;
      }
    }
    if (count > MOST) {
      this.sort(count, true);
      count = MOST;
    }
    this.sort(count, false);
    this.count = count;
  }

  /** Insertion sort of the first `count`, by touch and rank, or by rank alone. */
  private sort(count: number, byTouch: boolean): void {
    const { near, weight, rank } = this;
    for (let j = 1; j < count; j++) {
      const code = near[j]!;
      const touch = weight[j]!;
      const own = rank[code]!;
      let k = j;
      for (; k > 0; k--) {
        const other = weight[k - 1]!;
        const first = rank[near[k - 1]!]! < own;
        if (byTouch && other !== touch ? other > touch : first) break;
        near[k] = near[k - 1]!;
        weight[k] = other;
      }
      near[k] = code;
      weight[k] = touch;
    }
  }
}
