import { maskArgument } from '../raster/arguments.ts';
import { IntList } from '../raster/int-list.ts';
import { checkMaskValues } from '../raster/mask-values.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type { MaskLike, Point } from '../raster/types.ts';
import { paperDistance, widthOf } from './stroke-width.ts';
import { bitAt, eachPlace, isRemovable, neighborCode, type Skeleton, thinDense } from './thin.ts';

/** Where a stroke ends in the open. */
export interface StrokeEnd {
  /** Center of the last ink pixel. */
  readonly x: number;
  readonly y: number;
  /** Unit vector along the stroke, outwards. */
  readonly direction: Point;
  /** Width of the stroke behind the end, in pixels, as `strokeWidth` measures it. */
  readonly width: number;
  /**
   * Width right behind the tip as a share of `width`: 1 for an even stroke, less for one that tapers
   * within about its own width; of a longer taper the tip is even, and `width` is that of the tip.
   */
  readonly taper: number;
  /**
   * Length of the skeleton from the tip to the next fork, or to the stroke's other end, in pixels;
   * followed for 24 widths at most.
   */
  readonly reach: number;
  /** Whether that leads to another free end, so that the stroke hangs on nothing. */
  readonly loose: boolean;
}

/**
 * Finds the free ends of strokes.
 *
 * An end is an end of the skeleton (see `thinInk`), less the short side branches that a rough
 * contour gives it: branches whose tip lies at most 3 pixels beyond the ink's half width where they
 * leave, the half width at the tip counted in.
 * Where all branches of a fork are so short, the fork is the end. A separate stroke that is
 * not twice as long as wide is a dot and has no ends. The direction is that of the skeleton over
 * the last two widths or so; the tip is the last ink pixel that way.
 *
 * O(pixels) in practice. Memory as for `thinInk`, and the result.
 *
 * @param mask - `[w, h]` of 0 or 1.
 * @returns The ends, by skeleton pixel, row by row.
 * @throws TypeError or RangeError for a raster that is no mask.
 * @example
 * ```ts
 * import { raster, strokeEnds } from 'underink';
 * const page = raster(new Uint8Array(20 * 5), [20, 5]);
 * for (let x = 3; x < 17; x++) for (let y = 1; y < 4; y++) page.set(x, y, 1);
 * console.log(strokeEnds(page).map((e) => [e.x, e.y])); // [ [ 3.5, 2.5 ], [ 16.5, 2.5 ] ]
 * ```
 */
export function strokeEnds(mask: MaskLike): StrokeEnd[] {
  const { data, width, height, channels } = maskArgument(mask, 'mask');
  checkMaskValues({ data, width, height, channels }, 'mask');
  return findEnds(data, width, height, thinDense(data, width, height));
}

/** Cosine of the bend (20°) from which on only the last width of a stroke tells its direction. */
const BEND = 0.94;
/** Widths for which a stroke is followed from its end. */
const FOLLOWED = 24;
/** Rounds of taking off side branches; more would eat up the skeleton of a ragged blot. */
const ROUNDS = 2;
/** Tips between two ticks. */
const TICK_TIPS = 1024;

/** The same for a skeleton at hand, as `thinPacked` gives it; its side branches are taken off. */
export function findEnds(
  data: Uint8Array,
  width: number,
  height: number,
  skeleton: Skeleton,
  tick?: Tick,
): StrokeEnd[] {
  const tracer = new Tracer(data, width, height, skeleton);
  let tips = skeletonTips(skeleton, partOf(tick, 0, 0.4));
  for (let round = 0; round < ROUNDS; round++) {
    const spurs = new IntList();
    const forks = new IntList();
    const kept = new IntList();
    for (let i = 0; i < tips.length; i++) {
      if (tick !== undefined && i % TICK_TIPS === 0) tick(0.4);
      tracer.trace(tips[i]!);
      if (!tracer.isSpur()) {
        kept.push(tips[i]!);
        continue;
      }
      for (let k = 0; k < tracer.length; k++) spurs.push(tracer.path[k]!);
      forks.push(tracer.stop);
    }
    if (forks.length === 0) break;
    for (let i = 0; i < spurs.length; i++) clear(skeleton, spurs.data[i]!);
    for (const tip of newTips(skeleton, forks, partOf(tick, 0.4, 0.5))) kept.push(tip);
    tips = kept.trimmed().sort();
  }
  const ends: StrokeEnd[] = [];
  for (let i = 0; i < tips.length; i++) {
    if (tick !== undefined && i % TICK_TIPS === 0) tick(0.5 + (0.5 * i) / tips.length);
    tracer.trace(tips[i]!);
    const end = tracer.isSpur() || tracer.isDot() ? undefined : tracer.end();
    if (end !== undefined) ends.push(end);
  }
  return ends;
}

