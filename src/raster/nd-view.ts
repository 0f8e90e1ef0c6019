import type { RasterData, RasterView } from './types.ts';

/**
 * A view of two or three axes, or of fewer after `pick`, with all that an ndarray has, in plain code:
 * ndarray itself generates code, which a strict Content-Security-Policy forbids and reports.
 */
export class NdView<D extends RasterData> implements RasterView<D> {
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

  /** The axes from the shortest stride to the longest. */
  get order(): number[] {
    const { stride } = this;
    const axes = stride.map((_, axis) => axis);
    return axes.sort((a, b) => Math.abs(stride[a]!) - Math.abs(stride[b]!));
  }

  /** Place in `data` of a sample. */
  index(x?: number, y?: number, c?: number): number {
    const { stride, offset } = this;
    const axes = stride.length;
    if (axes === 2) return offset + x! * stride[0]! + y! * stride[1]!;
    if (axes === 3) return offset + x! * stride[0]! + y! * stride[1]! + c! * stride[2]!;
    return axes === 1 ? offset + x! * stride[0]! : offset;
  }

  get(x?: number, y?: number, c?: number): number | undefined {
    return this.data[this.index(x, y, c)];
  }

  /** The value comes after as many numbers as there are axes. */
  set(x: number, y?: number, c?: number, d?: number): number {
    const axes = this.stride.length;
    const value = axes === 2 ? c! : axes === 3 ? d! : axes === 1 ? y! : x;
    this.data[this.index(x, y, c)] = value;
    return value;
  }

  /** Without what lies before `from`. */
  lo(...from: Array<number | null>): NdView<D> {
    const by = this.shape.map((_, axis) => from[axis] ?? 0);
    return this.view(
      this.shape.map((side, axis) => side - by[axis]!),
      this.stride,
      this.index(...by),
    );
  }

  /** As many samples along each axis; all of them for null. */
  hi(...size: Array<number | null>): NdView<D> {
    const shape = this.shape.map((side, axis) => size[axis] ?? side);
    return this.view(shape, this.stride, this.offset);
  }

  /** Every so many samples; backward, from the last one, for a negative number. */
  step(...by: Array<number | null>): NdView<D> {
    const steps = this.shape.map((_, axis) => by[axis] ?? 1);
    return this.view(
      this.shape.map((side, axis) => Math.ceil(side / Math.abs(steps[axis]!))),
      this.stride.map((step, axis) => step * steps[axis]!),
      this.index(...this.shape.map((side, axis) => (steps[axis]! < 0 ? side - 1 : 0))),
    );
  }

  /** The axes in another order; each that is not named stays in its place. */
  transpose(...axes: number[]): NdView<D> {
    const from = this.shape.map((_, axis) => axes[axis] ?? axis);
    return this.view(
      from.map((axis) => this.shape[axis]!),
      from.map((axis) => this.stride[axis]!),
      this.offset,
    );
  }

  /** What lies at the numbers given, without their axes; an axis stays for null. */
  pick(...at: Array<number | null>): NdView<D> {
    const kept = this.shape.map((_, axis) => axis).filter((axis) => (at[axis] ?? null) === null);
    return this.view(
      kept.map((axis) => this.shape[axis]!),
      kept.map((axis) => this.stride[axis]!),
      this.index(...this.shape.map((_, axis) => at[axis] ?? 0)),
    );
  }

  private view(shape: number[], stride: number[], offset: number): NdView<D> {
    return new NdView(this.data, shape, stride.slice(), offset);
  }
}
