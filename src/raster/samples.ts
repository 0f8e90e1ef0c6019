/** A sample as 8 bits; of 16 bits the nearest of v / 257, in integers. */
export function toEight(value: number, wide: boolean): number {
  return wide ? (value * 255 + 32895) >> 16 : value;
}

/** v / 255 rounded half up, for v up to 255². */
export function over255(v: number): number {
  return ((v + 127) / 255) | 0;
}
