import type { StrokeEnd } from '../strokes/stroke-ends.ts';

/** Ends sorted into square cells, so that those near a place are found without looking at all. */
export interface EndGrid {
  readonly cell: number;
  readonly columns: number;
  readonly rows: number;
  /** The ends of cell c are `order[first[c]]` to `order[first[c + 1] - 1]`. */
  readonly first: Int32Array;
  readonly order: Int32Array;
}

/** Cells with sides of at least `reach`. O(ends + cells). */
export function buildEndGrid(
  ends: readonly StrokeEnd[],
  width: number,
  height: number,
  reach: number,
): EndGrid {
  const cell = Math.max(16, Math.ceil(Math.min(reach, Math.max(width, height))));
  const columns = Math.ceil(width / cell);
  const rows = Math.ceil(height / cell);
  const cellOf = ({ x, y }: StrokeEnd) => Math.floor(y / cell) * columns + Math.floor(x / cell);
  const first = new Int32Array(columns * rows + 1);
  for (const end of ends) first[cellOf(end) + 1]!++;
  for (let c = 0; c < columns * rows; c++) first[c + 1]! += first[c]!;
  const fill = first.slice();
  const order = new Int32Array(ends.length);
  for (let e = 0; e < ends.length; e++) order[fill[cellOf(ends[e]!)]!++] = e;
  return { cell, columns, rows, first, order };
}

/** Calls `visit` with every end in the cell of (x, y) and the eight around it. */
export function visitNear(
  { cell, columns, rows, first, order }: EndGrid,
  x: number,
  y: number,
  visit: (end: number) => void,
): void {
  const column = Math.floor(x / cell);
  const row = Math.floor(y / cell);
  for (let r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++) {
    for (let c = Math.max(0, column - 1); c <= Math.min(columns - 1, column + 1); c++) {
      const at = r * columns + c;
      for (let i = first[at]!; i < first[at + 1]!; i++) visit(order[i]!);
    }
  }
}
