import { checkNumber } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import type { PngBytes } from './types.ts';

/** Most pixels that are read where nothing else is asked for: 134 megapixels. */
const DEFAULT_MAX_PIXELS = 2 ** 27;

/**
 * The bytes of a file, seen as one Uint8Array. Shared memory is copied, so that nothing can change
 * between the checks and the reading. By tag, not `instanceof`: bytes come from other realms too.
 */
export function bytesArgument(value: PngBytes, name: string): Uint8Array {
  const tag = tagOf(value);
  const isWhole = tag === '[object ArrayBuffer]' || tag === SHARED;
  if (!isWhole && tag !== '[object Uint8Array]') {
    const hint = typeof value === 'string' ? '; read the file first: readFileSync(path)' : '';
    throw wrongKind(name, 'a Uint8Array, ArrayBuffer or SharedArrayBuffer', value, hint);
  }
  // Of memory that was given away no view can be made: it reads as an empty file.
  if (value.byteLength === 0) return new Uint8Array(0);
  const { buffer, byteOffset, byteLength } = isWhole
    ? new Uint8Array(value as ArrayBuffer)
    : (value as Uint8Array);
  const bytes = new Uint8Array(buffer, byteOffset, byteLength);
  return tagOf(buffer) === SHARED ? bytes.slice() : bytes;
}

const SHARED = '[object SharedArrayBuffer]';

function tagOf(value: unknown): string {
  return Object.prototype.toString.call(value);
}

export function maxPixelsOption(value: number = DEFAULT_MAX_PIXELS): number {
  return checkNumber(value, 'maxPixels', { min: 1, max: 2 ** 31 - 1, integer: true });
}
