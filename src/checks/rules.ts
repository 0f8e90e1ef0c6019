import { checkNumber } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import { TICK_ROWS } from '../raster/progress.ts';
import type { CheckContext } from './context.ts';
import { defineCheck, type FlatsCheck, type FoundPlace } from './define-check.ts';
import { edgePlaces } from './edges.ts';
import {
  amount,
  describePlace,
  placesOfLabels,
  spansOfValues,
  where,
  wholePicture,
} from './places.ts';

/**
 * A rule for `checkFlats`: every region of swatch `a` must share a border with one of swatch `b`, under
 * ink or off it. One finding, an error, for each region that does not. Where `a` is not used there is
 * nothing to say; where `b` is not, every region of `a` is a finding. O(pixels).
 *
 * @throws TypeError or RangeError for names that are none, or one.
 * @example
 * ```ts
 * import { checkFlats, mustTouch, raster } from 'underink';
 * const palette = ['bare', 'scarf', 'fur', 'sky'].map((name, i) => ({ name, color: `#00000${i}` }));
 * const flats = { indices: raster(new Uint8Array([1, 2, 3, 1]), [4, 1]), palette };
 * const found = checkFlats(flats, { checks: [mustTouch('scarf', 'fur')] });
 * console.log(found[0]?.message); // "scarf" of 1 pixel does not touch "fur" at [3, 0]
 * ```
 */
export function mustTouch(a: string, b: string): FlatsCheck {
  checkPair(a, b);
  return defineCheck(
    `"${a}" must touch "${b}"`,
    (context) => {
      const { adjacency, regionSwatch } = context;
      const [first, second] = [indexOf(context, a), indexOf(context, b)];
      const touches = new Uint8Array(regionSwatch.length);
      for (let k = 0; k < adjacency.a.length; k++) {
        const [p, q] = [adjacency.a[k]!, adjacency.b[k]!];
        if (regionSwatch[p] === second) touches[q] = 1;
        if (regionSwatch[q] === second) touches[p] = 1;
      }
      return regionsOf(context, first, (id) => touches[id] === 0, `does not touch "${b}"`);
    },
    { severity: 'error' },
  );
}

/**
 * A rule for `checkFlats`: swatches `a` and `b` share no border, under ink or off it. One finding, an
 * error, for each place where they do, the longest first. O(pixels).
 *
 * @throws TypeError or RangeError for names that are none, or one.
 * @example
 * ```ts
 * import { checkFlats, neverTouches, raster } from 'underink';
 * const palette = ['bare', 'scarf', 'sky'].map((name, i) => ({ name, color: `#00000${i}` }));
 * const flats = { indices: raster(new Uint8Array([1, 2, 1, 1]), [2, 2]), palette };
 * const found = checkFlats(flats, { checks: [neverTouches('scarf', 'sky')] });
 * console.log(found[0]?.message); // "scarf" touches "sky" over 2 pixel edges at [0, 0]
 * ```
 */
export function neverTouches(a: string, b: string): FlatsCheck {
  checkPair(a, b);
  return defineCheck(
    `"${a}" never touches "${b}"`,
    (context) => {
      const { flats, size, tick } = context;
      const { data } = flats.indices;
      const [first, second] = [indexOf(context, a), indexOf(context, b)];
      const isBorder = (i: number, j: number): boolean =>
        (data[i] === first && data[j] === second) || (data[i] === second && data[j] === first);
      return edgePlaces(data, size[0], isBorder, tick).map((place) => {
        const edges = amount(place.length, 'pixel edge');
        const message = `"${a}" touches "${b}" over ${edges} ${where(place)}`;
        const swatches = [a, b];
        return { message, ...describePlace(place.spans), length: place.length, swatches };
      });
    },
    { severity: 'error' },
  );
}

/**
 * A rule for `checkFlats`: swatch `a` lies within swatch `b`, which means that its regions share
 * borders with nothing else, and do not reach the picture's border. One finding, an error, for each
 * region that does. O(pixels).
 *
 * @throws TypeError or RangeError for names that are none, or one.
 * @example
 * ```ts
 * import { checkFlats, raster, staysWithin } from 'underink';
 * const palette = ['bare', 'pupil', 'eye', 'fur'].map((name, i) => ({ name, color: `#00000${i}` }));
 * const row = [2, 2, 2, 2, 2, 1, 1, 3, 2, 2, 2, 2];
 * const flats = { indices: raster(Uint8Array.from(row), [4, 3]), palette };
 * const found = checkFlats(flats, { checks: [staysWithin('pupil', 'eye')] });
 * console.log(found[0]?.message); // "pupil" of 2 pixels leaves "eye" at [1, 1]
 * ```
 */
