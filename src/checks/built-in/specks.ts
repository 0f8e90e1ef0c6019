import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { amount, describePlace, placesOfLabels, where } from '../places.ts';

/**
 * 4-connected areas of one swatch of at most `maxArea` pixels, by first pixel: what a fill left over,
 * a stray pixel of a brush. Small areas that are meant, as a glint in an eye, are exceptions.
 */
export const specks: FlatsCheck<'maxArea'> = defineCheck(
  'specks',
  ({ flats, labels, regionSwatch, size, tick }, { maxArea }) => {
    const { data } = flats.indices;
    const width = size[0];
    const count = regionSwatch.length - 1;
    const isSpeck = (_: number, area: number): boolean => area <= maxArea;
    return placesOfLabels(labels.data, width, count, isSpeck, tick).map((place) => {
      const { spans, places } = place;
      const seen = new Set<number>();
      for (let k = 0; k < spans.length; k += 3) seen.add(data[spans[k]! * width + spans[k + 1]!]!);
      const swatches = [...seen].map((index) => flats.palette[index]!.name);
      const described = describePlace(spans);
      const pixels = amount(described.area, 'pixel');
      const of = places === 1 ? ` of "${swatches[0]}"` : '';
      const message = `${places === 1 ? 'speck' : 'specks'} of ${pixels}${of} ${where(place)}`;
      return { message, ...described, swatches };
    });
  },
  { thresholds: { maxArea: 8 } },
);
