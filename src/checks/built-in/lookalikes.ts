import { findLookalikes } from '../../palette/find-lookalikes.ts';
import { partOf } from '../../raster/progress.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { measureSpans, spansOfValues } from '../places.ts';
import { usedIndices } from '../used-indices.ts';

/**
 * Pairs of swatches that are used in the picture and whose colors are less than `below` apart in
 * CIEDE2000, the nearest first: one is easily filled for the other. Placed at the pixels of the one that
 * comes later in the palette. By itself it does not run: neighbors that look alike are told by `alike`.
 */
export const lookalikes: FlatsCheck<'below'> = defineCheck(
  'lookalikes',
  ({ flats, size, tick }, { below }) => {
    const { data } = flats.indices;
    const isUsed = usedIndices(flats, partOf(tick, 0, 0.3));
    const used = flats.palette.filter((_, index) => index > 0 && isUsed[index] === 1);
    const pairs = findLookalikes(used, { below });
    const indexOf = new Map(flats.palette.map(({ name }, index) => [name, index]));
    const values = [...new Set(pairs.map(({ b }) => indexOf.get(b)!))];
    const spans = spansOfValues(data, size[0], values, partOf(tick, 0.3, 1));
    return pairs.map(({ a, b, difference }) => ({
      message: `"${a}" and "${b}" are ${difference.toFixed(1)} apart`,
      ...measureSpans(spans.get(indexOf.get(b)!)!),
      swatches: [a, b],
    }));
  },
  { severity: 'information', onRequest: true, thresholds: { below: 2 } },
);
