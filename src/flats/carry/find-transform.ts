import { partOf, type Tick } from '../../raster/progress.ts';
import type { Dense } from '../../raster/types.ts';
import { alignDensity } from './align-density.ts';
import { boxMean, type InkDensity, inkDensity } from './ink-density.ts';
import { inkInCommon, inkOnInk, type MeasuredInk, measureInk } from './ink-in-common.ts';
import { COARSE, proposeTransforms } from './propose-transforms.ts';
import {
  farthestApart,
  IDENTITY,
  movePoint,
  type Similarity,
  scaleOf,
  through,
} from './similarity.ts';

/** A transform between two pictures of one drawing. */
export interface CarryTransform extends Similarity {
  /**
   * Share of the ink that it takes to within half a stroke's width of ink, beyond what would by
   * chance, the mean of both ways, 0 to 1; 1 where the transform was given.
   */
  readonly confidence: number;
}

/** Below that confidence two inks count as different drawings: those of the gap bench reach 0.2. */
export const LEAST_CONFIDENCE = 0.3;
/** A likely scale that is as sure as that is not compared with others. */
const SURE = 0.85;
/** Proposals that are made better, of all scales and rotations. */
const TRIED = 24;
/** Of those, how many go to the finest cells. */
const FINAL = 3;
/** Of each likely scale so many shifts are compared where none is sure. */
const RIVALS = 4;
/** A transform that has so much of the best one's confidence may as well be meant. */
const RIVAL = 0.75;
/** Scales count as the same within that ratio. */
const SAME_SCALE = 1.05;
/** Cells along the longer side where a transform is known to a small part of a pixel. */
const FINE = 1400;

/**
 * The shift, scale and rotation from one ink to another: proposed on coarse cells, made better on
 * finer and finer ones. The simplest that is as good to the pixel wins: identity, the page
 * onto the page, a shift by whole pixels, then what was found. Turned by at most 7 degrees: quarter turns and mirrored pictures are
 * not found. O(pixels).
 */
export function findTransform(
  from: Dense<Uint8Array>,
  to: Dense<Uint8Array>,
  tick?: Tick,
): CarryTransform {
  const a = new Pyramid(from, partOf(tick, 0, 0.1));
  const b = new Pyramid(to, partOf(tick, 0.1, 0.2));
  const inks = { a, b };
  const likely = [...new Set([1, to.width / from.width, to.height / from.height])];
  const starts = proposeTransforms(a.finest, b.finest, likely, 1, partOf(tick, 0.2, 0.3));
  const quick = finest(inks, starts, partOf(tick, 0.3, 0.5));
  if (quick.confidence >= SURE) return simplest(inks, quick, partOf(tick, 0.5, 1));
  const best = meant(inks, quick, seekAll(inks, partOf(tick, 0.5, 0.8)));
  if (best.confidence >= SURE) return simplest(inks, best, partOf(tick, 0.8, 1));
  const rivals = proposeTransforms(a.finest, b.finest, likely, RIVALS, partOf(tick, 0.8, 0.84));
  const least = leastMoved(inks, best, rivals, partOf(tick, 0.84, 0.9));
  return simplest(inks, least, partOf(tick, 0.9, 1));
}

interface Inks {
  readonly a: Pyramid;
  readonly b: Pyramid;
}

/** Densities of one ink by the side of their cells, made when they are asked for. */
class Pyramid {
  readonly measured: MeasuredInk;
  /** The longer side of the picture in pixels. */
  readonly side: number;
  /** The finest cells, of which all others are made. */
  readonly finest: InkDensity;
  private readonly levels: Map<number, InkDensity> = new Map();

  constructor(ink: Dense<Uint8Array>, tick: Tick | undefined) {
    this.measured = measureInk(ink);
    tick?.(0);
    this.side = Math.max(ink.width, ink.height);
    this.finest = inkDensity(ink, Math.max(1, Math.floor(this.side / (2 * FINE))), tick);
  }

  /** The mean over three by three cells of about that side. */
  at(cell: number, tick: Tick | undefined): InkDensity {
    const count = Math.max(1, Math.round(cell / this.finest.cell));
    const known = this.levels.get(count);
    if (known !== undefined) return known;
    const cells = count === 1 ? this.finest : inkDensity(this.finest, count, partOf(tick, 0, 0.5));
    const level = boxMean(cells, 1, partOf(tick, 0.5, 1));
    this.levels.set(count, level);
    return level;
  }
}

function seekAll(inks: Inks, tick: Tick | undefined): CarryTransform {
  const { a, b } = inks;
  const all = proposeTransforms(a.finest, b.finest, [], 1, partOf(tick, 0, 0.4));
  const middle = all.slice(0, TRIED).map((start, i) => {
    const step = partOf(tick, 0.4 + (0.3 * i) / TRIED, 0.4 + (0.3 * (i + 1)) / TRIED);
    return withConfidence(inks, descend(inks, start, COARSE, 4 * COARSE, step), step);
  });
  middle.sort((p, q) => q.confidence - p.confidence);
  return finest(inks, middle.slice(0, FINAL), partOf(tick, 0.7, 1));
}

