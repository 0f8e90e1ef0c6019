import { LINEAR } from '../palette/lab.ts';

/** Farthest of the pixels round a blend whose colors may be in it. */
const REACH = 3;
/** Squared distance in steps of 8 bit within which a mix gives a pixel's color: rounding, some times over. */
export const TOLERANCE = 6;
/** Different colors that are looked at round one pixel, the most frequent ones. */
const MOST = 8;

/** A color that lies under two antialiased edges shows by less than this. */
const MOST_SHOWN = 0.3;
/** Colors of the picture that are tried as such. */
const MOST_HIDDEN = 64;

/** Squared distance that a unit of touch is worth where there is noise. */
const NOISE_PRICE = 4;

/** How blends were made: of 8 bit sRGB samples, as most programs do, or of linear light. */
export type Light = 'srgb' | 'linear';

/**
 * Says of which solid colors a pixel is a mix, and how much of each. `codes` holds the number of
 * each solid pixel's color, 0 for the others; color 1 is transparent.
 *
 * Samples are multiplied by alpha, so that a transparent neighbour is one more color. Two colors
 * near the pixel are tried before three, and near ones before far ones; of those that give the
 * pixel's color, the ones that touch it most are taken.
 */
export class Mixer {
  /** Colors of the last mix, the first two in the order of codes; 0 where there is none. */
  a = 0;
  b = 0;
  c = 0;
  /** Their shares. */
  shareA = 0;
  shareB = 0;
  shareC = 0;
  private readonly words: Uint32Array;
  private readonly codes: Uint16Array;
  private readonly width: number;
  private readonly height: number;
  /** Four samples of each code. */
  private readonly samples: Float64Array;
  private readonly value: Float64Array;
  private readonly slope: Float64Array;
  private readonly tolerance: number;
  private readonly near = new Int32Array(MOST);
  private readonly weight = new Int32Array(MOST);
  private count = 0;
  private readonly pixel = new Float64Array(4);
  /** One over how far a step of 8 bit moves each sample of the pixel. */
  private readonly scale = new Float64Array(4);

  constructor(
    words: Uint32Array,
    codes: Uint16Array,
    width: number,
    height: number,
    colors: Uint32Array,
    light: Light,
    tolerance: number,
  ) {
    this.words = words;
    this.codes = codes;
    this.width = width;
    this.height = height;
    this.tolerance = tolerance;
    this.value = Float64Array.from({ length: 256 }, (_, v) =>
      light === 'srgb' ? v : 255 * LINEAR[v]!,
    );
    this.slope = this.value.map((_, v) => {
      const low = Math.max(0, v - 1);
      const high = Math.min(255, v + 1);
      return (high - low) / (this.value[high]! - this.value[low]!);
    });
    this.samples = new Float64Array(4 * colors.length);
    for (let k = 0; k < colors.length; k++) this.load(colors[k]!, this.samples, 4 * k);
  }

  private load(word: number, into: Float64Array, at: number): void {
    const alpha = word >>> 24;
    const share = alpha / 255;
    into[at] = this.value[word & 255]! * share;
    into[at + 1] = this.value[(word >>> 8) & 255]! * share;
    into[at + 2] = this.value[(word >>> 16) & 255]! * share;
    into[at + 3] = alpha;
  }

  private loadPixel(i: number): void {
    const word = this.words[i]!;
    this.load(word, this.pixel, 0);
    this.scale[0] = this.slope[word & 255]!;
    this.scale[1] = this.slope[(word >>> 8) & 255]!;
    this.scale[2] = this.slope[(word >>> 16) & 255]!;
    this.scale[3] = 1;
  }

  /** Looks for the mix of a pixel; false where none gives its color. */
  solve(i: number): boolean {
    this.loadPixel(i);
    for (let reach = 1; reach <= REACH; reach++) {
      this.gather(i, reach);
      if (this.count >= 2 && this.bestPair(this.tolerance)) return true;
      if (this.count === 1 && this.distance(this.near[0]!) <= this.tolerance) return this.take();
      if (this.count >= 3 && this.bestTriple(1.5 * this.tolerance)) return true;
    }
    this.gather(i, 2);
    if (this.count >= 2 && this.bestHidden(1.5 * this.tolerance)) return true;
    this.a = this.b = this.c = 0;
    return false;
  }

  /** Whether a pixel is touched by two solid colors, no more, and is a mix of them. */
  touchesPair(i: number): boolean {
    this.loadPixel(i);
    this.gather(i, 1);
    return this.count === 2 && this.bestPair(this.tolerance);
  }

