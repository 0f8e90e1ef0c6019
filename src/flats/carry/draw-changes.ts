import { parseColor } from '../../color/hex.ts';
import { maskArgument } from '../../raster/arguments.ts';
import { wrongKind } from '../../raster/errors.ts';
import { checkMaskValues } from '../../raster/mask-values.ts';
import { raster } from '../../raster/raster.ts';
import type { MaskLike, Pixels, Point } from '../../raster/types.ts';
import type { CarriedRegion, ChangeKind } from './changes.ts';
import { checkSimilarity, inverse, movePoint, type Similarity } from './similarity.ts';

/** What a picture of changes is drawn from: the result of `carryFlats` or `carryPlan`. */
export interface DrawnChanges {
  readonly changes: readonly CarriedRegion[];
  readonly transform: Similarity;
}

/** Ink of both versions, of the old one alone, of the new one alone. */
const INK = { both: '#9a9a9a', old: '#e6007e', new: '#0078ff' };
/** Discs at the places of changes. */
const DISCS: { readonly [K in ChangeKind]: string } = {
  kept: '#c8a000',
  moved: '#c8a000',
  split: '#00a064',
  merged: '#7a2be0',
  new: '#0078ff',
  gone: '#e6007e',
};
/** Radius of a disc: that share of the longer side, and at least so many pixels. */
const RADIUS = 1 / 160;
const LEAST = 3;

/**
 * Both versions in one picture, in the frame of the new one: ink of both in gray, ink that is gone in
 * `#e6007e`, ink that has come in `#0078ff`, on white; and a disc at the place of every region that is
 * to be looked at, of a merged one where the lost ones were: `#c8a000` for those kept or moved, `#00a064`
 * split, `#7a2be0` merged, `#0078ff` new, `#e6007e` gone. The least certain is drawn last. O(pixels).
 *
 * @returns RGBA, opaque, of the size of the new picture.
 * @throws TypeError or RangeError for what is no result, or rasters that are no masks.
 * @example
 * ```ts
 * import { carryFlats, drawChanges, indexFlats, raster } from 'underink';
 * const ink = raster(new Uint8Array([1, 1, 0, 0]), [4, 1]);
 * const revised = raster(new Uint8Array([1, 1, 1, 0]), [4, 1]);
 * const flats = indexFlats(raster(new Uint8Array(4).fill(255), [4, 1]));
 * const transform = { a: 1, b: 0, dx: 0, dy: 0 };
 * const carried = carryFlats(flats, ink, revised, { transform });
 * const { data } = drawChanges(carried, ink, revised);
 * console.log(data.slice(8, 11).join(' ')); // 0 120 255
 * ```
 */
export function drawChanges(
  carried: DrawnChanges,
  fromInk: MaskLike,
  toInk: MaskLike,
): Pixels<Uint8Array> {
  if (!Array.isArray(carried?.changes)) {
    throw wrongKind('carried', 'what carryFlats or carryPlan gives', carried);
  }
  const { a, b, dx, dy } = carried.transform;
  const transform = checkSimilarity({ a, b, dx, dy }, 'carried.transform');
  const from = maskArgument(fromInk, 'fromInk');
  checkMaskValues(from, 'fromInk');
  const to = maskArgument(toInk, 'toInk');
  checkMaskValues(to, 'toInk');
  const { width, height } = to;
  const picture = new Uint8Array(4 * width * height).fill(255);
  const colors = [undefined, INK.old, INK.new, INK.both].map((color) => {
    return color === undefined ? [255, 255, 255] : parseColor(color, 'color');
  });
  const back = inverse(transform);
  for (let y = 0, p = 0; y < height; y++) {
    for (let x = 0; x < width; x++, p++) {
      const [u, v] = movePoint(back, [x + 0.5, y + 0.5]);
      const isShown = u >= 0 && v >= 0 && u < from.width && v < from.height;
      const was = isShown && from.data[Math.floor(v) * from.width + Math.floor(u)] === 1 ? 1 : 0;
      picture.set(colors[was + 2 * to.data[p]!]!, 4 * p);
    }
  }
  const radius = Math.max(LEAST, RADIUS * Math.max(width, height));
  const drawn: readonly CarriedRegion[] = [...carried.changes].reverse();
  for (const { kind, at, was, lostAt, look } of drawn) {
    if (!look) continue;
    const places = lostAt.length > 0 ? lostAt : [at ?? movePoint(transform, was!)];
    const color = parseColor(DISCS[kind], 'color');
    for (const place of places) drawDisc(picture, [width, height], place, radius, color);
  }
  return raster(picture, [width, height, 4]);
}

function drawDisc(
  picture: Uint8Array,
  [width, height]: readonly [number, number],
  [cx, cy]: Point,
  radius: number,
  color: readonly number[],
): void {
  const [left, right] = [Math.max(0, Math.floor(cx - radius)), Math.min(width, cx + radius)];
  const [top, bottom] = [Math.max(0, Math.floor(cy - radius)), Math.min(height, cy + radius)];
  for (let y = top; y < bottom; y++) {
    for (let x = left; x < right; x++) {
      const [dx, dy] = [x + 0.5 - cx, y + 0.5 - cy];
      if (dx * dx + dy * dy <= radius * radius) picture.set(color, 4 * (y * width + x));
    }
  }
}
