import type { CheckException } from '../palette/exceptions.ts';
import { checkSize } from '../raster/checks.ts';
import { checkPlan } from './check-plan.ts';
import { typeOf } from './marks/table.ts';
import type { Plan } from './plan.ts';
import type { PlanSettings } from './settings.ts';

/**
 * The plan for a picture of another size, such as a scan of the same drawing at another resolution.
 *
 * Coordinates are multiplied by the ratios of the sides. Of the settings, lengths (`maxGap`, windows
 * of a threshold) are multiplied by the square root of the two ratios' product, areas (`absorb`) by
 * the product; the bounds of exceptions grow to whole pixels. O(coordinates).
 *
 * @param plan - A plan; it is checked and left as it is.
 * @param size - `[width, height]` of the picture that the new plan is for, in pixels.
 * @throws TypeError or RangeError for a bad plan or size.
 * @example
 * ```ts
 * import { type Plan, scalePlan } from 'underink';
 * const palette = [{ name: 'shell', color: '#d2603a' }];
 * const marks = [{ point: [20, 7.5], swatch: 'shell' }] as const;
 * const plan: Plan = { version: 1, size: [80, 60], palette, marks };
 * console.log(JSON.stringify(scalePlan(plan, [160, 120]).marks[0])); // {"point":[40,15],"swatch":"shell"}
 * ```
 */
export function scalePlan(plan: Plan, size: readonly [number, number]): Plan {
  const { marks, settings, ...rest } = checkPlan(plan);
  const [width, height] = checkSize(size, 'size');
  const [sx, sy] = [width / plan.size[0], height / plan.size[1]];
  const scaled = marks.map((mark) => typeOf(mark).move(mark, ([x, y]) => [x * sx, y * sy]));
  const copy: Plan = { ...rest, size: [width, height], marks: scaled };
  if (settings === undefined) return copy;
  return {
    ...copy,
    settings: scaleSettings(settings, sx * sy, (one) => scaleException(one, sx, sy)),
  };
}

/** Settings for a picture whose areas are so many times as large. */
export function scaleSettings(
  settings: PlanSettings,
  area: number,
  moveException: (exception: CheckException) => CheckException,
): PlanSettings {
  const { maxGap, absorb, threshold, exceptions } = settings;
  const length = Math.sqrt(area);
  return {
    ...settings,
    ...(typeof maxGap === 'number' ? { maxGap: maxGap * length } : {}),
    ...(absorb === undefined ? {} : { absorb: absorb * area }),
    ...(threshold?.window === undefined
      ? {}
      : { threshold: { ...threshold, window: oddNear(threshold.window * length) } }),
    ...(exceptions === undefined ? {} : { exceptions: exceptions.map(moveException) }),
  };
}

function scaleException(
  { bounds, at, ...others }: CheckException,
  sx: number,
  sy: number,
): CheckException {
  const rest = at === undefined ? others : { ...others, at: [at[0] * sx, at[1] * sy] as const };
  if (bounds === undefined) return rest;
  const [x0, y0, x1, y1] = bounds;
  const [left, top] = [Math.floor(x0 * sx), Math.floor(y0 * sy)];
  return { ...rest, bounds: [left, top, Math.ceil(x1 * sx), Math.ceil(y1 * sy)] };
}

/** The odd number that is nearest, ties to the larger, within what a window may be. */
function oddNear(value: number): number {
  return Math.min(32_767, Math.max(3, 2 * Math.floor(value / 2) + 1));
}
