import { squaredDistance } from '../../distance/squared-distance.ts';
import { partOf, TICK_PIXELS, TICK_ROWS, type Tick } from '../../raster/progress.ts';
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
    const widest = widths(data, [width, height], regionSwatch.length, partOf(tick, 0, 0.9));
    const rest = partOf(tick, 0.9, 1);
    const isSliver = (id: number, area: number): boolean =>
      area >= minArea && widest[id]! <= maxWidth;
    return placesOfLabels(data, width, widest.length - 1, isSliver, rest).map((place) => {
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
  tick: Tick | undefined,
): Float64Array {
  const byEdge = squaresTo(4, partOf(tick, 0, 0.45));
  const byCorner = squaresTo(8, partOf(tick, 0.45, 0.9));
  const widest = new Float64Array(count);
  for (let i = 0; i < labels.length; i++) {
    if (tick !== undefined && i % TICK_PIXELS === 0) tick(0.9 + (0.1 * i) / labels.length);
    const edge = Math.sqrt(byEdge[i]!) + 1;
    const wide = 2 * Math.min(edge, Math.sqrt(byCorner[i]!) + Math.SQRT2) - 1;
    if (wide > widest[labels[i]!]!) widest[labels[i]!] = wide;
  }
  return widest;

  function squaresTo(connectivity: Connectivity, step: Tick | undefined): Int32Array {
    const rim = rimOf(labels, width, height, connectivity, partOf(step, 0, 0.3));
    return squaredDistance(rim, width, height, partOf(step, 0.3, 1));
  }
}

/** 1 on the pixels that have a neighbor of another label, or lie on the picture's border. */
function rimOf(
  labels: Int32Array,
  width: number,
  height: number,
  connectivity: Connectivity,
  tick: Tick | undefined,
): Uint8Array {
  const rim = new Uint8Array(labels.length);
  const byCorners = connectivity === 8;
  for (let y = 0, i = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
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