  /** Whether fewer than two solid colors lie within 2 pixels. */
  isLone(i: number): boolean {
    this.gather(i, 2);
    return this.count < 2;
  }

  /** Code of the touching color that is nearest to a pixel's own, ties to the lower; 0 with none. */
  nearestTouching(i: number): number {
    this.loadPixel(i);
    this.gather(i, 1);
    return this.nearestGathered();
  }

  /**
   * The mix of two near colors that comes nearest to a noisy pixel's color, where each color that
   * touches it more is worth some distance; false with fewer than two colors near.
   */
  solveNoisy(i: number): boolean {
    this.loadPixel(i);
    for (let reach = 2; reach <= REACH + 1; reach++) {
      this.gather(i, reach);
      if (this.count >= 2) break;
    }
    const { near, weight, count } = this;
    if (count < 2) return false;
    let best = Number.POSITIVE_INFINITY;
    for (let j = 1; j < count; j++) {
      for (let k = 0; k < j; k++) {
        const a = Math.min(near[j]!, near[k]!);
        const b = Math.max(near[j]!, near[k]!);
        const share = this.project(a, b);
        const cost = this.off(a, b, share) - NOISE_PRICE * (weight[j]! + weight[k]!);
        if (cost > best || (cost === best && (a > this.a || (a === this.a && b > this.b))))
          continue;
        best = cost;
        this.a = a;
        this.b = b;
        this.shareA = 1 - share;
        this.shareB = share;
      }
    }
    this.c = 0;
    this.shareC = 0;
    return true;
  }

  /** The one color near the pixel, of which it is a shade off by rounding. */
  private take(): boolean {
    this.a = this.near[0]!;
    this.b = this.c = 0;
    this.shareA = 1;
    this.shareB = this.shareC = 0;
    return true;
  }

  /** Code of the color near a pixel that is nearest to its own; 0 with none in reach. */
  nearest(i: number): number {
    this.loadPixel(i);
    for (let reach = 1; reach <= REACH + 1; reach++) {
      this.gather(i, reach);
      if (this.count > 0) break;
    }
    return this.nearestGathered();
  }

