import type { Bounds } from '../../raster/types.ts';
import { inscribedDiscs } from '../../regions/inscribed.ts';
import { fillSpan } from '../../runs/fill-span.ts';
import type { Parts } from '../../runs/parts.ts';
import { placeIn } from './label-rows.ts';
import type { NumberedRows } from './match-regions.ts';
import type { Disc } from './name-regions.ts';

/** The widest disc of one region on paper, as `inscribedDiscs` finds it. O(pixels of the bounds). */
export function findDisc(
  { rows, ids }: NumberedRows,
  { width, runs }: Parts,
  id: number,
  [x0, y0, x1, y1]: Readonly<Bounds>,
): Disc {
  const columns = x1 - x0;
  const own = new Int32Array(columns * (y1 - y0));
  const ink = new Uint8Array(own.length).fill(1);
  for (let y = y0; y < y1; y++) {
    const at = (y - y0) * columns - x0;
    const row = rows[y]!;
    for (let k = placeIn(row, x0); k < row.length && row[k]! < x1; k += 2) {
      if (ids[row[k + 1]!] !== id) continue;
      fillSpan(own, 1, at + row[k]!, at + (k + 2 < row.length ? row[k + 2]! : width));
    }
    for (let r = runs.from[y]!; r < runs.to[y]!; r++) {
      const [start, end] = [Math.max(x0, runs.start[r]!), Math.min(x1, runs.end[r]!)];
      if (start < end) fillSpan(ink, 0, at + start, at + end);
    }
  }
  const { center, square } = inscribedDiscs(own, columns, y1 - y0, 2, ink);
  const [x, y] = [center[1]! % columns, Math.floor(center[1]! / columns)];
  return { center: (y0 + y) * width + x0 + x, square: square[1]! };
}
