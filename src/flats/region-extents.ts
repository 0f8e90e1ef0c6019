import { IntList } from '../raster/int-list.ts';
import { TICK_ROWS } from '../raster/progress.ts';
import type { Bounds } from '../raster/types.ts';

/** Pixels and bounds of regions by id, kept while regions change and new ones come. */
export class RegionExtents {
  /** Pixels by id. */
  readonly area: IntList = new IntList();
  private readonly width: number;
  private readonly height: number;
  private readonly left: IntList = new IntList();
  private readonly top: IntList = new IntList();
  private readonly right: IntList = new IntList();
  private readonly bottom: IntList = new IntList();

  /** `width` and `height` are the picture's. */
  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
  }

  /** A copy that changes alone. */
  static copyOf(other: RegionExtents): RegionExtents {
    const copy = new RegionExtents(other.width, other.height);
    for (const key of ['area', 'left', 'top', 'right', 'bottom'] as const) {
      copy[key].data = other[key].trimmed();
      copy[key].length = other[key].length;
    }
    return copy;
  }

  /** One past the highest id. */
  get length(): number {
    return this.area.length;
  }

  /** Half-open; pixels that were taken away do not make them smaller. */
  boundsOf(id: number): Bounds {
    const { left, top, right, bottom } = this;
    return [left.data[id]!, top.data[id]!, right.data[id]!, bottom.data[id]!];
  }

  /** A region of the next id, without a pixel. */
  add(): void {
    this.area.push(0);
    this.left.push(this.width);
    this.top.push(this.height);
    this.right.push(0);
    this.bottom.push(0);
  }

  /** Takes all pixels away. */
  clear(id: number): void {
    this.area.data[id] = 0;
    this.left.data[id] = this.width;
    this.top.data[id] = this.height;
    this.right.data[id] = 0;
    this.bottom.data[id] = 0;
  }

  /** Counts pixels of one row in, which is the one place where regions grow. */
  extend(id: number, start: number, end: number): void {
    const x = start % this.width;
    this.extendRow(id, (start - x) / this.width, x, x + end - start);
  }

  /** The same for columns of row `y`. */
  extendRow(id: number, y: number, x0: number, x1: number): void {
    const { area, left, top, right, bottom } = this;
    area.data[id]! += x1 - x0;
    if (x0 < left.data[id]!) left.data[id] = x0;
    if (y < top.data[id]!) top.data[id] = y;
    if (x1 > right.data[id]!) right.data[id] = x1;
    if (y >= bottom.data[id]!) bottom.data[id] = y + 1;
  }

  /** Gives all pixels of one region to another. */
  join(to: number, from: number): void {
    const { area, left, top, right, bottom } = this;
    area.data[to]! += area.data[from]!;
    left.data[to] = Math.min(left.data[to]!, left.data[from]!);
    top.data[to] = Math.min(top.data[to]!, top.data[from]!);
    right.data[to] = Math.max(right.data[to]!, right.data[from]!);
    bottom.data[to] = Math.max(bottom.data[to]!, bottom.data[from]!);
    this.clear(from);
  }

  /** Counts pixels within bounds in, of the regions that are wanted. */
  count(
    labels: Int32Array,
    [x0, y0, x1, y1]: Readonly<Bounds>,
    isWanted: (id: number) => boolean,
    pulse: () => void,
  ): void {
    for (let y = y0; y < y1; y++) {
      if ((y - y0) % TICK_ROWS === 0) pulse();
      const end = y * this.width + x1;
      for (let p = y * this.width + x0; p < end; ) {
        const id = labels[p]!;
        const start = p;
        while (++p < end && labels[p] === id);
        if (isWanted(id)) this.extend(id, start, p);
      }
    }
  }
}
