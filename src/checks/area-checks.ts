import { labelEqual } from '../regions/label-equal.ts';
import type { Check } from './finding.ts';
import { amount, atFirst, placeOf, spansOfLabels, spansOfMask } from './places.ts';

/** Pixels that no flat covers, one finding per 8-connected place. */
export const bare: Check = {
  name: 'bare',
  run: ({ flats, blended }) => {
    const { data, shape } = flats.indices;
    const mixed = blended?.data;
    const first = data.indexOf(0);
    if (first < 0) return [];
    const mask = new Uint8Array(data.length);
    for (let i = first; i < mask.length; i++) {
      if (data[i] === 0) mask[i] = mixed === undefined ? 1 : 1 - mixed[i]!;
    }
    return spansOfMask(mask, shape[0]!, shape[1]!, 8).map((spans) => {
      const place = placeOf(spans);
      const message = `${amount(place.count, 'pixel')} bare ${atFirst(spans)}`;
      return { message, ...place, swatches: [] };
    });
  },
};

/** Pixels of no color that belongs here, one finding per 8-connected place. */
export const blended: Check = {
  name: 'blended',
  run: ({ flats, blended: mask }) => {
    if (mask === undefined) return [];
    const [width, height] = flats.indices.shape as [number, number];
    return spansOfMask(mask.data, width, height, 8).map((spans) => {
      const place = placeOf(spans);
      const message = `${amount(place.count, 'pixel')} blended ${atFirst(spans)}`;
      return { message, ...place, swatches: [] };
    });
  },
};

/** 4-connected areas of one swatch of at most so many pixels. */
export function specksUpTo(maxArea: number): Check {
  return {
    name: 'specks',
    run: ({ flats }) => {
      const { data, shape } = flats.indices;
      const width = shape[0]!;
      const { labels, count } = labelEqual(flats.indices, { background: 0 });
      return spansOfLabels(labels.data, width, count, maxArea).map((spans) => {
        const place = placeOf(spans);
        const { name } = flats.palette[data[spans[0]! * width + spans[1]!]!]!;
        const message = `speck of ${amount(place.count, 'pixel')} of "${name}" ${atFirst(spans)}`;
        return { message, ...place, swatches: [name] };
      });
    },
  };
}
