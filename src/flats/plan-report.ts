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
}

/** A mark that did not do what it says, or something else that may want a look. */
export interface PlanNote {
  /** Place in `plan.marks`; left out where the note is on no mark. */
  readonly mark?: number;
  readonly why: string;
}

/** A region whose paper touches the picture's border. */
export interface BorderRegion {
  /** Its id in the labels. */
  readonly region: number;
  /** Its swatch: the ground's, or what a mark gave it. */
  readonly swatch: string;
}
