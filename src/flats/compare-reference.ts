import { fillNearest } from '../distance/nearest-label.ts';
import type { FlatsLike, Swatch } from '../palette/types.ts';
import type { Bounds, PixelsLike, Point } from '../raster/types.ts';
import { PairIndex } from '../runs/pair-index.ts';
import { type LaidRegions, listRegions, type Region, readLaid } from './list-regions.ts';
import { type Reference, readReference } from './reference.ts';

/** A second color in a region of one. */
export interface ColorMeeting extends Swatch {
  /** Share of the region's solid color that it is. */
  readonly share: number;
  /** Center of a pixel of the region where it meets the main color. */
  readonly at: Point;
}

/** What a colored picture shows in a region. */
export interface ReferenceRegion extends Region {
  /** Its main color, under the name that the reference has for it; left out where it shows none. */
  readonly main?: Swatch;
  /** Share of the region's solid color that is the main one, 0 to 1. */
  readonly share: number;
  /** Share of the region's paper where the reference shows nothing, 0 to 1. */
  readonly clear: number;
  /** Center of a pixel where its main color meets such paper; left out where there is little. */
  readonly meetsClear?: Point;
  /** Other colors of 40 pixels or a tenth of the region and more, the largest first. */
  readonly shared: readonly ColorMeeting[];
}

/** Number of what a reference shows nothing of. */
const CLEAR = 0;

/** Pixels, and the share of the region, from which on a second color is not a slip of the brush. */
const LEAST_PIXELS = 40;
const LEAST_SHARE = 0.1;

/**
 * Holds regions against a colored picture of the same drawing: the main color of each, how much of
 * the region agrees with it, and where a second color meets it, which is where a region leaks or a
 * line is missing.
 *
 * Only paper is looked at, as `listRegions` has it. A color counts where it is solid: where some
 * pixel of the region has it together with its four neighbors. What is not, such as the blends of
 * smooth edges, counts for nothing, unless a region shows nothing else. The main color is the one of
 * most pixels, ties to the lower index of flats or the lower `#rrggbb`.
 *
 * @param laid - The result of `layFlats` or `applyPlan`, or `{ labels, flats?, ink? }`.
 * @param reference - Pixels, where alpha 0 shows nothing, or flats.
 * @returns The rows of `listRegions` with what the reference shows. O(pixels + colors · log), and
 * O(pixels of the bounds) for each second color.
 * @throws TypeError or RangeError for rasters that are none, or whose sizes differ.
 * @example
 * ```ts
 * import { compareReference, raster } from 'underink';
 * const labels = raster(new Int32Array([1, 1, 1, 1, 2, 2]), [6, 1]);
 * const reference = raster(new Uint8Array([90, 90, 90, 200, 255, 255]), [6, 1]);
 * const [first] = compareReference({ labels }, reference);
 * console.log(first?.main?.name, first?.share, first?.shared); // #5a5a5a 1 []
 * ```
 */
export function compareReference(
  laid: LaidRegions,
  reference: PixelsLike | FlatsLike,
): ReferenceRegion[] {
  const { data, width, height, ink } = readLaid(laid);
  const read = readReference(reference, { width, height });
  const field: Field = { labels: data, width, height, ink, keys: read.keys };
  const colors = colorsByRegion(field);
  return listRegions(laid).map((region) => {
    const { id, bounds } = region;
    const { found, blank, paper } = colors.get(id) ?? { found: [], blank: 0, paper: 0 };
    const total = found.reduce((sum, { count }) => sum + count, 0);
    const main = found[0];
    if (main === undefined) return { ...region, share: 0, clear: paper > 0 ? 1 : 0, shared: [] };
    const others = found
      .slice(1)
      .filter(({ count }) => count >= LEAST_PIXELS || count >= LEAST_SHARE * total);
    const shared = others.map(({ key, count }): ColorMeeting => {
      const at = meetingPlace(field, id, bounds, main.key, key);
      return { ...read.swatchOf(key), share: count / total, at };
    });
    return {
      ...region,
      main: read.swatchOf(main.key),
      share: main.count / total,
      clear: blank / paper,
      ...(blank >= LEAST_PIXELS || blank >= LEAST_SHARE * paper
        ? { meetsClear: meetingPlace(field, id, bounds, CLEAR, main.key) }
        : {}),
      shared,
    };
  });
}

