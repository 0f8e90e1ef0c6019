import { checkOptions, checkPoint } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Bounds, Point } from '../raster/types.ts';

/** A finding that is meant so and left out: one that matches every field that is given. */
export interface CheckException {
  /** Name of the check. */
  readonly check: string;
  /** A point of the finding: it holds the pixel, or its bounds do where it tells no pixels. */
  readonly at?: Point | undefined;
  /** Findings that lie inside, `[x0, y0, x1, y1]` in pixels, half-open. */
  readonly bounds?: Readonly<Bounds> | undefined;
  /** Findings that concern this swatch. */
  readonly swatch?: string | undefined;
  /** Why it is meant so, for people. */
  readonly note?: string | undefined;
}

/**
 * Checks a list of exceptions and copies it; errors name the path, such as `exceptions[0].check`.
 * `extra` are names of further fields, which are the caller's to check.
 */
export function checkExceptions<E extends CheckException = CheckException>(
  value: unknown,
  name: string,
  extra: readonly (keyof E & string)[] = [],
): E[] {
  if (!Array.isArray(value)) throw wrongKind(name, 'an array of exceptions', value);
  return Array.from(value, (exception: E, i) => checkException(exception, `${name}[${i}]`, extra));
}

function checkException<E extends CheckException>(
  exception: E,
  name: string,
  extra: readonly (keyof E & string)[],
): E {
  if (typeof exception !== 'object' || exception === null) {
    throw wrongKind(name, 'an exception { check }', exception);
  }
  checkOptions(exception, name, ['check', 'at', 'bounds', 'swatch', 'note', ...extra]);
  const { check, at, bounds, swatch, note } = exception;
  if (typeof check !== 'string') throw wrongKind(`${name}.check`, 'the name of a check', check);
  if (at !== undefined) checkPoint(at, `${name}.at`);
  if (swatch !== undefined && typeof swatch !== 'string') {
    throw wrongKind(`${name}.swatch`, 'the name of a swatch', swatch);
  }
  if (note !== undefined && typeof note !== 'string') {
    throw wrongKind(`${name}.note`, 'a string', note);
  }
  if (bounds !== undefined) {
    const allowed = 'four numbers [x0, y0, x1, y1]';
    if (!Array.isArray(bounds)) throw wrongKind(`${name}.bounds`, allowed, bounds);
    if (bounds.length !== 4 || !bounds.every(Number.isFinite)) {
      throw wrongValue(`${name}.bounds`, allowed, bounds);
    }
  }
  const copy = { ...exception };
  if (at !== undefined) Object.assign(copy, { at: [...at] });
  if (bounds !== undefined) Object.assign(copy, { bounds: [...bounds] });
  return copy;
}
