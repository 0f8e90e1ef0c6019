import { readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import type { NdArray } from 'ndarray';
import { readPng } from '../../src/png/read-png.ts';
import { raster } from '../../src/raster/raster.ts';

export type SamplePicture = 'page' | 'text' | 'coins';

/** Gray tones of a real scan or photo, `[w, h]`; `reference/README.md` says where it comes from. */
export function samplePicture(name: SamplePicture): NdArray<Uint8Array> {
  const bytes = readFileSync(new URL(`reference/${name}.png`, import.meta.url));
  const { data, shape } = readPng(bytes).pixels;
  const [width, height, channels] = shape as [number, number, number];
  if (channels !== 1) throw new Error(`${name} has ${channels} channels`);
  return raster(data as Uint8Array, [width, height]);
}

/** Pixels of a mask with 8 of them a byte, the first the highest bit. */
export function unpackBits(text: string, count: number): Uint8Array {
  const bytes = inflateSync(Buffer.from(text, 'base64'));
  return Uint8Array.from({ length: count }, (_, i) => (bytes[i >> 3]! >> (7 - (i & 7))) & 1);
}
