import { checkSameSize } from '../raster/arguments.ts';
import { pixelCenter } from '../raster/pixel-center.ts';
import { raster } from '../raster/raster.ts';
import type { Bounds, Pixels, Point } from '../raster/types.ts';
import { labelEqual } from '../regions/label-equal.ts';
import { measureRegions } from '../regions/measure.ts';
import { PairIndex } from '../runs/pair-index.ts';
import { drawDiff } from './draw-diff.ts';
import { type DenseFlats, flatsArgument } from './flats-argument.ts';
import type { FlatsLike, Swatch } from './types.ts';

/** A swatch that has other pixels, another color, or is on one side only. */
export interface SwatchChange {
  readonly name: string;
  /** Its color before; absent where only the later palette has it. */
  readonly colorBefore?: string;
  /** Its color after; absent where only the earlier palette has it. */
  readonly colorAfter?: string;
  /** Its pixels before. */
  readonly areaBefore: number;
  /** Its pixels after. */
  readonly areaAfter: number;
  /** Pixels that it took from others. */
  readonly gained: number;
  /** Pixels that others took from it. */
  readonly lost: number;
}

/** Connected pixels that went from one swatch to another. */
export interface RegionChange {
  readonly from: string;
  readonly to: string;
  readonly area: number;
  readonly bounds: Bounds;
  /** Center of its first pixel, row by row. */
  readonly at: Point;
}

export interface FlatsDiff {
  /** Pixels whose swatch has another name. */
  readonly changed: number;
  /** In the order of the earlier palette, then of what is new in the later one. */
  readonly swatches: readonly SwatchChange[];
  /** 4-connected, by first pixel, row by row. */
  readonly regions: readonly RegionChange[];
  /**
   * RGBA, opaque: the later flats in pale gray, pixels of another swatch in `#e6007e`, those of a
   * swatch that has kept its name but not its color in `#0078ff`.
   */
  readonly picture: Pixels<Uint8Array>;
}

/**
 * What changed between two versions of flats, by swatch and by region, with a picture.
 *
 * Swatches are the same where their names are, in whatever order the palettes hold them.
 *
 * ```text
 * a           b           regions
 * fur fur     fur beak    fur → beak at [1.5, 0.5], 2 px
 * fur fur     fur beak
 * ```
 *
 * @param a - The earlier version.
 * @param b - The later one, of the same size.
 * @returns Only what differs. O(pixels + swatches); twelve bytes a pixel.
 * @throws TypeError or RangeError for flats that are none, and for two sizes.
 * @example
 * ```ts
 * import { diffFlats, raster } from 'underink';
 * const palette = ['bare', 'fur', 'beak'].map((name) => ({ name, color: '#c86400' }));
 * const flats = (...indices: number[]) => ({
 *   indices: raster(Uint8Array.from(indices), [3, 1]),
 *   palette,
 * });
 * const { changed, regions } = diffFlats(flats(1, 1, 2), flats(1, 2, 2));
 * console.log(changed, regions[0]?.from, regions[0]?.to, regions[0]?.at); // 1 fur beak [ 1.5, 0.5 ]
 * ```
 */
export function diffFlats(a: FlatsLike, b: FlatsLike): FlatsDiff {
  const before = flatsArgument(a, 'a');
  const after = flatsArgument(b, 'b');
  checkSameSize(before.indices, 'a.indices', after.indices, 'b.indices');
  const names = new Names(before.palette, after.palette);
  const { pairs, ids } = changedPairs(before, after, names);
  const { width, height } = after.indices;
  const regions = regionChanges(ids, pairs, width, height);
  return {
    changed: regions.reduce((sum, { area }) => sum + area, 0),
    swatches: swatchChanges(before, names, regions),
    regions,
    picture: drawDiff(after, ids, names.recolored()),
  };
}

/** One number for each name of either palette. */
class Names {
  readonly all: string[] = [];
  /** Number by index of the earlier palette, and of the later one. */
  readonly before: Int32Array;
  readonly after: Int32Array;
  readonly #a: readonly Swatch[];
  readonly #b: readonly Swatch[];

