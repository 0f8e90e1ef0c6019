import type { Bounds, RasterData } from '../raster/types.ts';
import type { SpanSink } from './span-sink.ts';

/**
 * Writes a value into a raster of one number or more per pixel, where pixels may be changed, and
 * counts those that it changes.
 */
export class PixelSpans implements SpanSink {
  changed = 0;
  private readonly data: RasterData;
  private readonly width: number;
  private readonly value: readonly number[];
  private readonly mayChange: ((pixel: number) => boolean) | undefined;
  private x0: number;
  private x1 = 0;
  private y0 = Number.POSITIVE_INFINITY;
  private y1 = 0;

  /** `value` holds a number for each channel; `mayChange` is asked with the number of a pixel. */
  constructor(
    data: RasterData,
    width: number,
    value: readonly number[],
    mayChange: ((pixel: number) => boolean) | undefined,
  ) {
    this.data = data;
    this.width = width;
    this.value = value;
    this.mayChange = mayChange;
    this.x0 = width;
  }

  get bounds(): Bounds | null {
    return this.changed === 0 ? null : [this.x0, this.y0, this.x1, this.y1];
  }

  row(y: number, spans: Int32Array, count: number): void {
    const start = y * this.width;
    const before = this.changed;
    for (let i = 0; i < count; i += 2) {
      const from = start + spans[i]!;
      const to = start + spans[i + 1]!;
      if (this.value.length === 1) this.single(start, from, to);
      else this.several(start, from, to);
    }
    if (this.changed === before) return;
    if (y < this.y0) this.y0 = y;
    if (y >= this.y1) this.y1 = y + 1;
  }

  private single(start: number, from: number, to: number): void {
    const { data, mayChange } = this;
    const value = this.value[0]!;
    let first = -1;
    let last = 0;
    let changed = 0;
    for (let p = from; p < to; p++) {
      if (data[p] === value || (mayChange !== undefined && !mayChange(p))) continue;
      data[p] = value;
      if (first < 0) first = p;
      last = p;
      changed++;
    }
    if (changed > 0) this.note(changed, first - start, last - start);
  }

  private several(start: number, from: number, to: number): void {
    const { data, value, mayChange } = this;
    const channels = value.length;
    let first = -1;
    let last = 0;
    let changed = 0;
    for (let p = from; p < to; p++) {
      if (mayChange !== undefined && !mayChange(p)) continue;
      const at = p * channels;
      let differs = false;
      for (let c = 0; c < channels; c++) {
        if (data[at + c] === value[c]) continue;
        data[at + c] = value[c]!;
        differs = true;
      }
      if (!differs) continue;
      if (first < 0) first = p;
      last = p;
      changed++;
    }
    if (changed > 0) this.note(changed, first - start, last - start);
  }

  private note(changed: number, first: number, last: number): void {
    this.changed += changed;
    if (first < this.x0) this.x0 = first;
    if (last >= this.x1) this.x1 = last + 1;
  }
}
