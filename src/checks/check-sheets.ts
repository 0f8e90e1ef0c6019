import type { FlatsLike } from '../palette/types.ts';
import { checkOptions } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Bounds, MaskLike, PixelsLike } from '../raster/types.ts';
import type { Finding } from './finding.ts';
import { describePlace, spansOfLabels } from './places.ts';
import { type CheckFlatsOptions, runChecks, withoutExceptions } from './run-checks.ts';
import type { Sheet } from './sheet.ts';

/** One sheet of a production. */
export interface NamedSheet {
  /** Unique among the sheets. */
  readonly name: string;
  readonly flats: FlatsLike | PixelsLike;
  readonly ink?: MaskLike;
}

/** A finding with the name of its sheet. */
export interface SheetFinding extends Finding {
  readonly sheet: string;
}

/**
 * Checks the sheets of a production, each as `checkFlats` does, and all against one another: a
 * swatch name must have one color on all sheets (check `colors`; its count, bounds and spans are
 * the swatch's pixels). Findings come sheet by sheet; a color that differs is a finding of each
 * sheet that departs from the first one with the name. O(pixels + findings · log).
 *
 * @param options - As for `checkFlats`; the ink stands with each sheet.
 * @throws TypeError or RangeError, naming the place in `sheets`, for what is no sheet; for two
 *   sheets of one name.
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
  const checked = checkOptions(options, 'checkSheets', ['palette', 'checks', 'exceptions']);
  checkNames(sheets);
  const known = new Map<string, { color: string; sheet: string }>();
  return sheets.flatMap(({ name, flats, ink }, i) => {
    const at = `sheets[${i}]`;
    const settings = ink === undefined ? checked : { ...checked, ink };
    const { sheet, found } = runChecks(flats, settings, `${at}.flats`, `${at}.ink`);
    const messages = new Map<number, string>();
    sheet.flats.palette.forEach(({ name: swatch, color }, index) => {
      if (index === 0) return;
      const first = known.get(swatch);
      if (first === undefined) known.set(swatch, { color, sheet: name });
      else if (first.color !== color) {
        messages.set(index, `"${swatch}" is ${color}, on "${first.sheet}" ${first.color}`);
      }
    });
    const kept = withoutExceptions(differing(sheet, messages), checked.exceptions ?? []);
    return [...found, ...kept].map((finding) => ({ sheet: name, ...finding }));
  });
}

function checkNames(sheets: readonly NamedSheet[]): void {
  if (!Array.isArray(sheets)) throw wrongKind('sheets', 'an array of { name, flats, ink }', sheets);
  const seen = new Set<string>();
  sheets.forEach((sheet: NamedSheet, i) => {
    const { name } = checkOptions(sheet, `sheets[${i}]`, ['name', 'flats', 'ink']);
    if (typeof name !== 'string') throw wrongKind(`sheets[${i}].name`, 'a string', name);
    if (seen.has(name)) throw wrongValue(`sheets[${i}].name`, 'unique among the sheets', name);
    seen.add(name);
  });
}

/** A finding per swatch: all its pixels as one place; of an unused one, nothing at the origin. */
function differing({ flats }: Sheet, messages: ReadonlyMap<number, string>): Finding[] {
  if (messages.size === 0) return [];
  const { data, shape } = flats.indices;
  const labelOf = new Int32Array(flats.palette.length);
  [...messages.keys()].forEach((index, k) => {
    labelOf[index] = k + 1;
  });
  const labels = Int32Array.from(data, (index) => labelOf[index]!);
  const spans = spansOfLabels(labels, shape[0]!, messages.size);
  return Array.from(messages, ([index, message], k) => {
    const own = spans[k]!;
    const nothing = { count: 0, bounds: [0, 0, 0, 0] as Bounds, at: [0, 0] as const, spans: own };
    const place = own.length > 0 ? describePlace(own) : nothing;
    return { check: 'colors', message, ...place, swatches: [flats.palette[index]!.name] };
  });
}