  constructor(a: readonly Swatch[], b: readonly Swatch[]) {
    const numbers = new Map<string, number>();
    const numberOf = ({ name }: Swatch): number => {
      const known = numbers.get(name);
      if (known !== undefined) return known;
      numbers.set(name, this.all.length);
      return this.all.push(name) - 1;
    };
    this.before = Int32Array.from(a, numberOf);
    this.after = Int32Array.from(b, numberOf);
    this.#a = a;
    this.#b = b;
  }

  /** Color by number before, and after. */
  colors(): [before: (string | undefined)[], after: (string | undefined)[]] {
    const colors = (own: Int32Array, palette: readonly Swatch[]): (string | undefined)[] => {
      const found = new Array<string | undefined>(this.all.length).fill(undefined);
      own.forEach((number, i) => {
        found[number] = palette[i]!.color;
      });
      return found;
    };
    return [colors(this.before, this.#a), colors(this.after, this.#b)];
  }

  /** 1 for each index of the later palette, other than bare, whose swatch had another color. */
  recolored(): Uint8Array {
    const [before] = this.colors();
    return Uint8Array.from(this.#b, ({ color }, i) => {
      const old = before[this.after[i]!];
      return i > 0 && old !== undefined && old !== color ? 1 : 0;
    });
  }
}

interface Pair {
  readonly from: string;
  readonly to: string;
}

/** For each pixel 0 where its swatch is the same, else the number of its pair, from 1. */
function changedPairs(
  before: DenseFlats,
  after: DenseFlats,
  names: Names,
): { pairs: Pair[]; ids: Int32Array } {
  const old = before.indices.data;
  const now = after.indices.data;
  const ids = new Int32Array(now.length);
  const pairs = new PairIndex();
  for (let i = 0; i < ids.length; i++) {
    const from = names.before[old[i]!]!;
    const to = names.after[now[i]!]!;
    if (from === to) continue;
    ids[i] = pairs.add(from, to, 1) + 1;
  }
  const { first, second, size } = pairs;
  const named = Array.from({ length: size }, (_, k) => ({
    from: names.all[first[k]!]!,
    to: names.all[second[k]!]!,
  }));
  return { pairs: named, ids };
}

function regionChanges(
  ids: Int32Array,
  pairs: readonly Pair[],
  width: number,
  height: number,
): RegionChange[] {
  if (pairs.length === 0) return [];
  const { labels, count } = labelEqual(raster(ids, [width, height]), { background: 0 });
  const { area, bounds } = measureRegions(labels);
  const regions: RegionChange[] = [];
  for (let i = 0; i < ids.length && regions.length < count; i++) {
    const label = labels.data[i]!;
    if (label <= regions.length) continue; // labels are numbered by first pixel
    const [x0, y0, x1, y1] = bounds.subarray(4 * label, 4 * label + 4);
    regions.push({
      ...pairs[ids[i]! - 1]!,
      area: area[label]!,
      bounds: [x0!, y0!, x1!, y1!],
      at: pixelCenter(i, width),
    });
  }
  return regions;
}

function swatchChanges(
  before: DenseFlats,
  names: Names,
  regions: readonly RegionChange[],
): SwatchChange[] {
  const numbers = new Map(names.all.map((name, number) => [name, number]));
  const gained = new Float64Array(names.all.length);
  const lost = new Float64Array(names.all.length);
  for (const { from, to, area } of regions) {
    lost[numbers.get(from)!]! += area;
    gained[numbers.get(to)!]! += area;
  }
  const areas = areasBy(before, names.before, names.all.length);
  const [colorsBefore, colorsAfter] = names.colors();
  return names.all.flatMap((name, k) => {
    const colorBefore = colorsBefore[k];
    const colorAfter = colorsAfter[k];
    const sameColor = colorBefore === colorAfter || k === 0; // bare has no color
    if (sameColor && gained[k] === 0 && lost[k] === 0) return [];
    return {
      name,
      ...(colorBefore !== undefined && { colorBefore }),
      ...(colorAfter !== undefined && { colorAfter }),
      areaBefore: areas[k]!,
      areaAfter: areas[k]! + gained[k]! - lost[k]!,
      gained: gained[k]!,
      lost: lost[k]!,
    };
  });
}

function areasBy({ indices }: DenseFlats, numbers: Int32Array, count: number): Float64Array {
  const areas = new Float64Array(count);
  for (let i = 0; i < indices.data.length; i++) areas[numbers[indices.data[i]!]!]! += 1;
  return areas;
}
