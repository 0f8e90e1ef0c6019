import { labelEqual } from '../regions/label-equal.ts';
import type { Check } from './finding.ts';
import {
  amount,
  describePlace,
  type Place,
  placesOfLabels,
  placesOfMask,
  where,
} from './places.ts';

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
    return placesOfMask(mask, shape[0]!, shape[1]!, 8).map((place) => report(place, 'bare'));
  },
};

/** Pixels of no color that belongs here, one finding per 8-connected place. */
export const blended: Check = {
  name: 'blended',
  run: ({ flats, blended: mask }) => {
    if (mask === undefined) return [];
    const [width, height] = flats.indices.shape as [number, number];
    return placesOfMask(mask.data, width, height, 8).map((place) => report(place, 'blended'));
  },
};

function report(place: Place, what: string): ReturnType<Check['run']>[number] {
  const described = describePlace(place.spans);
  const message = `${amount(described.count, 'pixel')} ${what} ${where(place)}`;
  return { message, ...described, swatches: [] };
}

/** 4-connected areas of one swatch of at most so many pixels. */
export function specksUpTo(maxArea: number): Check {
  return {
    name: 'specks',
    run: ({ flats }) => {
      const { data, shape } = flats.indices;
      const width = shape[0]!;
      const { labels, count } = labelEqual(flats.indices, { background: 0 });
      return placesOfLabels(labels.data, width, count, maxArea).map((place) => {
        const { spans, places } = place;
        const seen = new Set<number>();
        for (let k = 0; k < spans.length; k += 3)
          seen.add(data[spans[k]! * width + spans[k + 1]!]!);
        const swatches = [...seen].map((index) => flats.palette[index]!.name);
        const described = describePlace(spans);
        const pixels = amount(described.count, 'pixel');
        const of = places === 1 ? ` of "${swatches[0]}"` : '';
        const message = `${places === 1 ? 'speck' : 'specks'} of ${pixels}${of} ${where(place)}`;
        return { message, ...described, swatches };
      });
    },
  };
}