interface Field {
  readonly labels: Int32Array;
  readonly width: number;
  readonly height: number;
  readonly ink: Uint8Array | undefined;
  readonly keys: Reference['keys'];
}

interface ColorCount {
  readonly key: number;
  readonly count: number;
  readonly solid: number;
}

interface ShownColors {
  /** Those that count, by pixels, ties to the lower number. */
  readonly found: ColorCount[];
  /** Pixels of paper, and of it where nothing is shown. */
  readonly paper: number;
  readonly blank: number;
}

function colorsByRegion({ labels, width, height, ink, keys }: Field): Map<number, ShownColors> {
  const pairs = new PairIndex();
  const solid: number[] = [];
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const key = keys[i]!;
      if (labels[i] === 0 || (ink !== undefined && ink[i] !== 0)) continue;
      const pair = pairs.add(labels[i]!, key, 1);
      const isSolid =
        (x === 0 || keys[i - 1] === key) &&
        (x + 1 === width || keys[i + 1] === key) &&
        (y === 0 || keys[i - width] === key) &&
        (y + 1 === height || keys[i + width] === key);
      solid[pair] = (solid[pair] ?? 0) + (isSolid ? 1 : 0);
    }
  }
  const lists = new Map<number, ColorCount[]>();
  for (let k = 0; k < pairs.size; k++) {
    const own = { key: pairs.second[k]!, count: pairs.counts[k]!, solid: solid[k]! };
    const list = lists.get(pairs.first[k]!);
    if (list === undefined) lists.set(pairs.first[k]!, [own]);
    else list.push(own);
  }
  const colors = new Map<number, ShownColors>();
  for (const [id, list] of lists) {
    const shown = list.filter(({ key }) => key !== CLEAR);
    const sure = shown.filter((color) => color.solid > 0);
    const found = sure.length > 0 ? sure : shown;
    found.sort((a, b) => b.count - a.count || a.key - b.key);
    const paper = list.reduce((sum, { count }) => sum + count, 0);
    const blank = list.find(({ key }) => key === CLEAR)?.count ?? 0;
    colors.set(id, { found, paper, blank });
  }
  return colors;
}

/**
 * Where two colors meet in a region: of its pixels that are nearer to the second color and beside
 * one nearer to the first, the one nearest to the mean of them all, ties to the first row by row.
 */
function meetingPlace(
  { labels, width, ink, keys }: Field,
  id: number,
  [x0, y0, x1, y1]: Bounds,
  first: number,
  second: number,
): Point {
  const [w, h] = [x1 - x0, y1 - y0];
  const near = new Int32Array(w * h);
  const isOwn = new Uint8Array(w * h);
  for (let y = 0, k = 0; y < h; y++) {
    for (let i = (y0 + y) * width + x0; k < (y + 1) * w; i++, k++) {
      if (labels[i] !== id) continue;
      isOwn[k] = 1;
      if (ink !== undefined && ink[i] !== 0) continue;
      near[k] = keys[i] === first ? 1 : keys[i] === second ? 2 : 0;
    }
  }
  const fallback = near.indexOf(2);
  fillNearest(near, w, h);
  const is = (k: number, color: number): boolean => isOwn[k] === 1 && near[k] === color;
  const border: number[] = [];
  let [sx, sy] = [0, 0];
  for (let k = 0; k < near.length; k++) {
    const x = k % w;
    const meets =
      is(k, 2) &&
      ((x > 0 && is(k - 1, 1)) ||
        (x + 1 < w && is(k + 1, 1)) ||
        (k >= w && is(k - w, 1)) ||
        (k + w < near.length && is(k + w, 1)));
    if (!meets) continue;
    border.push(k);
    sx += x;
    sy += Math.floor(k / w);
  }
  let best = fallback;
  let least = Number.POSITIVE_INFINITY;
  for (const k of border) {
    const dx = (k % w) - sx / border.length;
    const dy = Math.floor(k / w) - sy / border.length;
    if (dx * dx + dy * dy >= least) continue;
    best = k;
    least = dx * dx + dy * dy;
  }
  return [x0 + (best % w) + 0.5, y0 + Math.floor(best / w) + 0.5];
}
