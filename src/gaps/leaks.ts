import { ContactFinder } from '../passages/contacts.ts';
import { type Levels, measureLevels, radiusOf } from '../passages/levels.ts';
import { armsAt, mouthOf, type Narrow, narrowPlaces, widestWay } from '../passages/widest-way.ts';
import { checkSameSize, coverageArgument, maskArgument } from '../raster/arguments.ts';
import { checkOptions, checkPoint } from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import { pixelCenter } from '../raster/pixel-center.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type { CoverageLike, Dense, MaskLike, Point } from '../raster/types.ts';
import { probabilityOf } from './odds.ts';
import { type PaleInk, paleInk } from './pale-ink.ts';
import type { Proposal } from './proposals.ts';
import { paperBetween, spanGap } from './span-gap.ts';
import { type GapStudy, Study } from './study.ts';
import type { Looked } from './view.ts';

/** A narrow place through which paper leads from one point to another. */
export interface Leak {
  /** Center of the paper pixel in its middle. */
  readonly at: Point;
  /** Clear paper across it, in pixels. */
  readonly width: number;
  /** Centers of the ink pixels on its two sides: a mark `{ bridge }` of them closes it. */
  readonly bridge: readonly [Point, Point];
  /** How likely it is a gap of the line, by what is seen there, 0 to 1. */
  readonly probability: number;
  /** Ink that is too pale for the threshold, where a coverage is given and there is some. */
  readonly pale?: PaleInk;
}

export interface LeaksBetweenOptions {
  /** Coverage `[w, h]` that the ink was made of: pale ink in a leak is told. @default none */
  readonly coverage?: CoverageLike | undefined;
}

/**
 * Why two points share a region: the narrow places of the widest way through the paper from one to
 * the other, narrowest first; none where ink parts them. Each holds a ready mark. Closing the
 * narrowest parts the points unless other ways, no wider than this one, lead round it: then ask
 * again.
 *
 * A place is narrow where the way is at least 1.25 times as wide before and behind it. A point on ink
 * stands for the nearest paper, ties to the first row by row. O(pixels); about 11 bytes per pixel
 * beside the study.
 *
 * @param ink - `[w, h]` of 0 or 1, or what `studyGaps` made of it.
 * @param a - A point `[x, y]` inside the picture; its pixel is the floor.
 * @param b - Another one.
 * @throws TypeError or RangeError for a raster that is no mask, a point outside the picture, or a
 * coverage of another size.
 * @example
 * ```ts
 * import { leaksBetween, raster } from 'underink';
 * const ink = raster(new Uint8Array(31 * 17), [31, 17]);
 * for (let x = 0; x < 31; x++) for (const y of [0, 16]) ink.set(x, y, 1);
 * for (let y = 0; y < 17; y++) for (const x of [0, 15, 30]) ink.set(x, y, y < 7 || y > 9 ? 1 : 0);
 * const [leak] = leaksBetween(ink, [7, 8], [23, 8]); // two rooms, with a door of 3 pixels
 * console.log(leak?.width, leak?.bridge); // 3 [ [ 15.5, 6.5 ], [ 15.5, 10.5 ] ]
 * ```
 */
export function leaksBetween(
  ink: MaskLike | GapStudy,
  a: Point,
  b: Point,
  options?: LeaksBetweenOptions,
): Leak[] {
  const { coverage } = checkOptions(options, 'leaksBetween', ['coverage']);
  const study = ink instanceof Study ? ink : new Study(maskArgument(ink as MaskLike, 'ink'));
  const from = pixelAt(a, 'a', study.ink);
  const to = pixelAt(b, 'b', study.ink);
  if (coverage === undefined) return new LeakFinder(study).find(from, to);
  const dense = coverageArgument(coverage, 'coverage');
  checkSameSize(study.ink, 'ink', dense, 'coverage');
  return new LeakFinder(study, dense).find(from, to);
}

/** Finds leaks between pixels, any number of times after one look at how wide the paper is. */
export class LeakFinder {
  private readonly study: Study;
  /** As the study looks at it. */
  private readonly coverage: Looked | undefined;
  private readonly levels: Levels;
  private readonly contacts: ContactFinder;

  constructor(study: Study, coverage?: Dense<Uint8Array>, tick?: Tick) {
    const { seen, view } = study;
    this.study = study;
    this.coverage = coverage && view.lookAt(coverage);
    this.levels = measureLevels(seen.data, seen.width, seen.height, tick);
    this.contacts = new ContactFinder(seen);
  }

