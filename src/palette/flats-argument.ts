import { checkRaster, type RasterKind } from '../raster/check-raster.ts';
import { toDense } from '../raster/dense.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Dense, Owned } from '../raster/types.ts';
import { BARE, checkPalette, swatchIndex } from './swatches.ts';
import type { FlatsLike, Swatch } from './types.ts';

const BYTES: RasterKind<Uint8Array | Uint16Array> = {
  noun: 'a Uint8 raster of shape [width, height] for a palette of up to 256 swatches',
  heldAs: ['indices'],
  kinds: [Uint8Array],
  maxChannels: 1,
};
const WORDS: RasterKind<Uint8Array | Uint16Array> = {
  noun: 'a Uint16 raster of shape [width, height] for a palette of more than 256 swatches',
  heldAs: ['indices'],
  kinds: [Uint16Array],
  maxChannels: 1,
};

/** What flats have beside their indices. */
export interface FlatsHead {
  /** `bare` first; colors in lower case. */
  readonly palette: readonly Swatch[];
  readonly ground?: string;
}

/** Flats as kernels see them. */
export interface DenseFlats extends FlatsHead {
  readonly indices: Dense<Uint8Array | Uint16Array>;
}

/** A flats argument, checked whole: sample type, palette, ground and every index. O(pixels). */
export function flatsArgument(value: FlatsLike, name: string): DenseFlats {
  const flats = denseFlats(value, name);
  checkIndices(flats, name);
  return flats;
}

/** The same for calls that check the indices as they read them. */
export function denseFlats(value: FlatsLike, name: string): DenseFlats {
  const head = flatsHead(value, name);
  const indices = toDense(value.indices, `${name}.indices`, kindFor(head.palette));
  return { indices, ...head };
}

/** Every index must be in the palette; one that is not is a RangeError that names its pixel. */
export function checkIndices({ indices, palette }: DenseFlats, name: string): void {
  const { data, width } = indices;
  const count = palette.length;
  const i = firstPast(data, count);
  if (i < 0) return;
  const at = `${data[i]} at [${i % width}, ${Math.floor(i / width)}]`;
  throw new RangeError(
    `${name}.indices must be below the ${count} swatches of the palette, got ${at}`,
  );
}

/** Place of the first index that is `count` or more, or -1; equal words of bytes are read once. */
export function firstPast(data: Uint8Array | Uint16Array, count: number): number {
  if (count > 255 && data instanceof Uint8Array) return -1;
  let i = 0;
  if (data instanceof Uint8Array && data.byteOffset % 4 === 0) {
    const words = new Int32Array(data.buffer, data.byteOffset, data.length >> 2);
    let last = ~words[0]!;
    for (; i < words.length; i++) {
      const word = words[i]!;
      if (word === last) continue;
      last = word;
      const past =
        (word & 255) >= count ||
        ((word >> 8) & 255) >= count ||
        ((word >> 16) & 255) >= count ||
        word >>> 24 >= count;
      if (past) break;
    }
    i *= 4;
  }
  for (; i < data.length; i++) if (data[i]! >= count) return i;
  return -1;
}

/** A flats argument of which no index is read: for calls that touch the palette alone. O(swatches). */
export function flatsHead(value: FlatsLike, name: string): FlatsHead {
  if (typeof value !== 'object' || value === null || !('indices' in value)) {
    throw wrongKind(name, 'flats { indices, palette }', value, flatsHint(value));
  }
  const palette = checkPalette(value.palette, `${name}.palette`, 'first');
  checkRaster(value.indices, `${name}.indices`, kindFor(palette));
  const { ground } = value;
  if (ground === undefined) return { palette };
  if (ground === BARE) throw wrongValue(`${name}.ground`, 'a swatch other than "bare"', ground);
  swatchIndex(palette, ground, `${name}.ground`);
  return { palette, ground };
}

function kindFor({ length }: readonly Swatch[]): RasterKind<Uint8Array | Uint16Array> {
  return length > 256 ? WORDS : BYTES;
}

/** What to pass instead of a value that is often taken for flats. */
function flatsHint(value: unknown): string {
  const kind = Object.prototype.toString.call(value);
  if (/^.object (Uint8Array|(Shared)?ArrayBuffer|String).$/.test(kind)) {
    return '; a file is read with readFlats(bytes).flats';
  }
  if (typeof value !== 'object' || value === null) return '';
  if ('flats' in value) return '; pass its .flats';
  return 'data' in value ? '; indexFlats(pixels) makes flats of a picture in solid colors' : '';
}

/** Storage of the sample type that a palette of so many swatches asks for. */
export function indexStorage(
  size: number,
  swatches: number,
): Owned<Uint8Array> | Owned<Uint16Array> {
  return swatches > 256 ? new Uint16Array(size) : new Uint8Array(size);
}