/** Skeleton pixels with exactly one neighbor. */
function skeletonTips(skeleton: Skeleton, tick?: Tick): Int32Array {
  const tips = new IntList();
  const look = (p: number): void => {
    if (countBits(neighborCode(skeleton, p)) === 1) tips.push(p);
  };
  eachPlace(skeleton, look, tick);
  return tips.trimmed();
}

/** Takes out what a fork no longer needs; gives the tips that are left where forks were. */
function newTips(skeleton: Skeleton, forks: IntList, tick?: Tick): Set<number> {
  const { words, pitch } = skeleton;
  const tips = new Set<number>();
  const block = [-pitch - 1, -pitch, 1 - pitch, -1, 0, 1, pitch - 1, pitch, pitch + 1];
  for (let i = 0; i < forks.length; i++) {
    if (tick !== undefined && i % TICK_TIPS === 0) tick(i / forks.length);
    const fork = forks.data[i]!;
    for (const step of block) {
      const p = fork + step;
      if (bitAt(words, p) === 1 && isRemovable(neighborCode(skeleton, p))) clear(skeleton, p);
    }
    for (const step of block) {
      const p = fork + step;
      if (bitAt(words, p) === 1 && countBits(neighborCode(skeleton, p)) === 1) tips.add(p);
      else tips.delete(p);
    }
  }
  return tips;
}

function clear({ words }: Skeleton, place: number): void {
  words[place >>> 5]! &= ~(1 << (place & 31));
}

/** Follows the skeleton from a tip; one path at a time, in storage that is used again. */
class Tracer {
  /** Skeleton pixels from the tip on, the one that stopped the trace left out. */
  path: Int32Array = new Int32Array(64);
  length = 0;
  /** The fork or the other tip where the path ends; -1 when it was long enough before. */
  stop = -1;
  /** Squared distances to paper along the path. */
  private squares: Float64Array = new Float64Array(64);
  private stopsAtFork = false;
  private readonly data: Uint8Array;
  private readonly width: number;
  private readonly height: number;
  private readonly skeleton: Skeleton;

  constructor(data: Uint8Array, width: number, height: number, skeleton: Skeleton) {
    this.data = data;
    this.width = width;
    this.height = height;
    this.skeleton = skeleton;
  }

  /** Goes on to a fork, to the other tip, or until the path is three times as long as wide. */
  trace(tip: number): void {
    const { skeleton } = this;
    const { pitch } = skeleton;
    this.length = 0;
    this.stop = -1;
    this.stopsAtFork = false;
    let before = -1;
    let p = tip;
    let square = 0;
    for (;;) {
      const code = neighborCode(skeleton, p);
      const count = countBits(code);
      if (count > 2 || (count < 2 && p !== tip)) {
        this.stop = p;
        this.stopsAtFork = count > 2;
        return;
      }
      square = this.squareAt(p, square);
      if (this.length === this.path.length) this.grow();
      this.path[this.length] = p;
      this.squares[this.length++] = square;
      if (this.length * this.length > 36 * square + 16) return;
      let next = -1;
      for (let k = 0; k < 8; k++) {
        const step = stepOf(k, pitch);
        if ((code >> k) & 1 && p + step !== before) next = p + step;
      }
      if (next < 0) {
        this.stop = p;
        return;
      }
      before = p;
      p = next;
    }
  }

  /** A branch that a bump of the contour or a corner of the stroke's end gives. */
  isSpur(): boolean {
    if (!this.stopsAtFork) return false;
    if (this.length <= 2) return true;
    const fork = Math.sqrt(this.squareAt(this.stop, this.squares[this.length - 1]!));
    return this.length + Math.sqrt(this.squares[0]!) <= fork + 3;
  }

  /** A stroke by itself that is less than twice as long as wide. */
  isDot(): boolean {
    if (this.stop < 0 || this.stopsAtFork) return false;
    // The skeleton is about a width less 2 pixels shorter than the stroke.
    return this.length < widthOf(this.squares[this.length >> 1]!) + 2;
  }

