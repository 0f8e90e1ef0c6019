import { checkOneOf, checkSize } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import { raster } from '../raster/raster.ts';
import type { Bounds, Mask, Point } from '../raster/types.ts';

/** How much a finding matters: what must be mended, what must be looked at, what is told. */
export type FindingSeverity = 'error' | 'warning' | 'information';

/** The gravest first. */
export const SEVERITIES: readonly FindingSeverity[] = ['error', 'warning', 'information'];

/** Something a person should look at, as plain data that JSON keeps. */
export interface Finding {
  /** Name of the check that found it. */
  readonly check: string;
  readonly severity: FindingSeverity;
  /** One sentence with the figures. */
  readonly message: string;
  /** Center of a pixel inside it: its first, row by row, where nothing else is said. */
  readonly at: Point;
  /** Where it lies, in whole pixels, half-open. */
  readonly bounds: Bounds;
  /** Pixels; 0 of what is nowhere in the picture, such as a swatch that is not used. */
  readonly area: number;
  /** Pixel edges, of what lies between two flats. */
  readonly length?: number;
  /** Names of the swatches concerned. */
  readonly swatches: readonly string[];
  /**
   * Its pixels: spans `y, x0, x1` one after another, row by row, each `[x0, x1)` of row y. Of what
   * lies between two flats, the pixels on both sides. Left out where the check tells no pixels.
   */
  readonly spans?: readonly number[];
  /** True where the check itself failed, with the reason in `message`. */
  readonly failed?: true;
}

/** Findings of `checkFlats` or `checkSheets`, perhaps read back from JSON. O(findings). */
export function checkFindings<F extends Finding>(findings: readonly F[]): readonly F[] {
  if (!Array.isArray(findings)) throw wrongKind('findings', 'an array of findings', findings);
  findings.forEach((finding: F, i) => {
    const isOne =
      typeof finding === 'object' &&
      finding !== null &&
      typeof finding.check === 'string' &&
      typeof finding.message === 'string' &&
      Array.isArray(finding.at) &&
      Array.isArray(finding.bounds);
    if (!isOne) throw wrongKind(`findings[${i}]`, 'a finding of checkFlats', finding);
    checkOneOf(finding.severity, `findings[${i}].severity`, SEVERITIES);
  });
  return findings;
}

/**
 * The pixels of a finding, to be shown over the picture. O(pixels).
 *
 * @param finding - As `checkFlats` gives it, or read back from JSON.
 * @param size - `[width, height]` of the picture.
 * @returns A mask of that size; where the finding tells no pixels, 1 within its bounds.
 * @throws TypeError or RangeError for a finding or a size that is none.
 * @example
 * ```ts
 * import { checkFlats, findingMask, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 0, 1, 1]), [2, 2]), palette };
 * const [finding] = checkFlats(flats, { checks: ['bare'] });
 * if (finding) console.log(findingMask(finding, [2, 2]).data.join(' ')); // 0 1 0 0
 * ```
 */
export function findingMask(finding: Finding, size: readonly [number, number]): Mask {
  const [width, height] = checkSize(size, 'size');
  if (typeof finding !== 'object' || finding === null || !Array.isArray(finding.bounds)) {
    throw wrongKind('finding', 'a finding of checkFlats', finding);
  }
  const data = new Uint8Array(width * height);
  eachSpan(finding, [width, height], (y, x0, x1) => data.fill(1, y * width + x0, y * width + x1));
  return raster(data, [width, height]);
}

/**
 * Visits the pixels of a finding as `[x0, x1)` of row y: its spans, or its bounds where it tells no
 * pixels. What lies outside the picture is a RangeError.
 */
export function eachSpan(
  { spans, bounds }: Pick<Finding, 'spans' | 'bounds'>,
  [width, height]: readonly [number, number],
  visit: (y: number, x0: number, x1: number) => void,
): void {
  const look = (y: number, x0: number, x1: number): void => {
    if (y < 0 || y >= height || x0 < 0 || x1 > width) {
      throw new RangeError(
        `finding must lie in the picture of ${width} × ${height}, got [${x0}, ${x1}) of row ${y}`,
      );
    }
    visit(y, x0, x1);
  };
  if (spans === undefined) {
    for (let y = bounds[1]; y < bounds[3]; y++) look(y, bounds[0], bounds[2]);
  } else {
    for (let k = 0; k < spans.length; k += 3) look(spans[k]!, spans[k + 1]!, spans[k + 2]!);
  }
}
