/** Side of a cell, in pixels. */
const CELL = 8;

/** Finds corners of borders inside triangles: lists of corners by square cells. */
export class CornerGrid {
  private readonly points: Int32Array;
  private readonly columns: number;
  private readonly rows: number;
  private readonly head: Int32Array;
  private readonly following: Int32Array;

  constructor(points: Int32Array, width: number, height: number) {
    this.points = points;
    this.columns = Math.floor(width / CELL) + 1;
    this.rows = Math.floor(height / CELL) + 1;
    this.head = new Int32Array(this.columns * this.rows).fill(-1);
    this.following = new Int32Array(points.length / 2);
    for (let i = 0; i < this.following.length; i++) {
      const cell = this.cellOf(i);
      this.following[i] = this.head[cell]!;
      this.head[cell] = i;
    }
  }

  remove(corner: number): void {
    const { head, following } = this;
    const cell = this.cellOf(corner);
    let at = head[cell]!;
    if (at === corner) {
      head[cell] = following[corner]!;
      return;
    }
    while (following[at] !== corner) at = following[at]!;
    following[at] = following[corner]!;
  }

  /** Whether no corner lies in or on a triangle of corners, beside these and what lies on a or c. */
  isEmpty(a: number, b: number, c: number): boolean {
    const { points } = this;
    const [ax, ay] = [points[2 * a]!, points[2 * a + 1]!];
    const [bx, by] = [points[2 * b]!, points[2 * b + 1]!];
    const [cx, cy] = [points[2 * c]!, points[2 * c + 1]!];
    const firstRow = Math.floor(Math.min(ay, by, cy) / CELL);
    const lastRow = Math.floor(Math.max(ay, by, cy) / CELL);
    for (let row = firstRow; row <= lastRow; row++) {
      const [low, high] = [row * CELL, row * CELL + CELL];
      // What the triangle spans within this row of cells.
      let from = Number.POSITIVE_INFINITY;
      let to = Number.NEGATIVE_INFINITY;
      const span = (x: number): void => {
        from = Math.min(from, x);
        to = Math.max(to, x);
      };
      const side = (px: number, py: number, qx: number, qy: number): void => {
        if (py >= low && py <= high) span(px);
        for (const y of [low, high]) {
          if ((py < y && qy > y) || (py > y && qy < y))
            span(px + ((qx - px) * (y - py)) / (qy - py));
        }
      };
      side(ax, ay, bx, by);
      side(bx, by, cx, cy);
      side(cx, cy, ax, ay);
      const first = Math.max(0, Math.floor(from / CELL - 1e-6));
      const last = Math.min(this.columns - 1, Math.floor(to / CELL + 1e-6));
      for (let column = first; column <= last; column++) {
        for (let i = this.head[row * this.columns + column]!; i >= 0; i = this.following[i]!) {
          if (i === a || i === b || i === c) continue;
          const [px, py] = [points[2 * i]!, points[2 * i + 1]!];
          if ((px === ax && py === ay) || (px === cx && py === cy)) continue;
          const u = (bx - ax) * (py - ay) - (by - ay) * (px - ax);
          const v = (cx - bx) * (py - by) - (cy - by) * (px - bx);
          const w = (ax - cx) * (py - cy) - (ay - cy) * (px - cx);
          if ((u >= 0 && v >= 0 && w >= 0) || (u <= 0 && v <= 0 && w <= 0)) return false;
        }
      }
    }
    return true;
  }

  private cellOf(corner: number): number {
    const { points, columns } = this;
    return (
      Math.floor(points[2 * corner + 1]! / CELL) * columns + Math.floor(points[2 * corner]! / CELL)
    );
  }
}
