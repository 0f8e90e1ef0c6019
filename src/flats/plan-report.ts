import type { Leak } from '../gaps/leaks.ts';
import type { Point } from '../raster/types.ts';

/** A point of a mark that lies outside the picture, or on no region. */
export interface OutsideMark {
  /** Place in `plan.marks`. */
  readonly mark: number;
  readonly point: Point;
  /** What the mark lays; left out where it lays none. */
  readonly swatch?: string;
}

/** Two swatches fell in one region; the one that a mark gave it first stays. */
export interface PlanConflict {
  /** Place in `plan.marks` of the mark that came too late, or that made two regions one. */
  readonly mark: number;
  readonly point: Point;
  /** What the mark asks for; of a join or an open gap, what the other region has. */
  readonly swatch: string;
  /** What the region has. */
  readonly keeps: string;
  /** Place in `plan.marks` of the mark that gave it that. */
  readonly by: number;
  /** Id of the region when the mark's turn came. */
  readonly region: number;
  /**
   * The narrow places of the widest way between the points of both marks, narrowest first, each with
   * a ready mark that closes it; of the first 16 conflicts of points in `layFlats`. On a page they
   * are sought when they are first read.
   */
  readonly leaks?: readonly Leak[];
}

/** Paper that no mark names and that a named region, or the ground, has claimed. */
export interface ClaimedRegion {
  /** Id of the region that it is a part of now. */
  readonly region: number;
  /** Its swatch. */
  readonly swatch: string;
  /** Center of a pixel of it, in the middle of its longest run. */
  readonly at: Point;
  /** Pixels of paper. */
  readonly area: number;
  /** How likely the border was that was passed over, 0 to 1. */
  readonly probability: number;
}

/** A mark that did not do what it says, or something else that may want a look. */
export interface PlanNote {
  /** Place in `plan.marks`; left out where the note is on no mark. */
  readonly mark?: number;
  /** Where that mark begins. */
  readonly at?: Point;
  readonly why: string;
}

/** A region whose paper touches the picture's border. */
export interface BorderRegion {
  /** Its id in the labels. */
  readonly region: number;
  /** Its swatch: the ground's, or what a mark gave it. */
  readonly swatch: string;
}