  private nearestGathered(): number {
    let best = 0;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < this.count; k++) {
      const code = this.near[k]!;
      const far = this.distance(code);
      if (far > least || (far === least && code > best)) continue;
      least = far;
      best = code;
    }
    return best;
  }

  /** Squared distance of the loaded pixel from a color, in steps of 8 bit. */
  distance(code: number): number {
    let sum = 0;
    for (let k = 0; k < 4; k++) {
      const d = (this.pixel[k]! - this.samples[4 * code + k]!) * this.scale[k]!;
      sum += d * d;
    }
    return sum;
  }

  /**
   * Share of color b in a pixel between a and b: 0 for a, 1 for b; -1 where it is no mix of the two
   * even within a tolerance of its own.
   */
  shareOf(i: number, a: number, b: number, tolerance: number): number {
    const code = this.codes[i]!;
    if (code === a) return 0;
    if (code === b) return 1;
    this.loadPixel(i);
    const share = this.project(a, b);
    return this.off(a, b, share) <= tolerance ? share : -1;
  }

  private gather(i: number, reach: number): void {
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
        if (k === MOST) continue;
        if (k === count) {
          near[k] = code;
          weight[count++] = 0;
        }
        weight[k]! += far === 1 ? 20 : far === 2 ? 10 : far <= 5 ? 3 : 1;
      }
    }
    this.count = count;
  }

  private bestPair(tolerance: number): boolean {
    const { near, weight, count } = this;
    let best = 0;
    for (let j = 1; j < count; j++) {
      for (let k = 0; k < j; k++) {
        const support = weight[j]! + weight[k]!;
        const a = Math.min(near[j]!, near[k]!);
        const b = Math.max(near[j]!, near[k]!);
        if (support < best) continue;
        if (support === best && (a > this.a || (a === this.a && b > this.b))) continue;
        const share = this.project(a, b);
        if (this.off(a, b, share) > tolerance) continue;
        best = support;
        this.a = a;
        this.b = b;
        this.c = 0;
        this.shareA = 1 - share;
        this.shareB = share;
        this.shareC = 0;
      }
    }
    return best > 0;
  }

  /** Share of b that brings a mix of a and b nearest to the loaded pixel. */
  private project(a: number, b: number): number {
    const { samples, pixel, scale } = this;
    let along = 0;
    let length = 0;
    for (let k = 0; k < 4; k++) {
      const from = samples[4 * a + k]!;
      const d = (samples[4 * b + k]! - from) * scale[k]!;
      along += d * (pixel[k]! - from) * scale[k]!;
      length += d * d;
    }
    const share = length === 0 ? 0 : along / length;
    return share < 0 ? 0 : Math.min(share, 1);
  }

  private off(a: number, b: number, share: number): number {
    const { samples, pixel, scale } = this;
    let sum = 0;
    for (let k = 0; k < 4; k++) {
      const from = samples[4 * a + k]!;
      const d = (pixel[k]! - from - share * (samples[4 * b + k]! - from)) * scale[k]!;
      sum += d * d;
    }
    return sum;
  }

  private bestTriple(tolerance: number): boolean {
    const { near, weight, count } = this;
    let best = 0;
    for (let j = 2; j < count; j++) {
      for (let k = 1; k < j; k++) {
        for (let l = 0; l < k; l++) {
          const support = weight[j]! + weight[k]! + weight[l]!;
          if (support <= best || !this.fitTriple(near[j]!, near[k]!, near[l]!, tolerance)) continue;
          best = support;
        }
      }
    }
    return best > 0;
  }

  /**
   * Two near colors with a little of any other: where two antialiased shapes share an edge, what lies
   * under both shows through, by a quarter at most.
   */
  private bestHidden(tolerance: number): boolean {
    const { near, count, samples } = this;
    const codes = Math.min(samples.length / 4, MOST_HIDDEN);
    let best = MOST_SHOWN;
    let [a, b, c, shareA, shareB] = [0, 0, 0, 0, 0];
    for (let j = 1; j < count; j++) {
      for (let k = 0; k < j; k++) {
        for (let code = 1; code < codes; code++) {
          if (code === near[j] || code === near[k]) continue;
          if (!this.fitTriple(near[j]!, near[k]!, code, tolerance)) continue;
          if (this.shareC >= best) continue;
          best = this.shareC;
          [a, b, c, shareA, shareB] = [this.a, this.b, this.c, this.shareA, this.shareB];
        }
      }
    }
    if (c === 0) return false;
    [this.a, this.b, this.c, this.shareA, this.shareB] = [a, b, c, shareA, shareB];
    this.shareC = best;
    return true;
  }

  /** Shares of three colors by least squares; kept where all are >= 0 and give the pixel's color. */
  fitTriple(a: number, b: number, c: number, tolerance: number): boolean {
    const { samples, pixel, scale } = this;
    let uu = 0;
    let uv = 0;
    let vv = 0;
    let uq = 0;
    let vq = 0;
    let qq = 0;
    for (let k = 0; k < 4; k++) {
      const from = samples[4 * a + k]!;
      const u = (samples[4 * b + k]! - from) * scale[k]!;
      const v = (samples[4 * c + k]! - from) * scale[k]!;
      const q = (pixel[k]! - from) * scale[k]!;
      uu += u * u;
      uv += u * v;
      vv += v * v;
      uq += u * q;
      vq += v * q;
      qq += q * q;
    }
    const det = uu * vv - uv * uv;
    if (det <= 1e-6 * uu * vv) return false;
    const s = (uq * vv - vq * uv) / det;
    const t = (vq * uu - uq * uv) / det;
    if (s < -0.02 || t < -0.02 || s + t > 1.02) return false;
    const off = qq - 2 * (s * uq + t * vq) + s * s * uu + 2 * s * t * uv + t * t * vv;
    if (off > tolerance) return false;
    this.a = a;
    this.b = b;
    this.c = c;
    this.shareA = 1 - s - t;
    this.shareB = s;
    this.shareC = t;
    return true;
  }

  /** Leaves the two largest shares of the last mix, by code, and makes them add up to 1. */
  leadingPair(): void {
    if (this.c === 0) return;
    const least = Math.min(this.shareA, this.shareB);
    if (this.shareC >= least) {
      if (least === this.shareA) {
        this.a = this.c;
        this.shareA = this.shareC;
      } else {
        this.b = this.c;
        this.shareB = this.shareC;
      }
    }
    this.c = 0;
    if (this.a > this.b) {
      [this.a, this.b] = [this.b, this.a];
      [this.shareA, this.shareB] = [this.shareB, this.shareA];
    }
    this.shareB /= this.shareA + this.shareB;
    this.shareA = 1 - this.shareB;
    this.shareC = 0;
  }

  /** Code of the largest share of the last mix; of equal ones the lowest code. */
  leader(): number {
    let best = this.a;
    let share = this.shareA;
    if (this.b === 0) return best;
    if (this.shareB > share || (this.shareB === share && this.b < best)) {
      best = this.b;
      share = this.shareB;
    }
    if (this.c !== 0 && (this.shareC > share || (this.shareC === share && this.c < best))) {
      best = this.c;
    }
    return best;
  }
}
