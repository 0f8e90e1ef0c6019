import { squaredDistance } from '../distance/squared-distance.ts';
import { defineCheck, type FlatsCheck } from './define-check.ts';
import { amount, describePlace, placesOfLabels, where } from './places.ts';

/**
 * Areas of one swatch that are nowhere wider than `maxWidth` pixels, and of at least `minArea` (smaller
 * ones are specks): what a polygon left beside a line, two fills that do not meet. The width is that of
 * the widest inscribed disc, twice the distance from its center to the outermost pixels of the area and
 * the one pixel between: exact in whole odd pixels along rows and columns, within a pixel elsewhere. The
 * picture's border bounds an area as well.
 *
 * ```text
 * fur fur fur fur fur fur
 * eye eye eye eye eye eye     a sliver of "eye", 2 pixels wide
 * eye eye eye eye eye eye
 * fur fur fur fur fur fur
 * ```
 */
export const slivers: FlatsCheck<'maxWidth' | 'minArea'> = defineCheck(
  'slivers',
  ({ flats, labels, regionSwatch, size }, { maxWidth, minArea }) => {
    const [width, height] = size;
    const { data } = labels;
    const toRim = squaredDistance(rimOf(data, width, height), width, height);
    const widest = new Int32Array(regionSwatch.length);
    for (let i = 0; i < data.length; i++) {
      if (toRim[i]! > widest[data[i]!]!) widest[data[i]!] = toRim[i]!;
    }
    const isSliver = (id: number, area: number): boolean =>
      area >= minArea && 2 * Math.sqrt(widest[id]!) + 1 <= maxWidth;
    return placesOfLabels(data, width, widest.length - 1, isSliver).map((place) => {
      const { spans, places } = place;
      const described = describePlace(spans);
      const id = data[spans[0]! * width + spans[1]!]!;
      const name = flats.palette[regionSwatch[id]!]!.name;
      const wide = Math.round(2 * Math.sqrt(widest[id]!) + 1);
      const of = places === 1 ? ` of "${name}", ${wide} wide,` : '';
      const message = `sliver of ${amount(described.area, 'pixel')}${of} ${where(place)}`;
      return { message, ...described, swatches: places === 1 ? [name] : [] };
    });
  },
  { thresholds: { maxWidth: 2, minArea: 9 } },
);

/** 1 on the pixels that have a 4-neighbor of another label, or lie on the picture's border. */
function rimOf(labels: Int32Array, width: number, height: number): Uint8Array {
  const rim = new Uint8Array(labels.length);
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const label = labels[i]!;
      const inside =
        x > 0 &&
        y > 0 &&
        x + 1 < width &&
        y + 1 < height &&
        labels[i - 1] === label &&
        labels[i + 1] === label &&
        labels[i - width] === label &&
        labels[i + width] === label;
      if (!inside) rim[i] = 1;
    }
  }
  return rim;
}
