import { checkOneOf, checkOptions, checkPoint } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Connectivity, Dense, MaskLike, RasterLike } from '../raster/types.ts';
import { checkValues, isOneOf, type PixelValue } from '../raster/value.ts';
import { barrierArgument } from '../runs/barrier.ts';
import type { MatchRule } from './matcher.ts';

/** Which pixels a call of this folder takes. */
export interface MatchOptions {
  /**
   * Largest difference from the value looked for, in each channel: a number, or one per channel;
   * `Infinity` takes whatever is a number. @default 0
   */
  readonly tolerance?: PixelValue | undefined;
  /** Mask `[w, h]` of pixels that are never taken. @default none */
  readonly barrier?: MaskLike | undefined;
  /**
   * Values that may be taken: a number, or a list of which each is a number (in every channel) or
   * one per channel; all others act as a barrier. @default none: all may be taken
   */
  readonly only?: number | readonly PixelValue[] | undefined;
}

export interface FloodOptions extends MatchOptions {
  /** Neighbors that connect pixels. @default 4 */
  readonly connectivity?: Connectivity | undefined;
}

/** The names of `MatchOptions`. */
export const MATCH_NAMES = ['tolerance', 'barrier', 'only'] as const;

/** The options of a flood, with its connectivity. */
export function checkFloodOptions(
  options: FloodOptions | undefined,
  call: string,
): FloodOptions & { connectivity: Connectivity } {
  const names = ['connectivity', ...MATCH_NAMES] as const;
  const { connectivity = 4, ...match } = checkOptions(options, call, names);
  return { ...match, connectivity: checkOneOf(connectivity, 'connectivity', [4, 8]) };
}

/** The pixel of a seed, which must lie in the raster. */
export function checkSeed(
  value: unknown,
  name: string,
  { width, height }: Dense,
): readonly [number, number] {
  const [x, y] = checkPoint(value, name);
  if (x < 0 || y < 0 || x >= width || y >= height) {
    throw wrongValue(name, `inside the raster of ${width} × ${height}`, value);
  }
  return [Math.floor(x), Math.floor(y)];
}

/** The part of a rule that options give; a barrier must not share memory with `written`. */
export function checkMatch(
  { tolerance = 0, barrier, only }: MatchOptions,
  dense: Dense,
  written?: RasterLike,
): Omit<MatchRule, 'value'> {
  const limits = checkTolerance(tolerance, dense.channels);
  const values = only === undefined ? undefined : checkValues(only, 'only', dense);
  const packed = barrierArgument(barrier, dense, written);
  const mayTake = values === undefined ? undefined : isOneOf(dense, values);
  return { tolerance: limits, barrier: packed, mayTake };
}

function checkTolerance(value: unknown, channels: number): number[] {
  const allowed = channels === 1 ? 'a number >= 0' : `a number >= 0 or ${channels} of them`;
  const list = typeof value === 'number' ? new Array<number>(channels).fill(value) : value;
  if (!Array.isArray(list)) throw wrongKind('tolerance', allowed, value);
  if (list.length !== channels) throw wrongValue('tolerance', allowed, value);
  for (const limit of list as unknown[]) {
    if (typeof limit !== 'number') throw wrongKind('tolerance', allowed, value);
    if (!(limit >= 0)) throw wrongValue('tolerance', allowed, value);
  }
  return list as number[];
}

/** The samples of a pixel. */
export function samplesAt({ data, width, channels }: Dense, x: number, y: number): number[] {
  const i = (y * width + x) * channels;
  return Array.from({ length: channels }, (_, c) => data[i + c]!);
}
