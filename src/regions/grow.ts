import { fillNearest, fillUnlabeled, packLabeled } from '../distance/nearest-label.ts';
import {
  checkSameSize,
  coverageArgument,
  labelsArgument,
  labelsHead,
  maskArgument,
} from '../raster/arguments.ts';
import { checkOptions } from '../raster/checks.ts';
import { outArgument, outResult } from '../raster/out.ts';
import { packMask } from '../raster/pack.ts';
import type {
  CoverageLike,
  Labels,
  LabelsLike,
  MaskLike,
  RasterData,
  RasterView,
} from '../raster/types.ts';
import { floodRidges } from './ridge.ts';

export interface GrowOptions {
  /** Ink coverage `[w, h]`; with it regions meet on the ink's darkest ridge. @default none */
  readonly coverage?: CoverageLike | undefined;
  /** An Int32 raster of the labels' shape to write into. */
  readonly out?: RasterView<Int32Array> | undefined;
}

/**
 * Grows regions under the ink until they cover every pixel and meet in its middle (label expansion;
 * with `coverage`, a seeded watershed).
 *
 * Each pixel without a label takes the label of the nearest labeled pixel by exact Euclidean
 * distance; among equally near ones the lowest label. A label that lies on ink is grown anew from
 * its region's paper; a region that has no paper keeps what it has. Without any region the labels
 * come back unchanged.
 *
 * ```text
 * labels          ink             grown
 * 1 0 0 0 2       0 1 1 1 0       1 1 1 2 2
 * ```
 *
 * With `coverage`, pixels are taken in the order of their coverage, light ones first, so that the
 * seam follows the darkest ridge of a line of uneven tone (Meyer 1994, "Topographic distance and
 * watershed lines", DOI 10.1016/0165-1684(94)90060-4); on a ridge that is flat it runs in the
 * middle by 4-connected steps, and of two regions that arrive at once the one reached first in row
 * order takes the pixel.
 *
 * O(pixels) time. Memory beside the result: O(width), with `coverage` 4 bytes per pixel.
 *
 * @param labels - `[w, h]` Int32 ids, 0 = no region.
 * @param ink - Mask `[w, h]` of the ink.
 * @returns Int32 labels `[w, h]`.
 * @throws TypeError or RangeError for rasters of the wrong kind or of different sizes.
 * @example
 * ```ts
 * import { growUnderInk, raster } from 'underink';
 * const labels = raster(new Int32Array([1, 0, 0, 0, 2]), [5, 1]);
 * const ink = raster(new Uint8Array([0, 1, 1, 1, 0]), [5, 1]);
 * console.log([...growUnderInk(labels, ink).data].join(' ')); // 1 1 1 2 2
 * ```
 */
export function growUnderInk(labels: LabelsLike, ink: MaskLike, options?: GrowOptions): Labels {
  const { coverage, out } = checkOptions(options, 'growUnderInk', ['coverage', 'out']);
  const from = labelsHead(labels, 'labels');
  const under = maskArgument(ink, 'ink');
  checkSameSize(from, 'labels', under, 'ink');
  const packed = packMask(under, 'ink');
  const { width, height } = from;
  const inputs: RasterData[] = [labels.data, ink.data];
  let tone: Uint8Array | undefined;
  if (coverage !== undefined) {
    const dense = coverageArgument(coverage, 'coverage');
    checkSameSize(from, 'labels', dense, 'coverage');
    tone = dense.data;
    inputs.push(coverage.data);
  }
  const data = outArgument(out, Int32Array, width, height, inputs);
  const { labeled, isNegative } = packLabeled(from.data, width, height);
  if (isNegative) labelsArgument(labels, 'labels');
  data.set(from.data);
  const isClear = packed.words.every((word, k) => (word & labeled.words[k]!) === 0);
  if (!isClear) clearUnderInk(data, under.data);
  if (tone !== undefined) floodRidges(data, tone, width, height);
  else if (isClear) fillUnlabeled(data, labeled);
  else fillNearest(data, width, height);
  return outResult(out, data, width, height);
}

/** Takes the labels off the ink, but for regions that have no pixel elsewhere. */
function clearUnderInk(labels: Int32Array, ink: Uint8Array): void {
  const onPaper = new Set<number>();
  for (let i = 0, last = 0; i < labels.length; i++) {
    const label = labels[i]!;
    if (ink[i] === 0 && label !== last) {
      onPaper.add(label);
      last = label;
    }
  }
  for (let i = 0; i < labels.length; i++) {
    if (ink[i] === 1 && onPaper.has(labels[i]!)) labels[i] = 0;
  }
}
