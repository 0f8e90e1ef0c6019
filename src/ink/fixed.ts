import { checkNumber } from '../raster/checks.ts';
import { maskAbove } from './mask-above.ts';
import type { Method } from './threshold-method.ts';

/** Half coverage: where the geometric edge of an antialiased stroke lies. */
export const HALF = 127;

export interface FixedOptions {
  /**
   * Coverage above it is ink, 0 to 254; for `fixed` and, as the high threshold, for `hysteresis`.
   * @default 127, with `hysteresis` halfway from paper to solid ink as {@link chooseThreshold} measures them
   */
  readonly level?: number | undefined;
}

/** Ink is coverage above one level (global thresholding). */
export interface FixedChoice {
  readonly method: 'fixed';
  readonly level: number;
  readonly why: string;
}

/** Coverage above a level that is given, or above half. */
export const fixed: Method<FixedOptions, FixedChoice> = {
  options: ['level'],
  check({ level }) {
    if (level !== undefined) checkNumber(level, 'level', { max: 254, unit: 'coverage' });
  },
  settle({ level }) {
    const why = level === undefined ? 'half coverage' : 'the level was given';
    return { method: 'fixed', level: level ?? HALF, why };
  },
  apply: ({ level }, { data }, mask, tick) => maskAbove(data, level, mask, tick),
};
