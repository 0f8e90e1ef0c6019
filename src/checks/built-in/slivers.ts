import { squaredDistance } from '../../distance/squared-distance.ts';
import { partOf, type Tick } from '../../raster/progress.ts';
import type { Connectivity } from '../../raster/types.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { amount, describePlace, placesOfLabels, where } from '../places.ts';

/**
 * Areas of one swatch that are nowhere wider than `maxWidth` pixels, and of at least `minArea` (smaller
 * ones are specks): what a polygon left beside a line, two fills that do not meet. The width is that of
 * the widest inscribed disc: exact in whole odd pixels along rows and columns, within a pixel elsewhere.
 * The picture's border bounds an area as well. O(pixels); 10 bytes a pixel.
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
  ({ flats, labels, regionSwatch, size, tick }, { maxWidth, minArea }) => {
    const [width, height] = size;
    const { data } = labels;
    const widest = widths(data, [width, height], regionSwatch.length, tick);
    const isSliver = (id: number, area: number): boolean =>
      area >= minArea && widest[id]! <= maxWidth;
    return placesOfLabels(data, width, widest.length - 1, isSliver).map((place) => {
      const { spans, places } = place;
      const described = describePlace(spans);
      const id = data[spans[0]! * width + spans[1]!]!;
      const name = flats.palette[regionSwatch[id]!]!.name;
      const of = places === 1 ? ` of "${name}"` : '';
      const pixels = amount(described.area, 'pixel');
      const message = `sliver of ${pixels}${of}, at most ${maxWidth} px wide, ${where(place)}`;
      return { message, ...described, swatches: places === 1 ? [name] : [] };
    });
  },
  { thresholds: { maxWidth: 2, minArea: 9 } },
);

/**
 * Twice the distance from the middle of each area to the nearest pixel outside, less the pixel between.
 * That pixel lies beside one of the area's own rim: an edge away from those with a foreign 4-neighbor,
 * or a diagonal away from those with a foreign 8-neighbor.
 */
function widths(
  labels: Int32Array,
  [width, height]: readonly [number, number],
  count: number,
  tick: Tick,
): Float64Array {
  const half = partOf(tick, 0, 0.5);
  const byEdge = squaredDistance(rimOf(labels, width, height, 4), width, height, half);
  const rest = partOf(tick, 0.5, 1);
  const byCorner = squaredDistance(rimOf(labels, width, height, 8), width, height, rest);
  const widest = new Float64Array(count);
  for (let i = 0; i < labels.length; i++) {
    const edge = Math.sqrt(byEdge[i]!) + 1;
    const wide = 2 * Math.min(edge, Math.sqrt(byCorner[i]!) + Math.SQRT2) - 1;
    if (wide > widest[labels[i]!]!) widest[labels[i]!] = wide;
  }
  return widest;
}

/** 1 on the pixels that have a neighbor of another label, or lie on the picture's border. */
function rimOf(
  labels: Int32Array,
  width: number,
  height: number,
  connectivity: Connectivity,
): Uint8Array {
  const rim = new Uint8Array(labels.length);
  const byCorners = connectivity === 8;
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const label = labels[i]!;
      const isInside =
        x > 0 &&
        y > 0 &&
        x + 1 < width &&
        y + 1 < height &&
        labels[i - 1] === label &&
        labels[i + 1] === label &&
        labels[i - width] === label &&
        labels[i + width] === label &&
        !(byCorners && hasForeignCorner(labels, i, width));
      if (!isInside) rim[i] = 1;
    }
  }
  return rim;
}

function hasForeignCorner(labels: Int32Array, i: number, width: number): boolean {
  const label = labels[i]!;
  return (
    labels[i - width - 1] !== label ||
    labels[i - width + 1] !== label ||
    labels[i + width - 1] !== label ||
    labels[i + width + 1] !== label
  );
}
