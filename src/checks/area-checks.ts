import { labelEqual } from '../regions/label-equal.ts';
import type { Check, Finding } from './finding.ts';
import { measurePlaces, type Place, placesOf } from './places.ts';
import type { Sheet } from './sheet.ts';

/** Largest area of a speck, in pixels. */
const SPECK = 8;

/** Pixels that no flat covers, one finding per 8-connected place. */
export const bare: Check = {
  name: 'bare',
  run: ({ flats, blended }) => {
    const { data, shape } = flats.indices;
    const [width, height] = shape as [number, number];
    const mask = new Uint8Array(data.length);
    for (let i = 0; i < mask.length; i++) {
      mask[i] = data[i] === 0 && blended?.data[i] !== 1 ? 1 : 0;
    }
    const { places } = placesOf(mask, width, height, 8);
    return places.map((place) => report(place, width, `${pixels(place)} bare`, []));
  },
};

/** Pixels that are no swatch's color, one finding per 8-connected place. */
export const blended: Check = {
  name: 'blended',
  run: ({ flats, blended: mask }) => {
    if (mask === undefined) return [];
    const [width, height] = flats.indices.shape as [number, number];
    const { places } = placesOf(mask.data, width, height, 8);
    return places.map((place) => report(place, width, `${pixels(place)} blended`, []));
  },
};

/** 4-connected areas of one swatch of at most 8 pixels. */
export const specks: Check = {
  name: 'specks',
  run: ({ flats }: Sheet) => {
    const { data, shape } = flats.indices;
    const [width, height] = shape as [number, number];
    const { labels, count } = labelEqual(flats.indices, { background: 0 });
    if (count === 0) return [];
    return measurePlaces(labels.data, width, height, count)
      .filter((place) => place.count <= SPECK)
      .map((place) => {
        const { name } = flats.palette[data[place.first]!]!;
        return report(place, width, `speck of ${pixels(place)} of "${name}"`, [name]);
      });
  },
};

function report(
  { count, bounds, first }: Place,
  width: number,
  what: string,
  swatches: string[],
): Omit<Finding, 'check'> {
  const [x, y] = [first % width, Math.floor(first / width)];
  return { message: `${what} at [${x}, ${y}]`, count, bounds, at: [x + 0.5, y + 0.5], swatches };
}

function pixels({ count }: Place): string {
  return count === 1 ? '1 pixel' : `${count} pixels`;
}
