import type { Found, PassageList } from '../passages/list.ts';
import type { Tick } from '../raster/progress.ts';
import type { Bounds } from '../raster/types.ts';
import type { StrokeEnd } from '../strokes/stroke-ends.ts';

/** Side of a square that is looked at, in stroke widths. */
const SIDE = 32;
/**
 * Stroke ends and passages of a square of texture: chosen between line art, which has 144 at most on the
 * drawings of the bench, and halftone, noise and dashes of a stroke or two, which have 400 and more.
 */
const DENSE = 256;
/** Squares across a field that is looked at as a whole. */
const FIELD = 5;
/**
 * The same for a square of a field that has as many on an average: chosen between line art, whose fields
 * have 58 a square at most on the bench, and fields of hatching and noise, which have 150 and more.
 */
const DENSE_FIELD = 80;
/** Passages between two ticks. */
const TICK_PASSAGES = 4096;

/** Where ends and passages lie so densely that none of them can be told to be a gap. */
export class Texture {
  private readonly side: number;
  private readonly columns: number;
  private readonly rows: number;
  private readonly width: number;
  private readonly height: number;
  /** By square, row by row. */
  private readonly dense: Uint8Array;

  /** Counts the ends, and the passages of at most `reach` pixels, in squares of the picture. */
  constructor(
    [width, height]: readonly [number, number],
    strokeWidth: number,
    ends: readonly StrokeEnd[],
    passages: PassageList,
    reach: number,
    tick?: Tick,
  ) {
    this.width = width;
    this.height = height;
    this.side = Math.ceil(SIDE * Math.max(1, strokeWidth));
    this.columns = Math.ceil(width / this.side);
    this.rows = Math.ceil(height / this.side);
    const counts = new Int32Array(this.columns * this.rows);
    for (const { x, y } of ends) counts[this.squareOf(x, y)]!++;
    for (let i = 0; i < passages.length; i++) {
      if (tick !== undefined && i % TICK_PASSAGES === 0) tick(i / passages.length);
      const passage = passages.get(i);
      if (passage.width <= reach) counts[this.squareOfPassage(passage)]!++;
    }
    this.dense = this.denseSquares(counts);
  }

  hasEnd({ x, y }: StrokeEnd): boolean {
    return this.dense[this.squareOf(x, y)] === 1;
  }

  hasPassage(passage: Found): boolean {
    return this.dense[this.squareOfPassage(passage)] === 1;
  }

  /** The squares, those side by side in a row as one. */
  bounds(): Bounds[] {
    const { side, columns, rows, width, height, dense } = this;
    const found: [number, number, number, number][] = [];
    for (let row = 0; row < rows; row++) {
      for (let column = 0; column < columns; column++) {
        if (dense[row * columns + column] === 0) continue;
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

  /** Squares that are dense alone, or dense enough in a dense field around them. */
  private denseSquares(counts: Int32Array): Uint8Array {
    const { columns, rows } = this;
    // A field at the picture's edge lies inside it, as far as it can.
    const first = (at: number, count: number) =>
      Math.max(0, Math.min(at - (FIELD >> 1), count - FIELD));
    return Uint8Array.from(counts, (count, square) => {
      if (count > DENSE) return 1;
      if (count <= DENSE_FIELD) return 0;
      const left = first(square % columns, columns);
      const top = first(Math.floor(square / columns), rows);
      let sum = 0;
      for (let row = top; row < Math.min(rows, top + FIELD); row++) {
        for (let column = left; column < Math.min(columns, left + FIELD); column++) {
          sum += counts[row * columns + column]!;
        }
      }
      return sum > DENSE_FIELD * FIELD * FIELD ? 1 : 0;
    });
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
