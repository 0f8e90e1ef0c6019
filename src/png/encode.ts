import { encode } from 'fast-png';
import { checkNumber, checkOneOf, checkOptions } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import type { Owned, PixelData } from '../raster/types.ts';
import { insertChunks, makeChunk } from './chunks.ts';
import type { Resolution } from './types.ts';

/** What fast-png is given: samples, row-major, as many as the sides ask for. */
export interface Encodable {
  readonly width: number;
  readonly height: number;
  readonly channels: number;
  readonly data: PixelData;
  /** RGB by index. fast-png drops and misplaces alpha here, so tRNS is a chunk of our own. */
  readonly palette?: number[][];
}

/**
 * How hard fflate looks for repeats. On flats, levels below 4 save next to no time, and 6 takes three
 * times as long for 20 % fewer bytes. On a page with grain, level 4 takes twice as long as level 2
 * for 3 % fewer.
 */
const LEVELS = { flats: 4, pixels: 2 } as const;

/** Samples are sRGB, to be shown relative to the white of the screen (rendering intent 1). */
const SRGB = makeChunk('sRGB', Uint8Array.of(1));

/**
 * A PNG by fast-png, with chunks of our own: one that says what colors the samples are, sRGB unless
 * another is given, and others before the image data.
 *
 * `mem` is fflate's default for large data made explicit, because it takes that from a logarithm of
 * the size, which engines round differently.
 */
export function encodePng(
  { width, height, channels, data, palette }: Encodable,
  content: keyof typeof LEVELS,
  chunks: readonly Uint8Array[],
  ofColor: Uint8Array = SRGB,
): Owned<Uint8Array> {
  const depth = data instanceof Uint16Array ? 16 : 8;
  const samples = data instanceof Uint8ClampedArray ? plainBytes(data) : data;
  const image = { width, height, channels, depth, data: samples } as const;
  const file = encode(
    { ...image, ...(palette && { palette }) },
    { zlib: { level: LEVELS[content], mem: 8 } },
  );
  // fast-png makes its files on an ArrayBuffer, which its types do not say.
  return insertChunks(file as Owned<Uint8Array>, [ofColor], chunks);
}

/** One type of array for 8 bits: fast-png reads sample by sample, slower where it meets several. */
function plainBytes({ buffer, byteOffset, length }: Uint8ClampedArray): Uint8Array {
  return new Uint8Array(buffer, byteOffset, length);
}

/** The chunk pHYs of a resolution argument, or no chunk. */
export function resolutionChunks(resolution: Resolution | undefined): Uint8Array[] {
  if (resolution === undefined) return [];
  const { x, y, unit } = checkResolution(resolution);
  const data = new Uint8Array(9);
  const view = new DataView(data.buffer);
  view.setUint32(0, x);
  view.setUint32(4, y);
  data[8] = unit === 'meter' ? 1 : 0;
  return [makeChunk('pHYs', data)];
}

/** A resolution argument. */
export function checkResolution(resolution: Resolution): Resolution {
  if (typeof resolution !== 'object' || resolution === null) {
    throw wrongKind(
      'resolution',
      "{ x, y, unit: 'meter' | 'unknown' } of whole pixels",
      resolution,
    );
  }
  checkOptions(resolution, 'resolution', ['x', 'y', 'unit']);
  const rule = { min: 1, max: 2 ** 31 - 1, integer: true, unit: 'pixels per unit' };
  return {
    x: checkNumber(resolution.x, 'resolution.x', rule),
    y: checkNumber(resolution.y, 'resolution.y', rule),
    unit: checkOneOf(resolution.unit, 'resolution.unit', ['meter', 'unknown']),
  };
}
