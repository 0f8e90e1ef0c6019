import ndarray, { type NdArray } from 'ndarray';
import type { RasterData, RasterView } from './types.ts';

type Sample<D extends RasterData> = D[number];

/**
 * An ndarray of two or three axes that asks ndarray to generate code only for a view of it (`lo`, `hi`,
 * `step`, `transpose`, `pick`) or its `order`: all else works under a Content-Security-Policy
 * that refuses generated code, and nothing is tried that the policy would report.
 */
export class LazyNdarray<D extends RasterData> implements RasterView<D> {
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
    const { shape } = this;
    return shape[0]! * shape[1]! * (shape[2] ?? 1);
  }

  /** ndarray's name of the sample type: `uint8`, `uint8_clamped`, `int32`, … */
  get dtype(): string {
    const name = this.data.constructor.name.replace(/Array$/, '').toLowerCase();
    return name === 'uint8clamped' ? 'uint8_clamped' : name;
  }

  /** Place in `data` of a pixel's sample. */
  index(x: number, y: number, channel = 0): number {
    const { stride } = this;
    const pixel = this.offset + x * stride[0]! + y * stride[1]!;
    return stride.length === 2 ? pixel : pixel + channel * stride[2]!;
  }

  get(x: number, y: number, channel?: number): Sample<D> | undefined {
    return this.data[this.index(x, y, channel)];
  }

  /** `set(x, y, value)`, or `set(x, y, channel, value)` of three axes. */
  set(x: number, y: number, a: number, b?: number): number {
    const value = this.shape.length === 2 ? a : b!;
    this.data[this.index(x, y, a)] = value;
    return value;
  }

  get order(): number[] {
    return this.generated().order;
  }

  lo(...from: number[]): NdArray<D> {
    return this.generated().lo(...from);
  }

  hi(...size: number[]): NdArray<D> {
    return this.generated().hi(...size);
  }

  step(...by: number[]): NdArray<D> {
    return this.generated().step(...by);
  }

  transpose(...axes: number[]): NdArray<D> {
    return this.generated().transpose(...axes);
  }

  pick(...at: Array<number | null>): NdArray<D> {
    return this.generated().pick(...at);
  }

  private generated(): NdArray<D> {
    return ndarray(this.data, this.shape, this.stride, this.offset);
  }
}
