import type { Tick } from '../raster/progress.ts';
import { PairIndex } from '../runs/pair-index.ts';
import { type FaceMap, faceAt } from './face-map.ts';

/**
 * The paper pixels of all bridges at once, each once, with what lies at their four sides.
 * O(bridge pixels · log runs); about 60 bytes per bridge pixel.
 */
export class BridgePixels {
  readonly count: number;
  /** Index in the picture by number. */
  readonly places: Int32Array;
  /**
   * Left, right, above and below of pixel i at 4·i to 4·i + 3: a face (> 0), pixel n of a bridge as
   * −1 − n, or 0 for ink and what lies outside the picture.
   */
  readonly sides: Int32Array;
  private readonly numbers: PairIndex = new PairIndex();

  /** The map is of these bridges, given by their pixels. */
  constructor(map: FaceMap, bridges: readonly Int32Array[], tick?: Tick) {
    const { numbers } = this;
    for (const [k, pixels] of bridges.entries()) {
      if (k % 256 === 0) tick?.(0);
      for (const p of pixels) numbers.add(p, 0, 1);
    }
    const { width, height } = map.parts;
    this.count = numbers.size;
    this.places = numbers.first.slice(0, numbers.size);
    this.sides = new Int32Array(4 * this.count);
    for (let i = 0; i < this.count; i++) {
      if (i % 4096 === 0) tick?.(i / this.count);
      const p = this.places[i]!;
      const x = p % width;
      const y = Math.floor(p / width);
      if (x > 0) this.sides[4 * i] = this.at(map, p - 1, x - 1, y);
      if (x + 1 < width) this.sides[4 * i + 1] = this.at(map, p + 1, x + 1, y);
      if (y > 0) this.sides[4 * i + 2] = this.at(map, p - width, x, y - 1);
      if (y + 1 < height) this.sides[4 * i + 3] = this.at(map, p + width, x, y + 1);
    }
  }

  /** Number of a pixel of a bridge; −1 for any other. */
  numberOf(place: number): number {
    return this.numbers.numberOf(place, 0);
  }

  private at(map: FaceMap, p: number, x: number, y: number): number {
    const number = this.numberOf(p);
    return number < 0 ? faceAt(map, x, y) : -1 - number;
  }
}
