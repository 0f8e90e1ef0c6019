import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { edgePlaces } from '../edges.ts';
import { amount, between, describePlace, where } from '../places.ts';

/**
 * Open seams: two flats meet where there is no ink. A seam is the edge between two 4-neighbors of
 * different swatches; it is open when neither pixel is ink. Bare pixels and a picture's blended ones
 * have no seams: they are findings of their own. Edges of one pair of swatches that share a corner are
 * one finding; the longest comes first, ties in the order of their first edge. With `minLength`,
 * shorter ones are left out. O(pixels + edges · log).
 */
export const seams: FlatsCheck<'minLength'> = defineCheck(
  'seams',
  ({ flats, ink, size, tick }, { minLength }) => {
    const { data } = flats.indices;
    const isInk = ink!.data;
    const isOpen = (i: number, j: number): boolean =>
      data[i] !== 0 && data[j] !== 0 && isInk[i] === 0 && isInk[j] === 0;
    return edgePlaces(data, size[0], isOpen, tick)
      .filter(({ length }) => length >= minLength)
      .map((place) => {
        const swatches = place.values.map((index) => flats.palette[index]!.name);
        const edges = amount(place.length, 'pixel edge');
        const message = `open seam of ${edges}${between(place, swatches)} ${where(place)}`;
        return { message, ...describePlace(place.spans), length: place.length, swatches };
      });
  },
  { needs: ['ink'], thresholds: { minLength: 1 } },
);