  /**
   * The leaks between two pixels that are to be apart, by index: narrowest first, and where the way is
   * nowhere narrow, its mouth.
   */
  findAny(from: number, to: number, tick?: Tick): Leak[] {
    const { levels } = this;
    const way = this.wayBetween(from, to, partOf(tick, 0, 0.5));
    const narrow = narrowPlaces(levels, way);
    const places = narrow.length === 0 ? mouthOf(levels, way) : narrow;
    return this.leaksAt(way, places, partOf(tick, 0.5, 1));
  }

  /** The leaks between two pixels, by index; narrowest first. */
  find(from: number, to: number, tick?: Tick): Leak[] {
    const way = this.wayBetween(from, to, partOf(tick, 0, 0.5));
    return this.leaksAt(way, narrowPlaces(this.levels, way), partOf(tick, 0.5, 1));
  }

  /** The widest way between the paper at two pixels, as cells of the levels; empty where there is none. */
  private wayBetween(from: number, to: number, tick?: Tick): readonly number[] {
    const { levels } = this;
    const { ink, seen, view } = this.study;
    const cellOf = (pixel: number): number => {
      const own = view.indexIn(nearestPaper(ink, pixel));
      return own + levels.stride + Math.floor(own / seen.width);
    };
    return widestWay(levels, cellOf(from), cellOf(to), tick) ?? [];
  }

  private leaksAt(way: readonly number[], places: readonly Narrow[], tick?: Tick): Leak[] {
    const { study, coverage, levels, contacts } = this;
    const { seen, view } = study;
    const { level, stride } = levels;
    const leaks: Leak[] = [];
    const proposals: Proposal[] = [];
    for (const { index, opens } of places) {
      const cell = way[index]!;
      const y = Math.floor(cell / stride) - 1;
      const x = cell - (y + 1) * stride;
      contacts.find(x, y, radiusOf(level[cell]!), armsAt(way, index, stride));
      if (contacts.from < 0 || contacts.to < 0) continue;
      const span = spanGap(seen, contacts.from, contacts.to, 1, 1);
      if (span === undefined) continue;
      const clear = span.length - 1;
      const passage = { width: clear, opens: sorted(opens), around: clear };
      proposals.push({ ...span, a: -1, b: -1, passage });
      const { from, to } = span;
      const pixels = paperBetween(seen, from, to);
      const pale = coverage && paleInk(coverage, from, to, pixels, study.margin);
      leaks.push({
        at: view.pointOf([x + 0.5, y + 0.5]),
        width: clear,
        bridge: [
          view.pointOf(pixelCenter(from, seen.width)),
          view.pointOf(pixelCenter(to, seen.width)),
        ],
        probability: 0,
        ...(pale === undefined ? {} : { pale }),
      });
    }
    const odds = study.judge(proposals, tick);
    return leaks
      .map((leak, k) => ({ ...leak, probability: probabilityOf(odds[k]!) }))
      .sort((p, q) => p.width - q.width);
  }
}

function sorted([a, b]: readonly [number, number]): readonly [number, number] {
  return a < b ? [a, b] : [b, a];
}

/** Index of a point's pixel, which must be inside the picture. */
export function pixelAt(
  value: Point,
  name: string,
  { width, height }: { readonly width: number; readonly height: number },
): number {
  const [x, y] = checkPoint(value, name);
  if (x < 0 || y < 0 || x >= width || y >= height) {
    throw wrongValue(name, `inside the picture of ${width} × ${height}`, value);
  }
  return Math.floor(y) * width + Math.floor(x);
}

/** The paper pixel nearest to a pixel, ties to the first row by row; the pixel itself where all is ink. */
function nearestPaper({ data, width, height }: Dense<Uint8Array>, pixel: number): number {
  if (data[pixel] === 0) return pixel;
  const x = pixel % width;
  const y = Math.floor(pixel / width);
  let [best, square] = [pixel, Number.POSITIVE_INFINITY];
  for (let reach = 1; reach < Math.max(width, height) && reach * reach <= square; reach++) {
    for (let v = Math.max(0, y - reach); v <= Math.min(height - 1, y + reach); v++) {
      // Only the square's rim is new.
      const step = Math.abs(v - y) === reach ? 1 : 2 * reach;
      for (let u = x - reach; u <= x + reach; u += step) {
        if (u < 0 || u >= width || data[v * width + u] === 1) continue;
        const off = (u - x) * (u - x) + (v - y) * (v - y);
        const here = v * width + u;
        if (off < square || (off === square && here < best)) [best, square] = [here, off];
      }
    }
  }
  return best;
}