  /** The stroke's end that the path leads to; none where the ink goes on. */
  end(): StrokeEnd | undefined {
    const { path, squares, length, data, width, height } = this;
    const { pitch } = this.skeleton;
    // The first pixels turn towards a corner of the stroke's end, so they tell no direction.
    const half = Math.sqrt(squares[Math.min(length - 1, 2 + Math.floor(Math.sqrt(squares[0]!)))]!);
    const skip = Math.min(Math.floor(half / 2), length >> 2);
    const used = Math.min(length, skip + Math.ceil(4 * half) + 2);
    let heading = this.heading(skip, used);
    const near = this.heading(skip, Math.min(length, skip + Math.ceil(2 * half) + 2));
    if (heading[0] * near[0] + heading[1] * near[1] < BEND) heading = near;
    const [dx, dy] = heading;
    if (dx === 0 && dy === 0) return undefined;
    const x0 = path[0]! % pitch;
    const y0 = Math.floor(path[0]! / pitch) - 1;
    let [x, y] = [x0, y0];
    for (let t = 1; ; t++) {
      const u = Math.round(x0 + (t * dx) / 2);
      const v = Math.round(y0 + (t * dy) / 2);
      if (u < 0 || v < 0 || u >= width || v >= height || data[v * width + u] === 0) break;
      if (t > 6 * half + 8) return undefined;
      x = u;
      y = v;
    }
    const sorted = squares.slice(skip, used).sort();
    const widest = widthOf(sorted[sorted.length >> 1]!);
    const taper = Math.min(1, widthOf(squares[Math.min(length - 1, 1 + (skip >> 1))]!) / widest);
    const { reach, loose } = this.follow(FOLLOWED * widest);
    return { x: x + 0.5, y: y + 0.5, direction: [dx, dy], width: widest, taper, reach, loose };
  }

  /** The skeleton from the tip on, diagonal steps counted as √2, up to `limit`. */
  private follow(limit: number): Pick<StrokeEnd, 'reach' | 'loose'> {
    const { path, length, skeleton } = this;
    const { pitch } = skeleton;
    let [before, p] = [-1, path[0]!];
    let far = 0;
    for (let i = 1; i < length; i++) {
      [before, p] = [p, path[i]!];
      far += stepLength(p - before, pitch);
    }
    if (this.stop >= 0) return { reach: far, loose: !this.stopsAtFork };
    let loose = false;
    while (far < limit) {
      const code = neighborCode(skeleton, p);
      const count = countBits(code);
      loose = count < 2;
      if (count !== 2) break;
      let next = -1;
      for (let k = 0; k < 8; k++) {
        const step = stepOf(k, pitch);
        if ((code >> k) & 1 && p + step !== before) next = p + step;
      }
      [before, p] = [p, next];
      far += stepLength(p - before, pitch);
    }
    return { reach: Math.min(far, limit), loose };
  }

  /** Unit vector along a part of the path, towards the tip: the slope of a least-squares line. */
  private heading(from: number, to: number): [number, number] {
    const { pitch } = this.skeleton;
    const middle = (from + to - 1) / 2;
    let [dx, dy] = [0, 0];
    for (let i = from; i < to; i++) {
      dx += (middle - i) * (this.path[i]! % pitch);
      dy += (middle - i) * Math.floor(this.path[i]! / pitch);
    }
    const norm = Math.sqrt(dx * dx + dy * dy);
    return norm === 0 ? [0, 0] : [dx / norm, dy / norm];
  }

  private squareAt(p: number, near: number): number {
    const { pitch } = this.skeleton;
    const x = p % pitch;
    const y = Math.floor(p / pitch) - 1;
    return paperDistance(this.data, this.width, this.height, x, y, near);
  }

  private grow(): void {
    const path = new Int32Array(2 * this.path.length);
    path.set(this.path);
    this.path = path;
    const squares = new Float64Array(path.length);
    squares.set(this.squares);
    this.squares = squares;
  }
}

/** From a skeleton pixel to neighbor k of its code. */
function stepOf(k: number, pitch: number): number {
  const turn = k & 3;
  const step = turn === 0 ? 1 : turn === 1 ? 1 - pitch : turn === 2 ? -pitch : -pitch - 1;
  return k < 4 ? step : -step;
}

function stepLength(step: number, pitch: number): number {
  const size = Math.abs(step);
  return size === 1 || size === pitch ? 1 : Math.SQRT2;
}

function countBits(code: number): number {
  let v = code - ((code >> 1) & 0x55);
  v = (v & 0x33) + ((v >> 2) & 0x33);
  return (v + (v >> 4)) & 15;
}
