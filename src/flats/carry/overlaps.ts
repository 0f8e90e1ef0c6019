import { TICK_ROWS, type Tick } from '../../raster/progress.ts';
import { RegionPlaces } from '../../regions/measure.ts';
import { PairIndex } from '../../runs/pair-index.ts';

/** How the paper of new regions and that of old ones lie on each other. */
export interface Overlaps {
  /** Paper of each new region in pixels, where that is, and of it what shows no old region. */
  readonly area: Int32Array;
  readonly bounds: Int32Array;
  readonly centroid: Float64Array;
  readonly blank: Int32Array;
  /** Paper of each old region that lies in the new picture, in pixels of that. */
  readonly oldArea: Float64Array;
  /** By new region the old ones that it shows, the most pixels first, ties to the lower id. */
  readonly shows: readonly (readonly Overlap[])[];
  /** By old region the new ones that show it, likewise. */
  readonly shownBy: readonly (readonly Overlap[])[];
}

/** A region on the other side with the pixels of paper in common. */
export interface Overlap {
  readonly id: number;
  readonly pixels: number;
}

/**
 * Counts the paper that new and old regions have in common. O(pixels + pairs · log).
 *
 * @param labels - New regions; `walls` is what of them is no paper.
 * @param readSeen - Reads a row of the old regions that the new picture shows, 0 for none.
 * @param oldArea - Paper of each old region that lies in the new picture, in pixels of that.
 */
export function overlapsOf(
  labels: Int32Array,
  walls: Uint8Array,
  width: number,
  count: number,
  readSeen: (y: number, into: Int32Array) => void,
  oldArea: Float64Array,
  tick?: Tick,
): Overlaps {
  const places = new RegionPlaces(count);
  const blank = new Int32Array(count);
  const pairs = new PairIndex();
  const seen = new Int32Array(width);
  const height = labels.length / width;
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    readSeen(y, seen);
    const row = y * width;
    for (let x = 0; x < width; ) {
      const id = labels[row + x]!;
      const old = seen[x]!;
      const wall = walls[row + x]!;
      const from = x;
      while (++x < width) {
        if (labels[row + x] !== id || seen[x] !== old || walls[row + x] !== wall) break;
      }
      if (id === 0 || wall !== 0) continue;
      places.add(id, y, from, x);
      if (old === 0) blank[id]! += x - from;
      else pairs.add(id, old, x - from);
    }
  }
  const shows: Overlap[][] = Array.from({ length: count }, () => []);
  const shownBy: Overlap[][] = Array.from({ length: oldArea.length }, () => []);
  for (let k = 0; k < pairs.size; k++) {
    const [id, old, pixels] = [pairs.first[k]!, pairs.second[k]!, pairs.counts[k]!];
    shows[id]!.push({ id: old, pixels });
    shownBy[old]!.push({ id, pixels });
  }
  for (const list of [...shows, ...shownBy]) {
    list.sort((p, q) => q.pixels - p.pixels || p.id - q.id);
  }
  return { ...places.finish(), blank, oldArea, shows, shownBy };
}
