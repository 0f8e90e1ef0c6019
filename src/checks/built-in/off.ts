import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { amount, describePlace, placesOfMask, where } from '../places.ts';

/**
 * Pixels of a color that the palette lacks, one finding per 8-connected place: a color picked wrongly,
 * a sheet that was saved with another profile, edges that were blended. In flats, the pixels of a
 * swatch whose color is not in the palette.
 */
export const off: FlatsCheck<never> = defineCheck(
  'off',
  ({ off: mask, flats, size, tick }) => {
    const { data } = flats.indices;
    return placesOfMask(mask!, 8, tick).map((place) => {
      const described = describePlace(place.spans);
      const [x, y] = described.at;
      const index = data[Math.floor(y) * size[0] + Math.floor(x)]!;
      const swatches = index === 0 ? [] : [flats.palette[index]!.name];
      const pixels = amount(described.area, 'pixel');
      return { message: `${pixels} off the palette ${where(place)}`, ...described, swatches };
    });
  },
  { severity: 'error', needs: ['palette'] },
);