export function staysWithin(a: string, b: string): FlatsCheck {
  checkPair(a, b);
  return defineCheck(
    `"${a}" stays within "${b}"`,
    (context) => {
      const { regionSwatch, labels, size, flats, tick } = context;
      const [first, second] = [indexOf(context, a), indexOf(context, b)];
      const [width, height] = size;
      const { data } = flats.indices;
      const ids = labels.data;
      const leaves = new Uint8Array(regionSwatch.length);
      for (let y = 0, i = 0; y < height; y++) {
        if (y % TICK_ROWS === 0) tick(y / height);
        for (let x = 0; x < width; x++, i++) {
          if (data[i] !== first) continue;
          const isInside =
            x > 0 &&
            y > 0 &&
            x + 1 < width &&
            y + 1 < height &&
            isEither(data[i - 1]!) &&
            isEither(data[i + 1]!) &&
            isEither(data[i - width]!) &&
            isEither(data[i + width]!);
          if (!isInside) leaves[ids[i]!] = 1;
        }
      }
      return regionsOf(context, first, (id) => leaves[id] === 1, `leaves "${b}"`);

      function isEither(index: number): boolean {
        return index === first || index === second;
      }
    },
    { severity: 'error' },
  );
}

/**
 * A rule for `checkFlats`: a swatch has from `min` to `max` pixels in the picture. One finding, an
 * error, over all its pixels; a swatch that is not used has 0. O(pixels).
 *
 * @throws TypeError or RangeError for a name that is none, or for bounds that are no numbers >= 0 in order.
 * @example
 * ```ts
 * import { areaBetween, checkFlats, raster } from 'underink';
 * const palette = ['bare', 'scarf'].map((name, i) => ({ name, color: `#00000${i}` }));
 * const flats = { indices: raster(new Uint8Array([1, 1, 0, 1]), [4, 1]), palette };
 * const found = checkFlats(flats, { checks: [areaBetween('scarf', 4, 9)] });
 * console.log(found[0]?.message); // "scarf" has 3 pixels, not 4 to 9
 * ```
 */
export function areaBetween(swatch: string, min: number, max: number): FlatsCheck {
  checkName(swatch, 'swatch');
  checkNumber(min, 'min', { unit: 'pixels' });
  if (max !== Number.POSITIVE_INFINITY) checkNumber(max, 'max', { unit: 'pixels', min });
  return defineCheck(
    `area of "${swatch}"`,
    (context) => {
      const { flats, size, tick } = context;
      const index = indexOf(context, swatch);
      const values = index > 0 ? [index] : [];
      const spans = spansOfValues(flats.indices.data, size[0], values, tick).get(index);
      const place = spans === undefined ? wholePicture(size) : describePlace(spans);
      if (place.area >= min && place.area <= max) return [];
      const message = `"${swatch}" has ${amount(place.area, 'pixel')}, not ${min} to ${max}`;
      return [{ message, ...place, swatches: [swatch] }];
    },
    { severity: 'error' },
  );
}

/** Index of a swatch in the flats; -1, which no pixel has, where they lack it. */
function indexOf({ flats }: CheckContext, name: string): number {
  return flats.palette.findIndex((swatch) => swatch.name === name);
}

/** A finding for each wanted region of a swatch, by first pixel. */
function regionsOf(
  { labels, regionSwatch, flats, size, tick }: CheckContext,
  index: number,
  isWanted: (id: number) => boolean,
  what: string,
): FoundPlace[] {
  const isFound = (id: number): boolean => regionSwatch[id] === index && isWanted(id);
  const count = regionSwatch.length - 1;
  return placesOfLabels(labels.data, size[0], count, isFound, tick).map((place) => {
    const described = describePlace(place.spans);
    const { name } = flats.palette[index]!;
    const message = `"${name}" of ${amount(described.area, 'pixel')} ${what} ${where(place)}`;
    return { message, ...described, swatches: [name] };
  });
}

function checkPair(a: string, b: string): void {
  checkName(a, 'a');
  checkName(b, 'b');
  if (a === b) throw wrongValue('b', 'another swatch than a', b);
}

function checkName(name: string, argument: string): void {
  if (typeof name !== 'string') throw wrongKind(argument, 'the name of a swatch', name);
  if (name === '') throw wrongValue(argument, 'the name of a swatch', name);
}
