import { checkNumber, checkOneOf, checkOptions } from '../raster/checks.ts';
import type { Dense, Point } from '../raster/types.ts';
import { checkGaps } from './asked.ts';
import { checkGroups } from './groups.ts';

export interface SealOptions {
  /**
   * Longest gap to close, in pixels. `auto` follows the median stroke width: 8 times that plus 6
   * with `joint`, where length is one of the things that speak against a gap, 2¼ times that plus 4
   * with `link`. A larger number than the 8-fold is as good as `auto` with `joint`.
   * @default 'auto'
   */
  maxGap?: number | 'auto';
  /**
   * From 0 (close whatever looks like a gap) to 1 (close hardly any): what is closed must have
   * log-odds of at least 12 · (caution − ½), so a probability of ½ by default. @default 0.5
   */
  caution?: number;
  /** Groups of points; points of different groups are to lie in different regions. @default [] */
  apart?: readonly (readonly Point[])[];
  /** Groups of points; no bridge is to separate points of one group. @default [] */
  together?: readonly (readonly Point[])[];
  /**
   * Gaps that are closed whatever else speaks against it, by two points each; an end goes to the
   * nearest ink within a stroke's width, at least 4 pixels. @default []
   */
  bridge?: readonly (readonly [Point, Point])[];
  /**
   * Gaps that stay open: no bridge is drawn between places that are as near as that to the two
   * points. @default []
   */
  open?: readonly (readonly [Point, Point])[];
  /**
   * `joint` decides on all places that may be gaps together, by the regions that would come of it;
   * `link` joins ends of strokes, one by one; `none` closes nothing. @default 'joint'
   */
  method?: 'joint' | 'link' | 'none';
}

const OPTIONS = ['maxGap', 'caution', 'apart', 'together', 'bridge', 'open', 'method'] as const;

/** The options with their defaults; what `caution` asks for as log-odds. */
export function checkSealOptions(
  options: SealOptions | undefined,
  { width, height }: Dense<Uint8Array>,
  call: string,
): Required<Omit<SealOptions, 'caution'>> & { bias: number } {
  const checked = checkOptions(options, call, OPTIONS);
  const { maxGap = 'auto', caution = 0.5, method = 'joint' } = checked;
  if (maxGap !== 'auto') checkNumber(maxGap, 'maxGap', { unit: 'pixels' });
  checkNumber(caution, 'caution', { max: 1 });
  checkOneOf(method, 'method', ['joint', 'link', 'none']);
  const apart = checkGroups(checked.apart, 'apart', width, height);
  const together = checkGroups(checked.together, 'together', width, height);
  const bridge = checkGaps(checked.bridge, 'bridge', width, height);
  const open = checkGaps(checked.open, 'open', width, height);
  return { maxGap, bias: 12 * (caution - 0.5), apart, together, bridge, open, method };
}
