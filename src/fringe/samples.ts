import { LINEAR } from '../color/lab.ts';
import { sortColors } from './words.ts';

/**
 * How blends were made: of 8 bit sRGB samples (gamma-encoded), as most programs do, or of linear light.
 */
export type FringeLight = 'srgb' | 'linear';

/** Colors of the picture that are tried though none is near. */
const MOST_TRIED = 64;

/**
 * The samples of solid colors and of one pixel, multiplied by alpha, so that what is transparent is
 * one more color; distances are in steps of 8 bit.
 */
export class Samples {
  /** The first codes in the order of colors, without that of blends. */
  readonly tried: readonly number[];
  /** Four samples of each code. */
  private readonly samples: Float64Array;
  private readonly value: Float64Array;
  private readonly slope: Float64Array;
  private readonly pixel = new Float64Array(4);
  /** One over how far a step of 8 bit moves each sample of the pixel. */
  private readonly scale = new Float64Array(4);
  /** Shares of the last two codes of `fitThree`. */
  second = 0;
  third = 0;

  constructor(colors: Uint32Array, light: FringeLight) {
    this.tried = sortColors(colors)
      .filter((code) => code > 0)
      .slice(0, MOST_TRIED);
    this.value = Float64Array.from({ length: 256 }, (_, v) =>
      light === 'srgb' ? v : 255 * LINEAR[v]!,
    );
    this.slope = this.value.map((_, v) => {
      const low = Math.max(0, v - 1);
      const high = Math.min(255, v + 1);
      return (high - low) / (this.value[high]! - this.value[low]!);
    });
    this.samples = new Float64Array(4 * colors.length);
    for (let k = 0; k < colors.length; k++) this.put(colors[k]!, this.samples, 4 * k);
  }

  /** Makes a word the pixel that the rest is about. */
  load(word: number): void {
    this.put(word, this.pixel, 0);
    this.scale[0] = this.slope[word & 255]!;
    this.scale[1] = this.slope[(word >>> 8) & 255]!;
    this.scale[2] = this.slope[(word >>> 16) & 255]!;
    this.scale[3] = 1;
  }

  private put(word: number, into: Float64Array, at: number): void {
    const alpha = word >>> 24;
    const share = alpha / 255;
    into[at] = this.value[word & 255]! * share;
    into[at + 1] = this.value[(word >>> 8) & 255]! * share;
    into[at + 2] = this.value[(word >>> 16) & 255]! * share;
    into[at + 3] = alpha;
  }

  /** Squared distance of the pixel from a color. */
  distance(code: number): number {
    return this.off(code, code, 0);
  }

  /** Share of b that brings a mix of a and b nearest to the pixel. */
  project(a: number, b: number): number {
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

  /** Squared distance of the pixel from a mix. */
  off(a: number, b: number, share: number): number {
    const { samples, pixel, scale } = this;
    let sum = 0;
    for (let k = 0; k < 4; k++) {
      const from = samples[4 * a + k]!;
      const d = (pixel[k]! - from - share * (samples[4 * b + k]! - from)) * scale[k]!;
      sum += d * d;
    }
    return sum;
  }

  /**
   * Shares of three colors by least squares, left in `second` and `third`; whether none is negative
   * and they give the pixel within a tolerance.
   */
  fitThree(a: number, b: number, c: number, tolerance: number): boolean {
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
    this.second = s;
    this.third = t;
    return true;
  }
}
