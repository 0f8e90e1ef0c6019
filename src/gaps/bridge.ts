import type { Point } from '../raster/types.ts';

/** A place where ink may have a gap, and what was made of it. */
export interface Bridge {
  /** Centers of the two ink pixels that the bridge joins. */
  readonly from: Point;
  readonly to: Point;
  /** Distance between them, in pixels. */
  readonly length: number;
  /** Width of the strokes at its two sides, in pixels: the mean of both. */
  readonly width: number;
  /**
   * How likely it is that what lies on its two sides is meant to be apart, 0 to 1, by all that the
   * drawing shows; that a person wants points apart does not raise it.
   */
  readonly probability: number;
  /** Whether the gap was closed. */
  readonly drawn: boolean;
  /**
   * Whether that was a close decision, either way, as seen from the cut that `caution` sets: the
   * places that a person should look at.
   */
  readonly doubtful: boolean;
  /** Whether it is drawn below that cut, because points are to be apart and for nothing else. */
  readonly forced: boolean;
  /** What was seen and what decided, in plain words. */
  readonly why: string;
}

/** A possible bridge, before any setting decides on it. */
export interface Candidate {
  /** Ink pixels at both contacts. */
  readonly fromX: number;
  readonly fromY: number;
  readonly toX: number;
  readonly toY: number;
  readonly length: number;
  /** Width of the strokes at both sides, the mean, in pixels. */
  readonly width: number;
  /** Log-odds that a stroke was meant to go on here, by what is seen at the gap. */
  readonly odds: number;
  /** What was seen. */
  readonly seen: string;
  /** Index of the stroke's end at `from`. */
  readonly a: number;
  /** Index of the stroke's end at `to`; -1 where the bridge meets the side of a stroke. */
  readonly b: number;
  /** Paper pixels of the line between, as indices, from `from` on. */
  readonly pixels: Int32Array;
}
