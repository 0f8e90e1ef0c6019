import type { Found } from '../passages/list.ts';
import type { Bounds } from '../raster/types.ts';
import type { StrokeEnd } from '../strokes/stroke-ends.ts';

/** Side of a square that is looked at, in stroke widths. */
const SIDE = 32;
/**
 * Stroke ends and passages of a square of texture: chosen between line art, which has 138 at most on the
 * drawings of the bench, and halftone, noise and dashes of a stroke or two, which have 400 and more.
 */
const DENSE = 256;

/** Where ends and passages lie so densely that none of them can be told to be a gap. */
export class Texture {
  private readonly side: number;
  private readonly columns: number;
  private readonly rows: number;
  private readonly width: number;
  private readonly height: number;
  private readonly counts: Int32Array;

  /** Counts the ends, and the passages of at most `reach` pixels, in squares of the picture. */
  constructor(
    [width, height]: readonly [number, number],
    strokeWidth: number,
    ends: readonly StrokeEnd[],
    passages: readonly Found[],
    reach: number,
  ) {
    this.width = width;
    this.height = height;
    this.side = Math.ceil(SIDE * Math.max(1, strokeWidth));
    this.columns = Math.ceil(width / this.side);
    this.rows = Math.ceil(height / this.side);
    this.counts = new Int32Array(this.columns * this.rows);
    for (const { x, y } of ends) this.counts[this.squareOf(x, y)]!++;
    for (const passage of passages) {
      if (passage.width <= reach) this.counts[this.squareOfPassage(passage)]!++;
    }
  }

  hasEnd({ x, y }: StrokeEnd): boolean {
    return this.counts[this.squareOf(x, y)]! > DENSE;
  }

  hasPassage(passage: Found): boolean {
    return this.counts[this.squareOfPassage(passage)]! > DENSE;
  }

  /** The squares, those side by side in a row as one. */
  bounds(): Bounds[] {
    const { side, columns, rows, width, height, counts } = this;
    const found: [number, number, number, number][] = [];
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        if (counts[row * columns + column]! <= DENSE) continue;
        const right = Math.min(width, (column + 1) * side);
        const last = found.at(-1);
        if (last !== undefined && last[1] === row * side && last[2] === column * side) {
          last[2] = right;
        } else {
          found.push([column * side, row * side, right, Math.min(height, (row + 1) * side)]);
        }
      }
    }
    return found;
  }

  private squareOf(x: number, y: number): number {
    return Math.floor(y / this.side) * this.columns + Math.floor(x / this.side);
  }

  private squareOfPassage({ from, to }: Found): number {
    const { width } = this;
    const x = ((from % width) + (to % width)) / 2;
    const y = (Math.floor(from / width) + Math.floor(to / width)) / 2;
    return this.squareOf(x, y);
  }
}