/** The surest of some transforms after the finest cells; ties go to the first. */
function finest(inks: Inks, starts: readonly Similarity[], tick: Tick | undefined): CarryTransform {
  let best: CarryTransform = { ...IDENTITY, confidence: -1 };
  starts.forEach((start, i) => {
    const step = partOf(tick, i / starts.length, (i + 1) / starts.length);
    best = better(best, withConfidence(inks, descend(inks, start, COARSE, FINE, step), step));
  });
  return best;
}

/**
 * The surer of a transform of a likely scale and one of any; but the first where it may as well be meant
 * and takes more ink onto ink to the pixel: of a frame within a frame without the outer one, the inner
 * one lies within half a stroke of either.
 */
function meant({ a, b }: Inks, likely: CarryTransform, any: CarryTransform): CarryTransform {
  if (likely.confidence >= any.confidence) return likely;
  if (likely.confidence < RIVAL * any.confidence) return any;
  const isExact = inkOnInk(a.measured, b.measured, likely) > inkOnInk(a.measured, b.measured, any);
  return isExact ? likely : any;
}

/**
 * Where a drawing repeats itself, as in a row of bars of which one is taken away, more than one shift
 * takes much ink onto ink: of those that may be meant the one that moves the picture least, from where
 * it is or from one page onto the other.
 */
function leastMoved(
  inks: Inks,
  best: CarryTransform,
  starts: readonly Similarity[],
  tick: Tick | undefined,
): CarryTransform {
  const { width, height } = inks.a.measured.ink;
  const sides = [width, height] as const;
  const page = pageOnPage(inks);
  const move = (one: Similarity): number => {
    return Math.min(farthestApart(one, IDENTITY, sides), farthestApart(one, page, sides));
  };
  let least = best;
  starts.forEach((start, i) => {
    const step = partOf(tick, i / starts.length, (i + 1) / starts.length);
    const one = withConfidence(inks, descend(inks, start, COARSE, FINE, step), step);
    const ratio = scaleOf(one) / scaleOf(best);
    const isRival = one.confidence >= RIVAL * best.confidence;
    if (!isRival || ratio > SAME_SCALE || ratio < 1 / SAME_SCALE) return;
    if (move(one) < move(least)) least = one;
  });
  return least;
}

/** The one that brings the middle of the page onto that of the other, and its longer side to that. */
function pageOnPage({ a, b }: Inks): Similarity {
  const [from, to] = [a.measured.ink, b.measured.ink];
  const scaled = { ...IDENTITY, a: b.side / a.side };
  return through(scaled, [from.width / 2, from.height / 2], [to.width / 2, to.height / 2]);
}

/** Makes a transform better, from so many cells along the longer side to twice as many, and so on. */
function descend(
  inks: Inks,
  start: Similarity,
  first: number,
  last: number,
  tick: Tick | undefined,
): Similarity {
  const { a, b } = inks;
  let now = start;
  for (let count = first; ; count *= 2) {
    const cell = a.side / Math.min(count, last);
    const here = partOf(tick, 1 - first / count, 1 - first / count);
    const density = a.at(cell, here);
    const other = b.at(density.cell * scaleOf(now), here);
    now = alignDensity(density, other, now, here);
    const ratio = scaleOf(now);
    if (!(ratio > 0.2 && ratio < 5)) return start;
    if (count >= last || cell <= a.finest.cell) return now;
  }
}

function withConfidence(
  { a, b }: Inks,
  transform: Similarity,
  tick: Tick | undefined,
): CarryTransform {
  const { a: c, b: s, dx, dy } = transform;
  const confidence = inkInCommon(a.measured, b.measured, transform, partOf(tick, 1, 1));
  return { a: c, b: s, dx, dy, confidence };
}

function better(p: CarryTransform, q: CarryTransform): CarryTransform {
  return q.confidence > p.confidence ? q : p;
}

/** A simpler transform takes no corner farther from where the one found does, in pixels. */
const CLOSE = 0.35;
/** What it may then lack of the share of ink on ink. */
const AS_GOOD = 0.002;

/** Identity and the page onto the page also win from afar, where they take more ink onto ink. */
function simplest(inks: Inks, found: CarryTransform, tick: Tick | undefined): CarryTransform {
  tick?.(0);
  const { a, b } = inks;
  const { width, height } = a.measured.ink;
  const [u, v] = movePoint(found, [width / 2, height / 2]);
  // A zero is added so that no shift is never -0.
  const shift = [Math.round(u - width / 2) + 0, Math.round(v - height / 2) + 0] as const;
  const reached = inkOnInk(a.measured, b.measured, found);
  const whole = through(IDENTITY, [0, 0], shift);
  for (const simple of [IDENTITY, pageOnPage(inks), whole]) {
    tick?.(0.5);
    const agrees = inkOnInk(a.measured, b.measured, simple);
    const isNear = farthestApart(simple, found, [width, height]) <= CLOSE;
    if (isNear ? agrees >= reached - AS_GOOD : simple !== whole && agrees > reached) {
      return withConfidence(inks, simple, tick);
    }
  }
  return found;
}
