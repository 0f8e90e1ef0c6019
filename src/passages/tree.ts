import { maskArgument } from '../raster/arguments.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import { outArgument, outResult } from '../raster/out.ts';
import { type Packed, packMask } from '../raster/pack.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type { Scratch } from '../raster/scratch.ts';
import type { Dense, Labels, MaskLike, RasterView } from '../raster/types.ts';
import { type Flood, floodPaper } from './flood.ts';
import { type Levels, measureLevels } from './levels.ts';
import { type Found, type FoundList, LEAST_RATIO, listPassages } from './list.ts';
import { cutPieces, joinPieces, type Pieces } from './pieces.ts';

export interface PartitionOptions {
  /**
   * How far the paper must open on both sides of a gap, in half widths of the gap, from the middle
   * of its ink; 1.25 or more. @default 2.6
   */
  readonly ratio?: number | undefined;
  /** An Int32 raster of the ink's shape to write into. */
  readonly out?: RasterView<Int32Array> | undefined;
}

/** Narrow places of the paper, the narrowest first; one column per property. */
export interface Passages {
  /** Length of each column: the number of passages. */
  readonly length: number;
  /** Two per passage, x and y of a whole pixel, not of its center: the paper pixel in the middle. */
  readonly at: Int32Array;
  /** The ink pixels on its two sides, likewise. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Clear paper between those, in pixels: their distance less 1. */
  readonly width: Float64Array;
  /**
   * Two per passage: distance to ink where the paper behind either side is widest, the lesser
   * first. Where the sides are joined another way too, this is with that way closed.
   */
  readonly opens: Float64Array;
  /** Width of the widest way from side to side; the passage's own where there is no wider one. */
  readonly around: Float64Array;
}

/** The passages of one drawing's paper, and its regions with any of them closed. */
export interface PassageTree {
  /** `[width, height]` of the ink. */
  readonly size: readonly [number, number];
  readonly passages: Passages;
  /**
   * Regions of the paper when passages up to `maxGap` pixels wide are closed where the paper opens
   * enough on both sides; 0 on ink, 1..n by first pixel, row by row. `maxGap` 0 closes nothing. A
   * larger `maxGap` or a smaller `ratio` parts regions further and changes no border that there is.
   * O(pixels).
   */
  partition(maxGap: number, options?: PartitionOptions): Labels;
}

/**
 * Finds where paper is narrow between places where it opens, so that regions can be parted there
 * under any number of settings.
 *
 * ```text
 * # # # # # # # # #     two rooms and a door of 1 pixel: a passage of width 1 between the two
 * # . . . # . . . #     jambs, which opens to 2 pixels on either side.
 * # . . . . . . . #     partition(0): one region; partition(1, { ratio: 2 }): two, which meet
 * # . . . # . . . #     in the door
 * # # # # # # # # #
 * ```
 *
 * The paper is flooded from its widest places to its narrowest, by exact Euclidean distance to ink.
 * Where two floods meet is the narrowest place of the widest way between them. Such a place is a
 * passage when both floods have been at least 1.25 times as wide, and a gap for `partition` when
 * half the distance between its ink pixels, times `ratio`, fits into the widest place of either
 * side: persistence, as a ratio (Edelsbrunner, Letscher, Zomorodian 2002, "Topological persistence
 * and simplification", DOI 10.1007/s00454-002-2885-2). It is taken over 4-connected paper. Of two
 * passages between the same rooms `partition` asks only for the wider, and closes both;
 * `passages` has each.
 *
 * Paper goes on past the border of the picture: a border is no wall, and a stroke that ends shortly
 * before it leaves no gap. But nothing is known of that paper, so it joins no regions, and the
 * widest place of a region is sought within the picture.
 *
 * Distances are exact up to 181 pixels and count by whole pixels beyond. Where pixels are equally
 * far from ink, the flood takes them in the order in which it reaches them, then row by row; a
 * mirrored drawing has the same passages and, where floods meet head on, borders within a pixel.
 *
 * O(pixels); about 8 bytes per pixel while the tree is built, 8 per run of the pieces' rows in
 * the result.
 *
 * @param ink - `[w, h]` of 0 or 1.
 * @returns The tree, which does not look at the mask again.
 * @throws TypeError or RangeError for a raster that is no mask; `partition` for a `maxGap` or
 * options that are wrong.
 * @example
 * ```ts
 * import { passageTree, raster } from 'underink';
 * const ink = raster(new Uint8Array(31 * 17), [31, 17]);
 * for (let x = 0; x < 31; x++) for (const y of [0, 16]) ink.set(x, y, 1);
 * for (let y = 0; y < 17; y++) for (const x of [0, 15, 30]) ink.set(x, y, y < 7 || y > 9 ? 1 : 0);
 * const tree = passageTree(ink); // two rooms, with a door of 3 pixels between them
 * console.log(tree.passages.length, tree.passages.width[0]); // 1 3
 * console.log(Math.max(...tree.partition(2).data), Math.max(...tree.partition(3).data)); // 1 2
 * ```
 */
