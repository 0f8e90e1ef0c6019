import { partOf, type Tick } from '../raster/progress.ts';
import { choose, HALF, type ThresholdChoice } from './choose-threshold.ts';
import { keepStrong } from './hysteresis.ts';
import { inkTones } from './ink-tones.ts';
import { maskAbove } from './mask-above.ts';
import { normalizeCoverage } from './normalize-coverage.ts';
import { histogramOf, levelOf } from './otsu.ts';
import { coverageTones, lightTones } from './paper-grid.ts';
import { maskSauvola } from './sauvola.ts';
import { sauvolaDefaults } from './sauvola-defaults.ts';

/** What the options of a threshold ask for, checked. */
export interface ThresholdRule {
  readonly method: ThresholdChoice['method'] | 'auto';
  readonly level?: number;
  readonly weak?: number;
  readonly window?: number;
  readonly k?: number;
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
  const { method: asked } = rule;
  const chosen = asked === 'auto' ? choose(data, width, height, partOf(tick, 0, 0.3)) : undefined;
  let source = data;
  if ((chosen?.choice ?? rule).normalize) {
    const tones = coverageTones(data, width, height);
    const grid = chosen?.grid ?? lightTones(tones, partOf(tick, 0.3, 0.4));
    normalizeCoverage(data, width, height, grid, mask, partOf(tick, 0.4, 0.5));
    source = mask;
  }
  const choice = chosen?.choice ?? settle(rule, source, width, height, partOf(tick, 0.5, 0.6));
  const { method, level = 0, weak = 0, window = 0, k = 0 } = choice;
  const last = partOf(tick, 0.6, 1);
  if (method === 'fixed' || method === 'otsu') {
    return { choice, ink: maskAbove(source, level, mask, last) };
  }
  if (source === mask) source = mask.slice();
  if (method === 'sauvola') {
    return { choice, ink: maskSauvola(source, width, height, { window, k }, mask, last) };
  }
  maskAbove(source, weak, mask, partOf(last, 0, 0.3));
  return { choice, ink: keepStrong(mask, width, height, source, level, partOf(last, 0.3, 1)) };
}

/** What a method that was asked for comes to on a coverage. */
function settle(
  { method, level, weak, window, k, normalize }: ThresholdRule,
  data: Uint8Array,
  width: number,
  height: number,
  tick: Tick | undefined,
): ThresholdChoice {
  const asked = { normalize, why: 'the method was given' };
  if (method === 'otsu') return { method, level: levelOf(histogramOf(data, tick)), ...asked };
  if (method === 'hysteresis') return { method, ...twoLevels(data, level, weak, tick), ...asked };
  if (method === 'sauvola') {
    if (window !== undefined && k !== undefined) return { method, window, k, ...asked };
    const found = sauvolaDefaults(data, width, height, tick);
    return { method, window: window ?? found.window, k: k ?? found.k, ...asked };
  }
  const why = level === undefined ? 'half coverage' : 'the level was given';
  return { method: 'fixed', level: level ?? HALF, normalize, why };
}

/** Strong and weak level of hysteresis: halfway from paper to solid ink, and half of that way. */
function twoLevels(
  data: Uint8Array,
  level: number | undefined,
  weak: number | undefined,
  tick: Tick | undefined,
): { level: number; weak: number } {
  if (level !== undefined) return { level, weak: weak ?? Math.floor(level / 2) };
  const { paper, solid } = inkTones(histogramOf(data, tick));
  const strong = Math.max(weak ?? 0, Math.min(254, Math.floor((paper + solid) / 2)));
  return { level: strong, weak: weak ?? Math.floor((paper + strong) / 2) };
}
