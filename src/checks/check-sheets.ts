import { flatsHead } from '../palette/flats-argument.ts';
import type { FlatsLike } from '../palette/types.ts';
import { wrongKind } from '../raster/errors.ts';
import type { MaskLike } from '../raster/types.ts';
import { type CheckFlatsOptions, checkFlats } from './check-flats.ts';
import type { Finding } from './finding.ts';

/** One sheet of a production. */
export interface NamedSheet {
  readonly name: string;
  readonly flats: FlatsLike;
  readonly ink?: MaskLike;
}

/** A finding with the name of its sheet. */
export interface SheetFinding extends Finding {
  readonly sheet: string;
}

/**
 * Checks the sheets of a production, each as `checkFlats` does, and all against one another: a
 * swatch name must have one color on all sheets (check `colors`). Findings come sheet by sheet; a
 * color that differs is a finding of the later sheet. O(pixels + swatches).
 *
 * @throws TypeError or RangeError, naming the sheet, for one that is none.
 * @example
 * ```ts
 * import { checkSheets, raster } from 'underink';
 * const sheet = (name: string, color: string) => ({
 *   name,
 *   flats: {
 *     indices: raster(new Uint8Array(16).fill(1), [4, 4]),
 *     palette: [{ name: 'bare', color: '#000000' }, { name: 'fur', color }],
 *   },
 * });
 * const found = checkSheets([sheet('one', '#8a5d42'), sheet('two', '#8a5d43')]);
 * console.log(found[0]?.sheet, found[0]?.message); // two "fur" is #8a5d43, on "one" #8a5d42
 * ```
 */
export function checkSheets(
  sheets: readonly NamedSheet[],
  options?: Omit<CheckFlatsOptions, 'ink' | 'coverage'>,
): SheetFinding[] {
  if (!Array.isArray(sheets)) throw wrongKind('sheets', 'an array of { name, flats, ink }', sheets);
  const known = new Map<string, { color: string; sheet: string }>();
  return sheets.flatMap(({ name, flats, ink }: NamedSheet, i) => {
    if (typeof name !== 'string') throw wrongKind(`sheets[${i}].name`, 'a text', name);
    const found = checkFlats(flats, ink === undefined ? options : { ...options, ink });
    const { palette, indices } = flatsHead(flats, `sheets[${i}].flats`);
    const { width, height } = indices;
    for (const { name: swatch, color } of palette.slice(1)) {
      const first = known.get(swatch);
      if (first === undefined) known.set(swatch, { color, sheet: name });
      else if (first.color !== color) {
        found.push({
          check: 'colors',
          message: `"${swatch}" is ${color}, on "${first.sheet}" ${first.color}`,
          count: 1,
          bounds: [0, 0, width, height],
          at: [0.5, 0.5],
          swatches: [swatch],
        });
      }
    }
    return found.map((finding) => ({ sheet: name, ...finding }));
  });
}
