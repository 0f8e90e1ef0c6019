import { pixelCenter } from '../../raster/pixel-center.ts';
import { polylinePixels } from '../../runs/polyline.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { spansOfPixels } from '../edges.ts';
import { measureSpans } from '../places.ts';

/**
 * Marks of two swatches in one region, as the report of `layFlats` lists them: the earlier mark's
 * swatch stays, so what the later one asks for is not there. Placed at the point of the later mark; its
 * pixels are that one and, where the report tells the leaks between the two, those across the narrowest.
 */
export const conflicts: FlatsCheck<never> = defineCheck(
  'conflicts',
  ({ report, size: [width, height] }) => {
    return (report!.conflicts ?? []).map(({ mark, by, point, swatch, keeps, leaks }) => {
      const [x, y] = point.map(Math.floor) as [number, number];
      const leak = leaks?.[0];
      const across = leak === undefined ? [] : polylinePixels(leak.bridge, width, height);
      const spans = spansOfPixels(Int32Array.of(y * width + x, ...across), width);
      const [u, v] = leak?.at.map(Math.floor) ?? [];
      const open = leak && `, open by ${Math.round(10 * leak.width) / 10} px at [${u}, ${v}]`;
      const late = `marks[${mark}] asks for "${swatch}" at [${x}, ${y}]`;
      return {
        message: `${late}, where marks[${by}] keeps "${keeps}"${open ?? ''}`,
        ...measureSpans(spans),
        at: pixelCenter(y * width + x, width),
        spans: Array.from(spans),
        swatches: [keeps, swatch],
      };
    });
  },
  { severity: 'error', needs: ['report'] },
);
