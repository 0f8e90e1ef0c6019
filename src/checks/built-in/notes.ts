import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { nearestPixel } from '../places.ts';

/**
 * Marks that did not do what they say, as the report of `layFlats` notes them: a cut that divides
 * nothing, a bridge without ink within reach. Placed where the mark begins; one outside the picture, at
 * the nearest pixel of it.
 */
export const notes: FlatsCheck<never> = defineCheck(
  'notes',
  ({ report, size }) =>
    (report!.notes ?? []).flatMap(({ mark, at, why }) => {
      if (at === undefined) return [];
      const [x, y] = nearestPixel(at, size);
      return {
        message: `marks[${mark}] at [${x}, ${y}]: ${why}`,
        at: [x + 0.5, y + 0.5] as const,
        bounds: [x, y, x + 1, y + 1] as const,
        area: 1,
        spans: [y, x, x + 1],
      };
    }),
  { needs: ['report'] },
);
