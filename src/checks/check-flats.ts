import type { FlatsLike } from '../palette/types.ts';
import { checkOptions } from '../raster/checks.ts';
import type { PixelsLike } from '../raster/types.ts';
import { Exceptions, staleFinding } from './exceptions.ts';
import type { Finding } from './finding.ts';
import { type CheckFlatsOptions, runChecks, sortFindings } from './run-checks.ts';

/**
 * Checks flats before they are handed on.
 *
 * | check | finds | needs | severity | thresholds |
 * |---|---|---|---|---|
 * | `bare` | pixels that no flat covers; transparent ones in a picture | | error | |
 * | `blended` | pixels of a picture that are no color of a flat: partial alpha, and fringe where no palette is given | | error | |
 * | `off` | colors that the palette lacks | `palette` | error | |
 * | `specks` | areas of one swatch of a few pixels | | warning | `maxArea: 8` |
 * | `slivers` | areas that are nowhere wider than a few pixels | | warning | `maxWidth: 2, minArea: 9` |
 * | `seams` | two flats meet with no ink on either side | `ink` or `coverage` | warning | `minLength: 1` |
 * | `forced` | seams that a forced bridge made | `report` | warning | |
 * | `conflicts` | marks of two swatches in one region | `report` | error | |
 * | `unnamed` | regions that no mark names | `report` | warning | |
 * | `halo` | light between a flat and its ink, as `findHalo` tells | `coverage` | error | |
 * | `alike` | flats beside each other whose colors can't be told apart | | warning | `below: 2` |
 * | `leaks` * | a swatch that runs through a narrow opening | `ink` or `coverage` | warning | `maxWidth: 3, opens: 3` |
 * | `divided` * | ink between two regions of one swatch | `ink` or `coverage` | information | `minLength: 10` |
 * | `unused` * | swatches that no pixel has | | information | |
 * | `lookalikes` * | used swatches of nearly one color | | information | `below: 2` |
 *
 * Those with a star run only when asked for, by name or by a setting; the others wherever what they
 * need is given. Areas are in pixels, widths and lengths in pixels and pixel edges, `below` in CIEDE2000.
 *
 * The gravest findings come first, then check by check in the order of the table, or of `checks`.
 * Places of pixels are 8-connected and come in the order of first pixels, row by row; those of edges
 * with the longest first. After 10,000 places of one check the rest are one finding. A check that
 * throws, or finds something without a place, gives a finding with `failed`; the others go on.
 *
 * What an exception matches is left out. An exception of a check that ran, to which nothing belongs
 * any more, is a finding of `stale exception` with severity `information`.
 *
 * Where two swatches of the palette have one color, a picture's pixels count as the first.
 * O(pixels + edges · log).
 *
 * @param flats - Flats, or a picture of flats in 1 to 4 channels of 8 or 16 bit.
 * @returns Findings as plain data; an empty list is a clean sheet.
 * @throws TypeError or RangeError for flats, rasters or options that are none; what `signal` or
 *   `onProgress` ends the call with.
 * @example
 * ```ts
 * import { checkFlats, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 0, 1, 1]), [2, 2]), palette };
 * console.log(checkFlats(flats, { checks: ['bare'] })[0]?.message); // 1 pixel bare at [1, 0]
 * const exceptions = [{ check: 'bare', at: [1.5, 0.5], note: 'a hole that is meant' }] as const;
 * console.log(checkFlats(flats, { checks: ['bare'], exceptions }).length); // 0
 * ```
 */
export function checkFlats(flats: FlatsLike | PixelsLike, options?: CheckFlatsOptions): Finding[] {
  const checked = checkOptions(options, 'checkFlats', [
    'ink',
    'coverage',
    'palette',
    'report',
    'checks',
    'exceptions',
    'onProgress',
    'signal',
  ]);
  const exceptions = new Exceptions(checked.exceptions ?? checked.report?.exceptions);
  const names = { flats: 'flats', ink: 'ink', coverage: 'coverage', report: 'report' };
  const { found, ran, context } = runChecks(flats, checked, names);
  const kept = exceptions.keep(found);
  const stale = exceptions.unmatched(ran).map((exception) => staleFinding(exception, context.size));
  return sortFindings([...kept, ...stale]);
}
