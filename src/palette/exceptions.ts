import { checkOptions } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Bounds } from '../raster/types.ts';

/** Findings of checks that are to be left out: those that match every field that is given. */
export interface FindingException {
  /** Name of the check. */
  readonly check: string;
  /** Findings that lie inside, `[x0, y0, x1, y1]` in pixels, half-open. */
  readonly bounds?: Readonly<Bounds> | undefined;
  /** Findings that concern this swatch. */
  readonly swatch?: string | undefined;
}

/** Checks a list of exceptions and copies it; errors name the path, such as `exceptions[0].check`. */
export function checkExceptions(value: unknown, name: string): FindingException[] {
  if (!Array.isArray(value)) throw wrongKind(name, 'an array of exceptions', value);
  return Array.from(value, (exception: FindingException, i) => {
    const at = `${name}[${i}]`;
    if (typeof exception !== 'object') throw wrongKind(at, 'an exception { check }', exception);
    const { check, bounds, swatch } = checkOptions(exception, at, ['check', 'bounds', 'swatch']);
    if (typeof check !== 'string') throw wrongKind(`${at}.check`, 'the name of a check', check);
    if (swatch !== undefined && typeof swatch !== 'string') {
      throw wrongKind(`${at}.swatch`, 'the name of a swatch', swatch);
    }
    if (bounds === undefined) return { check, ...(swatch === undefined ? {} : { swatch }) };
    const allowed = 'four numbers [x0, y0, x1, y1]';
    if (!Array.isArray(bounds)) throw wrongKind(`${at}.bounds`, allowed, bounds);
    if (bounds.length !== 4 || !bounds.every(Number.isFinite)) {
      throw wrongValue(`${at}.bounds`, allowed, bounds);
    }
    const [x0, y0, x1, y1] = bounds as unknown as Bounds;
    return { check, bounds: [x0, y0, x1, y1], ...(swatch === undefined ? {} : { swatch }) };
  });
}
