import { checkSameSize, pixelsArgument } from '../../raster/arguments.ts';
import { checkOptions, checkSize } from '../../raster/checks.ts';
import { raster } from '../../raster/raster.ts';
import type { Bounds, Pixels, PixelsLike } from '../../raster/types.ts';
import { checkFindings, eachSpan, type Finding, SEVERITIES } from '../finding.ts';
import { shrink } from './shrink.ts';
import { TONES } from './tones.ts';

export interface DrawFindingsOptions {
  /** A picture of that size to draw on, as `composeSheet` gives it. @default transparent pixels */
  readonly over?: PixelsLike | undefined;
}

/** A frame stands so far from what it is round, and is as wide, in parts of the longer side. */
const FRAME = 1 / 600;
const LEAST_FRAME = 2;

/**
 * Draws findings: their pixels in the color of their severity, red for errors, amber for warnings,
 * blue for information, and a frame round each, so that a single pixel is seen on a page. Graver ones
 * lie over others. What is nowhere in the picture, of area 0, is not drawn. O(pixels + findings' bounds).
 *
 * @param findings - As `checkFlats` gives them, or read back from JSON.
 * @param size - `[width, height]` of the picture.
 * @returns RGBA Uint8 `[w, h, 4]`, to lay over the sheet: transparent beside the marks, unless `over`
 *   gives a picture.
 * @throws TypeError or RangeError for findings that are none or lie outside the picture, for a size
 *   or a picture that is none, and for a picture of another size.
 * @example
 * ```ts
 * import { checkFlats, drawFindings, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 0, 1, 1]), [4, 1]), palette };
 * const found = checkFlats(flats, { checks: ['bare'] });
 * console.log([...drawFindings(found, [4, 1]).data.subarray(4, 8)].join(' ')); // 214 0 50 255
 * ```
 */
export function drawFindings(
  findings: readonly Finding[],
  size: readonly [number, number],
  options?: DrawFindingsOptions,
): Pixels<Uint8Array> {
  const sides = checkSize(size, 'size');
  const [width, height] = sides;
  const { over } = checkOptions(options, 'drawFindings', ['over']);
  const drawn = over === undefined ? new Uint8Array(4 * width * height) : copyOf(over, sides);
  const frame = Math.max(LEAST_FRAME, Math.round(FRAME * Math.max(width, height)));
  const placed = checkFindings(findings).filter(({ area }) => area > 0);
  for (const severity of [...SEVERITIES].reverse()) {
    const tone = [...TONES[severity], 255];
    const fill = (y: number, x0: number, x1: number): void => {
      for (let k = 4 * (y * width + x0); k < 4 * (y * width + x1); k += 4) drawn.set(tone, k);
    };
    for (const finding of placed) {
      if (finding.severity !== severity) continue;
      eachSpan(finding, sides, finding.spans === undefined ? () => {} : fill);
      drawFrame(finding.bounds, frame, sides, fill);
    }
  }
  return raster(drawn, [width, height, 4]);
}

/** A picture as 8 bit RGBA, in storage of its own. */
function copyOf(
  over: PixelsLike,
  [width, height]: readonly [number, number],
): Uint8Array<ArrayBuffer> {
  const dense = pixelsArgument(over, 'over');
  checkSameSize({ width, height }, 'size', dense, 'over');
  return shrink(dense, [0, 0, width, height], 1).data;
}

/** A frame, as wide as it is away from the bounds; what falls outside the picture is left out. */
function drawFrame(
  [x0, y0, x1, y1]: Bounds,
  frame: number,
  [width, height]: readonly [number, number],
  fill: (y: number, x0: number, x1: number) => void,
): void {
  const row = (y: number, from: number, to: number): void => {
    const [left, right] = [Math.max(0, from), Math.min(width, to)];
    if (y >= 0 && y < height && left < right) fill(y, left, right);
  };
  for (let y = y0 - 2 * frame; y < y1 + 2 * frame; y++) {
    if (y < y0 - frame || y >= y1 + frame) row(y, x0 - 2 * frame, x1 + 2 * frame);
    else {
      row(y, x0 - 2 * frame, x0 - frame);
      row(y, x1 + frame, x1 + 2 * frame);
    }
  }
}
