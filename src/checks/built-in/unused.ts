import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { wholePicture } from '../places.ts';
import { usedIndices } from '../used-indices.ts';

/**
 * Swatches of the palette that no pixel has, in the order of the palette. By itself it does not run:
 * a palette that serves a whole production has swatches that a sheet does without.
 */
export const unused: FlatsCheck<never> = defineCheck(
  'unused',
  ({ flats, palette, size, tick }) => {
    const isUsed = usedIndices(flats, tick);
    const used = new Set(flats.palette.filter((_, index) => isUsed[index] === 1).map(keyOf));
    return palette
      .filter((swatch) => !used.has(keyOf(swatch)))
      .map(({ name, color }) => ({
        message: `"${name}" ${color} is not used`,
        ...wholePicture(size),
        swatches: [name],
      }));
  },
  { severity: 'information', onRequest: true },
);

const keyOf = ({ name, color }: { name: string; color: string }): string => `${color} ${name}`;
