import type { LabelRow } from './label-rows.ts';

/** Pixels and bounds of regions, by id. */
export interface MeasuredRows {
  readonly areas: Int32Array;
  /** Four per id, `[x0, y0, x1, y1]`, half-open. */
  readonly bounds: Int32Array;
}

/** O(runs). */
export function measureRows(
  rows: readonly LabelRow[],
  ids: Int32Array,
  width: number,
  length: number,
): MeasuredRows {
  const areas = new Int32Array(length);
  const bounds = new Int32Array(4 * length);
  for (let y = 0; y < rows.length; y++) {
    const row = rows[y]!;
    for (let k = 0; k < row.length; k += 2) {
      const id = ids[row[k + 1]!]!;
      const start = row[k]!;
      const end = k + 2 < row.length ? row[k + 2]! : width;
      const at = 4 * id;
      if (areas[id] === 0) {
        bounds[at] = start;
        bounds[at + 1] = y;
      } else if (start < bounds[at]!) bounds[at] = start;
      if (end > bounds[at + 2]!) bounds[at + 2] = end;
      bounds[at + 3] = y + 1;
      areas[id]! += end - start;
    }
  }
  areas[0] = 0;
  return { areas, bounds };
}

/** Ids with a pixel of paper on the picture's border. O(rows + width). */
export function idsAtBorder(
  rows: readonly LabelRow[],
  ids: Int32Array,
  width: number,
  isPaper: (x: number, y: number) => boolean,
): Set<number> {
  const found = new Set<number>();
  const last = rows.length - 1;
  rows.forEach((row, y) => {
    if (y > 0 && y < last) {
      if (isPaper(0, y)) found.add(ids[row[1]!]!);
      if (isPaper(width - 1, y)) found.add(ids[row[row.length - 1]!]!);
      return;
    }
    for (let k = 0; k < row.length; k += 2) {
      const end = k + 2 < row.length ? row[k + 2]! : width;
      for (let x = row[k]!; x < end; x++) if (isPaper(x, y)) found.add(ids[row[k + 1]!]!);
    }
  });
  found.delete(0);
  return found;
}
