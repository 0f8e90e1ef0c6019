import { parseColor } from '../color/hex.ts';
import { checkList, checkString } from '../raster/checks.ts';
import { didYouMean, wrongKind, wrongValue } from '../raster/errors.ts';
import type { Swatch } from './types.ts';

/** The reserved name of `palette[0]`: nothing laid yet. */
export const BARE = 'bare';

/** What stands first in a palette that is made here. */
export const BARE_SWATCH: Swatch = Object.freeze({ name: BARE, color: '#000000' });

/** `palette` plus `bare`: what a Uint16 index can tell apart. */
export const MAX_SWATCHES = 65_536;

/**
 * A list of swatches with unique, non-empty names and valid colors; the result has its colors in
 * lower case. `bare` says where the reserved name stands: `first` in the palette of flats, `never`
 * in a list of colors to lay, `either` where both kinds of list are taken. O(swatches).
 */
export function checkPalette(
  palette: readonly Swatch[],
  name: string,
  bare: 'first' | 'never' | 'either',
): Swatch[] {
  const swatches = checkList(palette, name, 'an array of swatches { name, color }');
  const most = bare === 'never' ? MAX_SWATCHES - 1 : MAX_SWATCHES;
  if (palette.length > most) {
    throw new RangeError(`${name} must hold at most ${most} swatches, got ${palette.length}`);
  }
  if (bare === 'first' && palette.length === 0) {
    throw new RangeError(`${name} must start with the swatch "${BARE}", got an empty list`);
  }
  const seen = new Set<string>();
  return swatches.map((swatch: unknown, i) => {
    const at = `${name}[${i}]`;
    if (typeof swatch !== 'object' || swatch === null) {
      throw wrongKind(at, 'a swatch { name, color }', swatch);
    }
    const { name: own, color } = swatch as Swatch;
    if (checkString(own, `${at}.name`) === '') {
      throw wrongValue(`${at}.name`, 'a string that is not empty', own);
    }
    if (i === 0 && bare === 'first' && own !== BARE) throw wrongValue(`${at}.name`, '"bare"', own);
    if (own === BARE && (i > 0 || bare === 'never')) {
      throw wrongValue(`${at}.name`, 'a name other than the reserved "bare"', own);
    }
    if (seen.has(own)) {
      throw wrongValue(`${at}.name`, `unique in ${name}`, own);
    }
    seen.add(own);
    parseColor(color, `${at}.color`);
    return { name: own, color: color.toLowerCase() };
  });
}

/** Most near names that an unknown one is answered with. */
export const MOST_NEAR = 3;

/** Place of the swatch of that name; an unknown name is a RangeError that lists the near ones. */
export function swatchIndex(palette: readonly Swatch[], swatch: string, name: string): number {
  checkString(swatch, name, 'the name of a swatch');
  const index = palette.findIndex((s) => s.name === swatch);
  if (index < 0) throw unknownSwatch(palette, swatch, name);
  return index;
}

/** `swatchIndex` for many names of one palette: O(swatches) once, then O(1) each. */
export function swatchFinder(palette: readonly Swatch[]): (swatch: string, name: string) => number {
  const places = new Map(palette.map((swatch, i) => [swatch.name, i]));
  return (swatch, name) => {
    checkString(swatch, name, 'the name of a swatch');
    const index = places.get(swatch);
    if (index === undefined) throw unknownSwatch(palette, swatch, name);
    return index;
  };
}

function unknownSwatch(palette: readonly Swatch[], swatch: string, name: string): RangeError {
  const names = palette.map((s) => s.name);
  const hint = didYouMean(swatch, names, MOST_NEAR);
  return wrongValue(name, 'the name of a swatch of the palette', swatch, hint);
}
