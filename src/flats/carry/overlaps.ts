import { TICK_ROWS, type Tick } from '../../raster/progress.ts';
import { PairIndex } from '../../runs/pair-index.ts';

/** How the paper of new regions and that of old ones lie on each other. */
export interface Overlaps {
  /** Paper of each new region in pixels, and of it what shows no old region. */
  readonly area: Int32Array;
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
 * @param seen - Old region at each pixel of the new picture, 0 for none.
 * @param oldArea - Paper of each old region that lies in the new picture, in pixels of that.
 */
export function overlapsOf(
  labels: Int32Array,
  walls: Uint8Array,
  width: number,
  count: number,
  seen: Int32Array,
  oldArea: Float64Array,
  tick?: Tick,
): Overlaps {
  const area = new Int32Array(count);
  const blank = new Int32Array(count);
  const pairs = new PairIndex();
  for (let from = 0; from < labels.length; from += width) {
    if (tick !== undefined && from % (TICK_ROWS * width) === 0) tick(from / labels.length);
    for (let p = from; p < from + width; ) {
      const id = labels[p]!;
      const old = seen[p]!;
      const wall = walls[p]!;
      const start = p;
      while (++p < from + width && labels[p] === id && seen[p] === old && walls[p] === wall);
      if (id === 0 || wall !== 0) continue;
      area[id]! += p - start;
      if (old === 0) blank[id]! += p - start;
      else pairs.add(id, old, p - start);
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
  return { area, blank, oldArea, shows, shownBy };
}
