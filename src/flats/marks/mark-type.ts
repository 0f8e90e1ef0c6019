import type { Bridge } from '../../gaps/bridge.ts';
import type { Point } from '../../raster/types.ts';
import type { Acting } from './acting.ts';
import type { GapWishes } from './gap-wishes.ts';

/** What every mark may hold. */
export interface NotedMark {
  /** A text for people. */
  readonly note?: string | undefined;
}

/** What every mark that lays color holds. */
export interface LayingMark extends NotedMark {
  /** Name of a swatch of the plan's palette. */
  readonly swatch: string;
  /** Whether the mark may cover what is laid. @default false */
  readonly over?: boolean | undefined;
}

/** A single point of a mark, with its path within the mark. */
export interface MarkPoint {
  readonly path: string;
  readonly point: Point;
}

/** What is known when the gaps of the ink are closed. */
export interface ClosedGaps {
  readonly ink: Uint8Array;
  readonly width: number;
  readonly bridges: readonly Bridge[];
}

/** All that is to be known of one type of mark, whose geometry stands in the field of its name. */
export interface MarkType<M extends NotedMark> {
  /** Whether such marks hold `swatch` and `over`. */
  readonly lays: boolean;
  /** Whether such marks may divide regions or make several one. */
  readonly reshapes: boolean;
  /** Whether such marks have done what they say where the gaps were closed by them. @default false */
  readonly ofGap?: boolean;
  /** Checks and copies the geometry; errors begin with the name. */
  check(value: unknown, name: string): unknown;
  /** The mark with every point of its geometry moved. */
  move(mark: M, to: (point: Point) => Point): M;
  /** The points that must lie in the picture. */
  points(mark: M): readonly MarkPoint[];
  /** How many of them must, so that the mark acts. @default all */
  readonly fewest?: number;
  /** Adds what the mark asks of gap closing. @default nothing */
  wish?(mark: M, wishes: GapWishes): void;
  /** Changes the regions and their swatches. */
  act(mark: M, acting: Acting): void;
  /** What may want a look once the gaps are closed, a sentence. @default nothing */
  look?(mark: M, closed: ClosedGaps): string | undefined;
}
