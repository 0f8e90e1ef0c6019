import { wrongKind, wrongValue } from './errors.ts';
import type { Dense, RasterData } from './types.ts';

/** A pixel's value: a number for every channel, or one number for each. */
export type PixelValue = number | readonly number[];

/** Whole numbers that typed arrays hold, by the name of their kind. */
const RANGES: Readonly<Record<string, readonly [number, number]>> = {
  Uint8Array: [0, 255],
  Uint8ClampedArray: [0, 255],
  Uint16Array: [0, 65_535],
  Uint32Array: [0, 4_294_967_295],
  Int8Array: [-128, 127],
  Int16Array: [-32_768, 32_767],
  Int32Array: [-2_147_483_648, 2_147_483_647],
};

/** A value that a raster's samples can hold, as one number for each channel. */
export function checkValue(value: unknown, name: string, { data, channels }: Dense): number[] {
  const own = channels === 1 ? 'a number' : `a number or ${channels} of them`;
  if (typeof value === 'number') {
    checkSample(value, name, data);
    return new Array<number>(channels).fill(value);
  }
  if (!Array.isArray(value)) throw wrongKind(name, own, value);
  if (value.length !== channels) throw wrongValue(name, own, value);
  return Array.from(value, (sample: unknown, c) => {
    if (typeof sample !== 'number') throw wrongKind(`${name}[${c}]`, 'a number', sample);
    checkSample(sample, `${name}[${c}]`, data);
    return sample;
  });
}

/** A list of values, or one number: an option that says which pixels may be changed. */
export function checkValues(value: unknown, name: string, dense: Dense): number[][] {
  if (typeof value === 'number') return [checkValue(value, name, dense)];
  if (!Array.isArray(value)) {
    throw wrongKind(name, 'a number or a list of values, each a number or one per channel', value);
  }
  return Array.from(value, (item: unknown, i) => checkValue(item, `${name}[${i}]`, dense));
}

/** A test of pixels, by number, for being one of some values. Near O(channels) a pixel. */
export function isOneOf(
  dense: Dense,
  values: readonly (readonly number[])[],
): (p: number) => boolean {
  const { data, channels } = dense;
  if (channels === 1) {
    const wanted = new Set(values.map(([sample]) => sample));
    return (p) => wanted.has(data[p]);
  }
  return (p) =>
    values.some((value) => value.every((sample, c) => data[p * channels + c] === sample));
}

function checkSample(sample: number, name: string, data: RasterData): void {
  const kind = data.constructor.name;
  const range = RANGES[kind];
  if (range === undefined) {
    const fits = data instanceof Float32Array ? Math.fround(sample) === sample : true;
    if (!Number.isFinite(sample) || !fits)
      throw wrongValue(name, `a finite number that ${kind} holds`, sample);
    return;
  }
  const [least, most] = range;
  if (!Number.isInteger(sample) || sample < least || sample > most) {
    throw wrongValue(name, `a whole number from ${least} to ${most}, as ${kind} holds`, sample);
  }
}
