import type { Rings } from '../polygon/rings-argument.ts';

/** Index of a region that nobody has given a swatch yet. */
export const OPEN = -1;

/** What came of a polygon: `kept out` where nothing inside it may be taken. */
export type TookPixels = 'took' | 'kept out' | 'empty';

/** Regions that marks act on, in the order of the plan. */
export interface MarkedMap {
  readonly width: number;
  readonly height: number;
  /** Called now and then while a mark acts. */
  pulse: () => void;
  /** Region of a pixel, as the marks so far have left it; 0 for none. */
  at(x: number, y: number): number;
  /** Index of a region's swatch, or `OPEN`. */
  swatch(region: number): number;
  lay(region: number, swatch: number, mark: number): void;
  /** Mark that gave a region its swatch. */
  laidBy(region: number): number;
  /** The id by which a region is known. */
  name(region: number): number;
  /** Gives a swatch to the regions of one swatch that are connected with a region, by neighbors. */
  layPatch(region: number, swatch: number, mark: number): void;
  /**
   * Gives the pixels in a polygon a swatch where `mayTake` allows it: a region that lies wholly
   * inside as it is, of others each 4-connected piece that does, as a region of its own.
   */
  take(
    polygon: Rings,
    swatch: number,
    mark: number,
    mayTake: (swatch: number) => boolean,
  ): TookPixels;
  /**
   * Divides regions along a line of pixels, with the ink for walls. The pieces keep the swatch.
   * Gives whether any fell apart.
   */
  cut(line: Int32Array): boolean;
  /** Makes regions one, known by the first's name, with the swatch of one of them. */
  merge(ids: readonly number[], keeps: number): void;
}

/** Regions as marks left them, by the ids in the labels. */
export interface MarkedRegions {
  /** Index of the swatch by id, or `OPEN`. */
  readonly swatch: Int32Array;
  /** Ids of regions that are parts of those whose paper touched the picture's border. */
  readonly border: Set<number>;
}
