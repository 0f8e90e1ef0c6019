import { TICK_ROWS } from '../raster/progress.ts';
import type { Bounds } from '../raster/types.ts';

/**
 * Which regions share a border, kept right while labels change: before and after a change within
 * bounds, the pixel edges there are counted out and in again. O(pixels) at first, O(pixels of the
 * bounds) for a change.
 */
export class RegionBorders {
  /** By region, the pixel edges to each neighbor. */
  private readonly edges: Map<number, Map<number, number>> = new Map();
  private readonly labels: Int32Array;
  private readonly width: number;
  private readonly height: number;
  private readonly pulse: () => void;

  constructor(labels: Int32Array, width: number, height: number, pulse: () => void) {
    this.labels = labels;
    this.width = width;
    this.height = height;
    this.pulse = pulse;
    this.count([0, 0, width, height], 1);
  }

  /** The regions that a region shares a border with. */
  of(region: number): Iterable<number> {
    return this.edges.get(region)?.keys() ?? [];
  }

  /** Counts the edges of the pixels within bounds in (1) or out (-1). */
  count([x0, y0, x1, y1]: Readonly<Bounds>, by: 1 | -1): void {
    const { labels, width, height } = this;
    const [fromX, fromY] = [Math.max(0, x0 - 1), Math.max(0, y0 - 1)];
    for (let y = fromY; y < y1; y++) {
      if ((y - fromY) % TICK_ROWS === 0) this.pulse();
      const below = y + 1 < height ? width : 0;
      for (let x = fromX, p = y * width + fromX; x < x1; x++, p++) {
        const a = labels[p]!;
        if (a === 0) continue;
        const right = x + 1 < width ? labels[p + 1]! : a;
        const under = labels[p + below]!;
        if (right !== a && right !== 0) this.add(a, right, by);
        if (under !== a && under !== 0) this.add(a, under, by);
      }
    }
  }

  private add(a: number, b: number, by: 1 | -1): void {
    this.addTo(a, b, by);
    this.addTo(b, a, by);
  }

  private addTo(a: number, b: number, by: 1 | -1): void {
    let near = this.edges.get(a);
    if (near === undefined) {
      near = new Map();
      this.edges.set(a, near);
    }
    const edges = (near.get(b) ?? 0) + by;
    if (edges === 0) near.delete(b);
    else near.set(b, edges);
  }
}
