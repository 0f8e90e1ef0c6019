import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { amount, describePlace, placesOfMask, where } from '../places.ts';

/**
 * Pixels of a picture that are no color of a flat, one finding per 8-connected place: those of partial
 * alpha, 16 bit samples between two of 8 bit, and without a palette what `findFringe` takes for fringe,
 * where a straight rim one pixel wide is doubtful: give the palette if you have it.
 */
export const blended: FlatsCheck<never> = defineCheck(
  'blended',
  ({ blended: mask, tick }) => {
    if (mask === undefined) return [];
    return placesOfMask(mask, 8, tick).map((place) => {
      const described = describePlace(place.spans);
      const pixels = amount(described.area, 'pixel');
      return { message: `${pixels} blended ${where(place)}`, ...described };
    });
  },
  { severity: 'error' },
);