export function passageTree(ink: MaskLike): PassageTree {
  const dense = maskArgument(ink, 'ink');
  const packed = packMask(dense, 'ink');
  const { levels, flood, found } = findPassages(dense, packed);
  const passages = found.all();
  return new Tree(dense, passages, cutPieces(flood, levels, passages));
}

/** The passages of a drawing's paper, and what they were found by, which may lie in scratch memory. */
export function findPassages(
  ink: Dense<Uint8Array>,
  packed: Packed,
  tick?: Tick,
  scratch?: Scratch,
): {
  readonly levels: Levels;
  readonly flood: Flood;
  readonly found: FoundList;
} {
  const levels = measureLevels(ink.data, ink.width, ink.height, partOf(tick, 0, 0.5), scratch);
  const flood = floodPaper(levels, partOf(tick, 0.5, 0.9), scratch);
  const found = listPassages(ink, packed, levels, flood, partOf(tick, 0.9, 1));
  return { levels, flood, found };
}

class Tree implements PassageTree {
  readonly size: readonly [number, number];
  readonly passages: Passages;
  private readonly pieces: Pieces;

  constructor({ width, height }: Dense<Uint8Array>, found: readonly Found[], pieces: Pieces) {
    this.size = [width, height];
    this.passages = passageColumns(found, width);
    this.pieces = pieces;
  }

  partition(maxGap: number, options?: PartitionOptions): Labels {
    checkNumber(maxGap, 'maxGap', { unit: 'pixels' });
    const { ratio = 2.6, out } = checkOptions(options, 'partition', ['ratio', 'out']);
    checkNumber(ratio, 'ratio', { min: LEAST_RATIO });
    const [width, height] = this.size;
    const data = outArgument(out, Int32Array, width, height, []);
    const isGap = ({ width: clear, opens }: Found) =>
      clear <= maxGap && opens[0] >= (ratio * (clear + 1)) / 2;
    joinPieces(this.pieces, isGap, width, data);
    return outResult(out, data, width, height);
  }
}

/** Passages, the narrowest first, ties by place, as one column per property. */
export function passageColumns(found: readonly Found[], width: number): Passages {
  const sorted = [...found].sort((p, q) => p.width - q.width || p.at - q.at);
  const pixels = (of: (passage: Found) => number) =>
    Int32Array.from(
      sorted.flatMap((passage) => [of(passage) % width, Math.floor(of(passage) / width)]),
    );
  return {
    length: sorted.length,
    at: pixels(({ at }) => at),
    from: pixels(({ from }) => from),
    to: pixels(({ to }) => to),
    width: Float64Array.from(sorted, (passage) => passage.width),
    opens: Float64Array.from(sorted.flatMap(({ opens }) => opens)),
    around: Float64Array.from(sorted, ({ around }) => around),
  };
}
