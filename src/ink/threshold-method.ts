import type { Tick } from '../raster/progress.ts';

/** Why a method was taken whose name was given. */
export const GIVEN = 'the method was given';

/** A dense coverage with its sides. */
interface CoveragePage {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/**
 * A way to make an ink mask of a coverage. Each is one export of a file of its own, and one line of
 * `threshold-methods.ts`; options, names and choices follow from there.
 */
export interface Method<Options, Choice> {
  /** Names of the options that it takes; all others are refused with it. */
  readonly options: readonly (keyof Options & string)[];
  /** Throws for a value that it does not take. */
  check(options: Options): void;
  /** What the options come to on a page, and why. */
  settle(options: Options, page: CoveragePage, tick: Tick | undefined): Choice;
  /** Writes the mask, which may be the page's data; gives the pixels of ink. */
  apply(choice: Choice, page: CoveragePage, mask: Uint8Array, tick: Tick | undefined): number;
}
