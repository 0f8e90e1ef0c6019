import { pixelCenter } from '../../raster/pixel-center.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';

/**
 * Marks that did not do what they say, as the report of `layFlats` notes them: a cut that divides
 * nothing, a bridge without ink within reach. Placed where the mark begins; one outside the picture, at
 * the nearest pixel of it.
 */
export const notes: FlatsCheck<never> = defineCheck(
  'notes',
  ({ report, size: [width, height] }) =>
    (report!.notes ?? []).flatMap(({ mark, at, why }) => {
      if (at === undefined) return [];
      const x = Math.min(width - 1, Math.max(0, Math.floor(at[0])));
      const y = Math.min(height - 1, Math.max(0, Math.floor(at[1])));
      return {
        message: `marks[${mark}] at [${x}, ${y}]: ${why}`,
        at: pixelCenter(y * width + x, width),
        bounds: [x, y, x + 1, y + 1] as const,
        area: 1,
        spans: [y, x, x + 1],
      };
    }),
  { needs: ['report'] },
);
