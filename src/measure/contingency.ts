import { checkSameSize, labelsArgument } from '../raster/arguments.ts';
import type { LabelsLike } from '../raster/types.ts';
import { PairIndex } from '../runs/pair-index.ts';

/** Pixels by pair of true and found region; only pixels of a true region count. */
export interface Contingency {
  /** Pixels of all true regions. */
  readonly pixels: number;
  /** Pixels of each true region. */
  readonly trueAreas: Int32Array;
  /** Pixels of each found region within true ones. */
  readonly foundAreas: Int32Array;
  /** Place of the found label 0 in `foundAreas`, the pixels that no found region has; -1 if there are none. */
  readonly unfound: number;
  /** Pairs that share a pixel: the place of each in the areas above, and the pixels shared. */
  readonly trueOf: Int32Array;
  readonly foundOf: Int32Array;
  readonly shared: Int32Array;
}

/** Checks two label rasters of one size and counts their pairs. */
export function contingencyArgument(truth: LabelsLike, found: LabelsLike): Contingency {
  const trueLabels = labelsArgument(truth, 'truth');
  const foundLabels = labelsArgument(found, 'found');
  checkSameSize(trueLabels, 'truth', foundLabels, 'found');
  return countPairs(trueLabels.data, foundLabels.data);
}

/** The sparse table. Runs of one pair are counted before they are looked up. */
function countPairs(truth: Int32Array, found: Int32Array): Contingency {
  const cells = new PairIndex();
  for (let i = 0; i < truth.length; ) {
    const a = truth[i]!;
    const b = found[i]!;
    const start = i++;
    while (i < truth.length && truth[i] === a && found[i] === b) i++;
    if (a !== 0) cells.add(a, b, i - start);
  }
  const { size, first, second, counts } = cells;
  const trueIds = new PairIndex();
  const foundIds = new PairIndex();
  const trueOf = new Int32Array(size);
  const foundOf = new Int32Array(size);
  let pixels = 0;
  let unfound = -1;
  for (let k = 0; k < size; k++) {
    const n = counts[k]!;
    trueOf[k] = trueIds.add(first[k]!, 0, n);
    foundOf[k] = foundIds.add(second[k]!, 0, n);
    if (second[k] === 0) unfound = foundOf[k]!;
    pixels += n;
  }
  return {
    pixels,
    trueAreas: trueIds.counts.subarray(0, trueIds.size),
    foundAreas: foundIds.counts.subarray(0, foundIds.size),
    unfound,
    trueOf,
    foundOf,
    shared: counts.subarray(0, size),
  };
}
