import type { Bounds } from '../../raster/types.ts';
import { fillSpan } from '../../runs/fill-span.ts';
import type { Assignment } from '../assign.ts';
import { eachSpan, type NumberedRows, settledNumbers } from './match-regions.ts';

/** Regions with their swatches. */
export interface LaidRows extends NumberedRows {
  readonly assigned: Assignment;
}

/** The rasters that a page shows. */
export interface PageRasters {
  readonly labels: Int32Array;
  readonly indices: Uint8Array | Uint16Array;
}

export interface Repainted {
  /** Half-open; null where nothing looks different. */
  readonly bounds: Bounds | null;
  /** Ids of regions whose pixels or swatch are not what they were. */
  readonly ids: ReadonlySet<number>;
}

/** Writes all labels and indices. O(pixels). */
export function writeAll(
  { rows, ids, assigned }: LaidRows,
  { labels, indices }: PageRasters,
  width: number,
): void {
  rows.forEach((row, y) => {
    for (let k = 0; k < row.length; k += 2) {
      const [start, end] = [y * width + row[k]!, y * width + (row[k + 2] ?? width)];
      const id = ids[row[k + 1]!]!;
      fillSpan(labels, id, start, end);
      fillSpan(indices, assigned.indexOf[id]!, start, end);
    }
  });
}

/** Writes labels and indices where they differ from those of before. O(runs + changed pixels). */
export function writeChanges(
  before: LaidRows,
  now: LaidRows,
  { labels, indices }: PageRasters,
  width: number,
): Repainted {
  const looks = changedLooks(before.assigned, now.assigned);
  const changed = new Set<number>();
  let [x0, y0, x1, y1] = [width, now.rows.length, 0, 0];
  const settled = settledNumbers(before, now, (id) => looks[id] === 0);
  eachSpan(before.rows, now.rows, width, settled, (y, start, end, old, number) => {
    const [was, id] = [before.ids[old]!, now.ids[number]!];
    if (was === id && looks[id] === 0) return;
    changed.add(was);
    changed.add(id);
    if (was !== id) fillSpan(labels, id, y * width + start, y * width + end);
    fillSpan(indices, now.assigned.indexOf[id]!, y * width + start, y * width + end);
    if (start < x0) x0 = start;
    if (end > x1) x1 = end;
    if (y < y0) y0 = y;
    y1 = y + 1;
  });
  changed.delete(0);
  return { bounds: y1 === 0 ? null : [x0, y0, x1, y1], ids: changed };
}

/** By id 1 where a region of both has another index, color or name, or is the ground now or was. */
function changedLooks(before: Assignment, now: Assignment): Uint8Array {
  const looks = new Uint8Array(now.indexOf.length);
  for (let id = 0; id < before.indexOf.length; id++) {
    const [a, b] = [before.indexOf[id]!, now.indexOf[id]!];
    const [was, is] = [before.palette[a]!, now.palette[b]!];
    const sameGround = (was.name === before.ground) === (is.name === now.ground);
    if (a !== b || was.color !== is.color || was.name !== is.name || !sameGround) looks[id] = 1;
  }
  return looks;
}
