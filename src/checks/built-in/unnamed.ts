import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { amount } from '../places.ts';

/**
 * Regions that no mark of the plan names, as the report of `layFlats` lists them: they hold a
 * placeholder color. Placed at the point inside that a mark can use.
 */
export const unnamed: FlatsCheck<never> = defineCheck(
  'unnamed',
  ({ report, flats, size }) => {
    const regions = report!.unnamed;
    if (typeof regions === 'number') return [];
    const { data } = flats.indices;
    return regions.map(({ inside, area, bounds }) => {
      const [x, y] = inside.map(Math.floor) as [number, number];
      const swatch = flats.palette[data[y * size[0] + x] ?? 0]!.name;
      const message = `no mark names the region of ${amount(area, 'pixel')} at [${x}, ${y}]`;
      return { message, at: inside, area, bounds, swatches: [swatch] };
    });
  },
  { needs: ['report'] },
);
