import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Bounds, Point } from '../raster/types.ts';
import type { Sheet } from './sheet.ts';

/** Something a person should look at, as plain data. */
export interface Finding {
  /** Name of the check that found it. */
  readonly check: string;
  /** One sentence with the figures. */
  readonly message: string;
  /** Pixels, or pixel edges of a seam. */
  readonly count: number;
  /** Where it lies, in whole pixels, half-open. */
  readonly bounds: Bounds;
  /** Center of its first pixel, row by row. */
  readonly at: Point;
  /** Names of the swatches concerned. */
  readonly swatches: readonly string[];
  /**
   * Its pixels, to be shown over the picture: spans `y, x0, x1` one after another, row by row, each
   * `[x0, x1)` of row y. Of a seam, the pixels on both sides. A check of one's own may leave it out.
   */
  readonly spans?: Int32Array;
}

/** A rule over a sheet. */
export interface Check {
  readonly name: string;
  readonly run: (sheet: Sheet) => Omit<Finding, 'check'>[];
}

/**
 * Makes a check of one's own for `checkFlats`.
 *
 * @param name - How findings name it; not empty.
 * @param fn - Gets the sheet (flats, ink, blended pixels) and gives what it finds.
 * @throws TypeError or RangeError for a name that is no text, or no function.
 * @example
 * ```ts
 * import { checkFlats, defineCheck, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 1]), [2, 1]), palette };
 * const eyes = defineCheck('no eyes', ({ flats }) =>
 *   flats.palette.some((swatch) => swatch.name === 'eyes')
 *     ? []
 *     : [{ message: 'no eyes', count: 0, bounds: [0, 0, 2, 1], at: [0, 0], swatches: [] }],
 * );
 * console.log(checkFlats(flats, { checks: [eyes] })[0]?.check); // no eyes
 * ```
 */
export function defineCheck(name: string, fn: Check['run']): Check {
  if (typeof name !== 'string') throw wrongKind('name', 'a string', name);
  if (name === '') throw wrongValue('name', 'a string that is not empty', name);
  if (typeof fn !== 'function') throw wrongKind('fn', 'a function', fn);
  return { name, run: fn };
}
