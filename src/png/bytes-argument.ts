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
  const tag = Object.prototype.toString.call(value);
  if (tag === '[object ArrayBuffer]') return new Uint8Array(value as ArrayBuffer);
  if (tag === '[object SharedArrayBuffer]') return new Uint8Array(value as ArrayBuffer).slice();
  if (!ArrayBuffer.isView(value) || tag !== '[object Uint8Array]') {
    const hint = typeof value === 'string' ? '; read the file first: readFileSync(path)' : '';
    throw wrongKind(name, 'a Uint8Array, ArrayBuffer or SharedArrayBuffer', value, hint);
  }
  const { buffer, byteOffset, byteLength } = value;
  const bytes = new Uint8Array(buffer, byteOffset, byteLength);
  return Object.prototype.toString.call(buffer) === '[object SharedArrayBuffer]'
    ? bytes.slice()
    : bytes;
}

export function maxPixelsOption(value: number = DEFAULT_MAX_PIXELS): number {
  return checkNumber(value, 'maxPixels', { min: 1, max: 2 ** 31 - 1, integer: true });
}
