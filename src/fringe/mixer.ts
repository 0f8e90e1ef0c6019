import { mixHidden, mixLone, mixNearest, mixThree, mixTwo } from './find-mix.ts';
import { Mix } from './mix.ts';
import { NearColors } from './near-colors.ts';
import { type FringeLight, Samples } from './samples.ts';
import type { Solid } from './solid-colors.ts';
import { rankColors } from './words.ts';

/** Farthest of the pixels round a blend whose colors may be in it. */
const REACH = 3;
/** Blends between two ticks: some milliseconds where each is tried with many colors. */
export const TICK_BLENDS = 64;
/**
 * Squared distance in steps of 8 bit within which a mix gives a pixel's color: the rounding of
 * several steps.
 */
export const TOLERANCE = 6;
/** The same for a mix of three colors. */
const TOLERANCE_OF_THREE = 1.5 * TOLERANCE;

/**
 * Says of which solid colors a pixel is a mix, and how much of each. Two colors near the pixel are
 * tried before three, and near ones before far ones; of those that give the pixel's color, the ones
 * that touch it most are taken, ties to the first in the order of colors.
 */
export class Mixer {
  /** The last mix that was found. */
  readonly mix: Mix;
  private readonly words: Uint32Array;
  private readonly codes: Uint16Array;
  private readonly near: NearColors;
  private readonly samples: Samples;

  constructor(
    words: Uint32Array,
    { codes, colors }: Pick<Solid, 'codes' | 'colors'>,
    width: number,
    height: number,
    light: FringeLight,
  ) {
    const rank = rankColors(colors);
    this.words = words;
    this.codes = codes;
    this.near = new NearColors(codes, width, height, rank);
    this.samples = new Samples(colors, light);
    this.mix = new Mix(rank);
  }

  /** Looks for the mix of a pixel; false where none gives its color. */
  solve(i: number): boolean {
    return this.solveInArea(i) || this.solveFar(i);
  }

  /** The same without mixes for the most part of a color that is not near. */
  solveInArea(i: number): boolean {
    const { near, samples, mix } = this;
    samples.load(this.words[i]!);
    for (let reach = 1; reach <= REACH; reach++) {
      near.gather(i, reach);
      if (near.count === 1 && samples.distance(near.near[0]!) <= TOLERANCE) {
        mix.set(near.near[0]!, 0, 0, 0, 0);
        return true;
      }
      if (mixTwo(near, samples, mix, TOLERANCE)) return true;
      if (mixThree(near, samples, mix, TOLERANCE_OF_THREE)) return true;
    }
    if (near.count > 1) near.gather(i, 2);
    return mixHidden(near, samples, mix, TOLERANCE_OF_THREE);
  }

  private solveFar(i: number): boolean {
    const { near, samples, mix } = this;
    near.gather(i, REACH);
    return near.count === 1 && mixLone(near.near[0]!, samples, mix, TOLERANCE, 1);
  }

  /**
   * The mix of two near colors that comes nearest to a noisy pixel's color, where each color that
   * touches it more is worth some distance; false with fewer than two colors near.
   */
  solveNoisy(i: number): boolean {
    const { near, samples, mix } = this;
    samples.load(this.words[i]!);
    for (let reach = 2; reach <= REACH + 1; reach++) {
      near.gather(i, reach);
      if (near.count >= 2) break;
    }
    if (near.count < 2) return false;
    mixNearest(near, samples, mix);
    return true;
  }

  /** Whether a pixel is a mix of two of the solid colors that touch it. */
  touchesMix(i: number): boolean {
    const { near, samples, mix } = this;
    samples.load(this.words[i]!);
    near.gather(i, 1);
    return mixTwo(near, samples, mix, TOLERANCE);
  }

  /** The same where no third color touches it. */
  touchesPair(i: number): boolean {
    return this.touchesMix(i) && this.near.count === 2;
  }

  /** Whether fewer than two solid colors lie within 2 pixels. */
  isLone(i: number): boolean {
    this.near.gather(i, 2);
    return this.near.count < 2;
  }

  /** Code of the color touching a pixel that is nearest to its own, ties to the first; 0 with none. */
  nearestTouching(i: number): number {
    this.samples.load(this.words[i]!);
    this.near.gather(i, 1);
    return this.nearestGathered();
  }

  /** Code of the color near a pixel that is nearest to its own, ties to the first; 0 with none. */
  nearest(i: number): number {
    this.samples.load(this.words[i]!);
    for (let reach = 1; reach <= REACH + 1; reach++) {
      this.near.gather(i, reach);
      if (this.near.count > 0) break;
    }
    return this.nearestGathered();
  }

  private nearestGathered(): number {
    const { near, count } = this.near;
    let best = 0;
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < count; k++) {
      const far = this.samples.distance(near[k]!);
      if (far >= least) continue;
      least = far;
      best = near[k]!;
    }
    return best;
  }

  /** Squared distance of the pixel looked at last from a color, in steps of 8 bit. */
  distance(code: number): number {
    return this.samples.distance(code);
  }

  /**
   * Share of color b in a pixel between a and b: 0 for a, 1 for b; -1 where it is no mix of the two
   * within the tolerance.
   */
  shareOf(i: number, a: number, b: number, tolerance: number): number {
    const code = this.codes[i]!;
    if (code === a) return 0;
    if (code === b) return 1;
    this.samples.load(this.words[i]!);
    const share = this.samples.project(a, b);
    return this.samples.off(a, b, share) <= tolerance ? share : -1;
  }
}
