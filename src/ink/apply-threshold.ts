import { partOf, type Tick } from '../raster/progress.ts';
import { choose } from './choose-threshold.ts';
import { normalizeCoverage } from './normalize-coverage.ts';
import { coverageTones, lightTones } from './paper-grid.ts';
import {
  methodOf,
  type OwnOptions,
  type ThresholdChoice,
  type ThresholdMethod,
} from './threshold-table.ts';

/** What the options of a threshold ask for, checked. */
export interface ThresholdRule {
  readonly method: ThresholdMethod;
  readonly options: OwnOptions;
  readonly normalize: boolean;
}

/**
 * Writes the mask that a rule makes of a coverage; `mask` may be the coverage itself.
 *
 * @returns What the rule came to, and the pixels of ink.
 */
export function maskByRule(
  rule: ThresholdRule,
  data: Uint8Array,
  width: number,
  height: number,
  mask: Uint8Array,
  tick?: Tick,
): { choice: ThresholdChoice; ink: number } {
  const { method, options } = rule;
  const chosen = method === 'auto' ? choose(data, width, height, partOf(tick, 0, 0.3)) : undefined;
  const normalize = chosen?.choice.normalize ?? rule.normalize;
  if (normalize) {
    const tones = coverageTones(data, width, height);
    const grid = chosen?.grid ?? lightTones(tones, partOf(tick, 0.3, 0.4));
    normalizeCoverage(data, width, height, grid, mask, partOf(tick, 0.4, 0.5));
  }
  const page = { data: normalize ? mask : data, width, height };
  const settling = partOf(tick, 0.5, 0.6);
  const choice =
    method === 'auto'
      ? chosen!.choice
      : { ...methodOf(method).settle(options, page, settling), normalize };
  const ink = methodOf(choice.method).apply(choice, page, mask, partOf(tick, 0.6, 1));
  return { choice, ink };
}
