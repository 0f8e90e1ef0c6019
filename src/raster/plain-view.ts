import type { RasterData, RasterView } from './types.ts';

/** What stands in for an ndarray where a page's policy refuses the code that ndarray generates. */
export class PlainView<D extends RasterData> implements RasterView<D> {
  readonly data: D;
  readonly shape: number[];
  readonly stride: number[];
  readonly offset: number;

  constructor(data: D, shape: number[], stride: number[], offset: number) {
    this.data = data;
    this.shape = shape;
    this.stride = stride;
    this.offset = offset;
  }

  get dimension(): number {
    return this.shape.length;
  }

  /** Number of samples that the shape holds. */
  get size(): number {
    return this.shape.reduce((product, side) => product * side, 1);
  }

  /** ndarray's name of the sample type: `uint8`, `uint8_clamped`, `int32`, … */
  get dtype(): string {
    const name = this.data.constructor.name.replace(/Array$/, '').toLowerCase();
    return name === 'uint8clamped' ? 'uint8_clamped' : name;
  }

  /** Place in `data` of a pixel's sample. */
  index(...at: number[]): number {
    return at.reduce((sum, i, axis) => sum + i * this.stride[axis]!, this.offset);
  }

  get(...at: number[]): number | undefined {
    return this.data[this.index(...at)];
  }

  set(...args: number[]): number {
    const value = args[this.shape.length]!;
    this.data[this.index(...args.slice(0, this.shape.length))] = value;
    return value;
  }
}
