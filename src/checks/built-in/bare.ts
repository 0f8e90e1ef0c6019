import { partOf, TICK_PIXELS } from '../../raster/progress.ts';
import { raster } from '../../raster/raster.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { amount, describePlace, placesOfMask, where } from '../places.ts';

/**
 * Pixels that no flat covers, one finding per 8-connected place; transparent ones in a picture.
 *
 * ```text
 * fur fur  .  fur      one place of one pixel; in a picture, blended pixels and those
 * fur fur fur fur      off the palette are not bare but findings of their own
 * ```
 */
export const bare: FlatsCheck<never> = defineCheck(
  'bare',
  ({ flats, blended, off, size, tick }) => {
    const { data } = flats.indices;
    if (data.indexOf(0) < 0) return [];
    const mask = new Uint8Array(data.length);
    for (let i = 0; i < mask.length; i++) {
      if (i % TICK_PIXELS === 0) tick((0.5 * i) / mask.length);
      if (data[i] === 0 && blended?.data[i] !== 1 && off?.data[i] !== 1) mask[i] = 1;
    }
    return placesOfMask(raster(mask, [...size]), 8, partOf(tick, 0.5, 1)).map((place) => {
      const described = describePlace(place.spans);
      return { message: `${amount(described.area, 'pixel')} bare ${where(place)}`, ...described };
    });
  },
  { severity: 'error' },
);
