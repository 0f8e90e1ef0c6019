import type { Bounds, Dense } from '../raster/types.ts';
import type { RowSink } from './row-sink.ts';

/** Writes a value into any raster, where the pixels may be changed, and counts those it changes. */
export class ValueWriter implements RowSink {
  changed = 0;
  private readonly target: Dense;
  private readonly value: readonly number[];
  private readonly mayChange: ((pixel: number) => boolean) | undefined;
  private x0: number;
  private x1 = 0;
  private y0 = -1;
  private y1 = 0;

  /** `value` holds a number for each channel; `mayChange` is asked with the number of a pixel. */
  constructor(
    target: Dense,
    value: readonly number[],
    mayChange: ((pixel: number) => boolean) | undefined,
  ) {
    this.target = target;
    this.value = value;
    this.mayChange = mayChange;
    this.x0 = target.width;
  }

  get bounds(): Bounds | null {
    return this.changed === 0 ? null : [this.x0, this.y0, this.x1, this.y1];
  }

  row(y: number, words: Int32Array, from: number, firstWord: number, count: number): void {
    for (let k = 0; k < count; k++) {
      let rest = words[from + k]!;
      while (rest !== 0) {
        const lowest = rest & -rest;
        rest ^= lowest;
        this.pixel(32 * (firstWord + k) + 31 - Math.clz32(lowest), y);
      }
    }
  }

  private pixel(x: number, y: number): void {
    const { target, value, mayChange } = this;
    const { data, width, channels } = target;
    const p = y * width + x;
    if (mayChange !== undefined && !mayChange(p)) return;
    let differs = false;
    for (let c = 0; c < channels; c++) {
      const i = p * channels + c;
      if (data[i] === value[c]) continue;
      data[i] = value[c]!;
      differs = true;
    }
    if (!differs) return;
    this.changed++;
    if (x < this.x0) this.x0 = x;
    if (x >= this.x1) this.x1 = x + 1;
    if (this.y0 < 0) this.y0 = y;
    this.y1 = y + 1;
  }
}
