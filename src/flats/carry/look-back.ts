import { pixelCenter } from '../../raster/pixel-center.ts';
import { TICK_ROWS, type Tick } from '../../raster/progress.ts';
import { rowInside } from './row-inside.ts';
import type { Sides } from './sides.ts';
import { inverse, movePoint, type Similarity } from './similarity.ts';

/**
 * For every pixel of a new picture the id that the old one has at the place from which a transform
 * brings it; 0 on ink, and for what comes from beyond the old picture. Worked out row by row, as a
 * raster of it is 4 bytes a pixel.
 */
export class LookBack implements Sides {
  readonly width: number;
  readonly height: number;
  private readonly ids: Int32Array;
  private readonly old: Sides;
  private readonly ink: Uint8Array;
  private readonly back: Similarity;

  /**
   * @param ids - Of the old picture, 0 on ink.
   * @param ink - Of the new one.
   */
  constructor(
    ids: Int32Array,
    old: Sides,
    ink: Uint8Array,
    { width, height }: Sides,
    transform: Similarity,
  ) {
    this.ids = ids;
    this.old = old;
    this.ink = ink;
    this.width = width;
    this.height = height;
    this.back = inverse(transform);
  }

  /** That of one pixel. */
  at(pixel: number): number {
    const { ids, old, ink, back, width } = this;
    const [u, v] = movePoint(back, pixelCenter(pixel, width));
    if (ink[pixel] !== 0 || u < 0 || v < 0 || u >= old.width || v >= old.height) return 0;
    return ids[Math.floor(v) * old.width + Math.floor(u)]!;
  }

  /** Row y of it, into an array of the picture's width or the same part of a raster. O(width). */
  readRow(y: number, into: Int32Array): void {
    const { ids, old, ink, back, width } = this;
    const { a, b, dx, dy } = back;
    const rowU = a * 0.5 - b * (y + 0.5) + dx;
    const rowV = b * 0.5 + a * (y + 0.5) + dy;
    const [from, to] = rowInside(back, y, width, old);
    const row = y * width;
    into.fill(0, 0, from);
    into.fill(0, to);
    for (let x = from; x < to; x++) {
      const place = Math.floor(rowV + b * x) * old.width + Math.floor(rowU + a * x);
      into[x] = ink[row + x] === 0 ? ids[place]! : 0;
    }
  }

  /** All of it. O(pixels). */
  raster(tick?: Tick): Int32Array {
    const { width, height } = this;
    const seen = new Int32Array(width * height);
    for (let y = 0; y < height; y++) {
      if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
      this.readRow(y, seen.subarray(y * width, (y + 1) * width));
    }
    return seen;
  }
}
