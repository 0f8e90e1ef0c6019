import { checkNumber, checkOptions } from '../raster/checks.ts';
import type { Dense, Point } from '../raster/types.ts';
import { checkGaps, type Gap } from './asked.ts';
import { checkGroups } from './groups.ts';

export interface SealOptions {
  /**
   * Longest gap to close, in pixels; 0 closes none. `auto` follows the median stroke width: 8 times
   * that plus 6. Length is one of the things that speak against a gap, so a larger number is as
   * good as `auto`. @default 'auto'
   */
  readonly maxGap?: number | 'auto' | undefined;
  /**
   * From 0 (close whatever looks like a gap) to 1 (close hardly any): what is closed must have
   * log-odds of at least 12 · (caution − ½), so a probability of ½ by default. @default 0.5
   */
  readonly caution?: number | undefined;
  /** Groups of points; points of different groups are to lie in different regions. @default [] */
  readonly apart?: readonly (readonly Point[])[] | undefined;
  /** Groups of points; no bridge is to separate points of one group. @default [] */
  readonly together?: readonly (readonly Point[])[] | undefined;
  /**
   * Gaps that are closed whatever else speaks against it, by two points each; an end goes to the
   * nearest ink within a stroke's width, at least 4 pixels. @default []
   */
  readonly bridge?: readonly (readonly [Point, Point])[] | undefined;
  /**
   * Gaps that stay open: no bridge is drawn between places that are as near as that to the two
   * points. @default []
   */
  readonly open?: readonly (readonly [Point, Point])[] | undefined;
}

const OPTIONS = ['maxGap', 'caution', 'apart', 'together', 'bridge', 'open'] as const;

/** What the options ask for. */
export interface SealRule {
  readonly maxGap: number | 'auto';
  /** Least log-odds of a bridge that is drawn. */
  readonly bias: number;
  readonly apart: readonly (readonly Point[])[];
  readonly together: readonly (readonly Point[])[];
  readonly bridge: readonly Gap[];
  readonly open: readonly Gap[];
}

/** The options with their defaults; what `caution` asks for as log-odds. */
export function checkSealOptions(
  options: SealOptions | undefined,
  { width, height }: Dense<Uint8Array>,
  call: string,
): SealRule {
  const checked = checkOptions(options, call, OPTIONS);
  const { maxGap = 'auto', caution = 0.5 } = checked;
  if (maxGap !== 'auto') checkNumber(maxGap, 'maxGap', { unit: 'pixels' });
  checkNumber(caution, 'caution', { max: 1 });
  const apart = checkGroups(checked.apart, 'apart', width, height);
  const together = checkGroups(checked.together, 'together', width, height);
  const bridge = checkGaps(checked.bridge, 'bridge', width, height);
  const open = checkGaps(checked.open, 'open', width, height);
  return { maxGap, bias: biasOf(caution), apart, together, bridge, open };
}

/** Least log-odds of a bridge that is drawn. */
export function biasOf(caution: number): number {
  return 12 * (caution - 0.5);
}
