import type { FlatsLike } from '../palette/types.ts';
import { checkOptions } from '../raster/checks.ts';
import type { PixelsLike } from '../raster/types.ts';
import type { Finding } from './finding.ts';
import { type CheckFlatsOptions, runChecks } from './run-checks.ts';

/**
 * Checks flats before they are handed on.
 *
 * - `bare`: pixels that no flat covers; transparent ones in a picture.
 * - `blended`: pixels of partial alpha, or of a color that the palette lacks; without a palette,
 *   those that `findFringe` takes for fringe, where a straight rim one pixel wide is doubtful, so give
 *   the palette if you have it. Flats are checked against a palette alone.
 * - `specks`: 4-connected areas of one swatch of at most 8 pixels.
 * - `seams`: two flats meet with no ink on either side of the edge; needs `ink` or `coverage`.
 * - `halo`: the ground, or the bare surroundings of flats without one, shows between a flat and the
 *   ink, as `findHalo` tells; needs `coverage`. A flat drawn short of the line, so that the ground shows
 *   where coverage is 0, is no halo but an open seam; other bare pixels are findings of `bare` alone.
 *
 * Findings come check by check. Each 8-connected place of bare or blended pixels is one, in the
 * order of first pixels, row by row; seams come with the longest first. After 10,000 places of one
 * check the rest are one finding. Where two swatches of the palette have one color, a picture's
 * pixels count as the first. O(pixels + seams · log).
 *
 * @param flats - Flats, or a picture of flats in 1 to 4 channels of 8 or 16 bit.
 * @returns Findings; an empty list is a clean sheet.
 * @throws TypeError or RangeError for flats, rasters or options that are none.
 * @example
 * ```ts
 * import { checkFlats, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 0, 1, 1]), [2, 2]), palette };
 * console.log(checkFlats(flats, { checks: ['bare'] })[0]?.message); // 1 pixel bare at [1, 0]
 * ```
 */
export function checkFlats(flats: FlatsLike | PixelsLike, options?: CheckFlatsOptions): Finding[] {
  const names = ['ink', 'coverage', 'palette', 'checks', 'exceptions'] as const;
  return runChecks(flats, checkOptions(options, 'checkFlats', names), 'flats', 'ink').found;
}
