import type { FlatsLike, Swatch } from '../palette/types.ts';
import { coverageArgument, maskArgument } from '../raster/arguments.ts';
import { checkOneOf, checkOptions } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import { raster } from '../raster/raster.ts';
import type { Bounds, CoverageLike, Mask, MaskLike, PixelsLike } from '../raster/types.ts';
import { packMask } from '../runs/pack.ts';
import { bare, blended, specks } from './area-checks.ts';
import type { Check, Finding } from './finding.ts';
import { seams } from './seams.ts';
import { type Sheet, sheetOf } from './sheet.ts';

/** Name of a check of the library. */
export type CheckName = 'bare' | 'blended' | 'specks' | 'seams';

/** Findings to be left out: those that match every field that is given. */
export interface CheckException {
  readonly check: string;
  /** Findings that lie inside, `[x0, y0, x1, y1]`. */
  readonly bounds?: Bounds;
  /** Findings that concern this swatch. */
  readonly swatch?: string;
}

export interface CheckFlatsOptions {
  /** The ink over the flats; with it, seams are checked. @default none */
  ink?: MaskLike;
  /** Instead of `ink`: coverage above 127 counts as ink. @default none */
  coverage?: CoverageLike;
  /** What a picture may hold; a pixel of another color is blended. @default its solid colors */
  palette?: readonly Swatch[];
  /** Which checks, of the library or made by `defineCheck`. @default all that can be run */
  checks?: readonly (CheckName | Check)[];
  /** Findings to be left out. @default [] */
  exceptions?: readonly CheckException[];
}

const CHECKS: Readonly<Record<CheckName, Check>> = { bare, blended, specks, seams };

/**
 * Checks flats before they are handed on.
 *
 * - `bare`: pixels that no flat covers.
 * - `blended`: in a picture, pixels of partial alpha or of a color that the palette lacks; without a
 *   palette, of a color that nowhere fills a square of 2 × 2 pixels.
 * - `specks`: 4-connected areas of one swatch of at most 8 pixels.
 * - `seams`: two flats that meet off the ink; needs `ink` or `coverage`.
 *
 * Findings come check by check, each connected place one, in the order of its first pixel; open
 * seams with the longest first. O(pixels + findings · log).
 *
 * @param flats - Flats, or a picture of flats in 1 to 4 channels.
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
  const checked = checkOptions(options, 'checkFlats', names);
  const read = sheetOf(flats, checked.palette);
  const ink = inkOf(checked, read);
  const sheet: Sheet = ink === undefined ? read : { ...read, ink };
  const checks = checksOf(checked.checks, ink !== undefined);
  const exceptions = checked.exceptions ?? [];
  return checks.flatMap(({ name, run }) =>
    run(sheet)
      .map((finding): Finding => ({ check: name, ...finding }))
      .filter((finding) => !exceptions.some((exception) => excepts(exception, finding))),
  );
}

function inkOf({ ink, coverage }: CheckFlatsOptions, { flats }: Sheet): Mask | undefined {
  if (ink === undefined && coverage === undefined) return undefined;
  const name = ink === undefined ? 'coverage' : 'ink';
  const dense = ink === undefined ? coverageArgument(coverage!, name) : maskArgument(ink, name);
  const { data, width, height } = dense;
  const [w, h] = flats.indices.shape as [number, number];
  if (width !== w || height !== h) {
    throw new RangeError(
      `${name} must have the size of flats, ${w} × ${h}, got ${width} × ${height}`,
    );
  }
  if (ink !== undefined) packMask(dense, name);
  const mask = ink === undefined ? data.map((cover) => (cover > 127 ? 1 : 0)) : data;
  return raster(mask, [width, height]);
}

function checksOf(wanted: CheckFlatsOptions['checks'], hasInk: boolean): Check[] {
  if (wanted === undefined) {
    return Object.values(CHECKS).filter((check) => hasInk || check !== seams);
  }
  if (!Array.isArray(wanted)) throw wrongKind('checks', 'an array of checks', wanted);
  return wanted.map((check: unknown, i) => {
    if (typeof check === 'object' && check !== null && 'run' in check) return check as Check;
    return CHECKS[checkOneOf(check, `checks[${i}]`, Object.keys(CHECKS) as CheckName[])];
  });
}

function excepts({ check, bounds, swatch }: CheckException, finding: Finding): boolean {
  if (check !== finding.check) return false;
  if (swatch !== undefined && !finding.swatches.includes(swatch)) return false;
  if (bounds === undefined) return true;
  const [x0, y0, x1, y1] = finding.bounds;
  return x0 >= bounds[0] && y0 >= bounds[1] && x1 <= bounds[2] && y1 <= bounds[3];
}
