import type { Dense, PixelData } from './types.ts';

/** A sample as 8 bits; of 16 bits the nearest of v / 257, in integers. */
export function toEight(value: number, wide: boolean): number {
  return wide ? (value * 255 + 32895) >> 16 : value;
}

/** v / 255 rounded half up, for v up to 255². */
export function over255(v: number): number {
  return ((v + 127) / 255) | 0;
}

/** Where the samples of a pixel lie from its first, which is red, or gray: then green and blue too. */
export interface SampleOffsets {
  readonly green: number;
  readonly blue: number;
  /** -1 where pixels have no alpha. */
  readonly alpha: number;
  /** Whether samples have 16 bits, see `toEight`. */
  readonly wide: boolean;
  /** The largest sample. */
  readonly full: number;
}

/** The offsets of pixels of 1 to 4 channels; 2 and 4 end with alpha. */
export function sampleOffsets({ data, channels }: Dense<PixelData>): SampleOffsets {
  const color = channels >= 3;
  const wide = data.BYTES_PER_ELEMENT === 2;
  return {
    green: color ? 1 : 0,
    blue: color ? 2 : 0,
    alpha: channels % 2 === 0 ? channels - 1 : -1,
    wide,
    full: wide ? 65_535 : 255,
  };
}
