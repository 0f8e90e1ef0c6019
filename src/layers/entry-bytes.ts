import { Inflate } from 'fflate';
import { crc32 } from '../png/crc32.ts';
import { LayersError } from './layers-error.ts';
import type { ZipEntry } from './zip-entries.ts';

/** Compressed bytes handed on at a time; each inflates to at most 1032 times as many. */
const PIECE = 2 ** 15;
const MAX_RATIO = 1032;

/**
 * The bytes of a file in a ZIP, checked by size and CRC: a view of the ZIP where they are stored. A
 * file of more than `most` bytes is refused before anything is inflated, and one that inflates to more
 * than it says is left at once.
 */
export function entryBytes(entry: ZipEntry, most: number): Uint8Array {
  const { name, method, crc, size, packed } = entry;
  if (size > most) {
    throw new LayersError(`"${name}" must have at most ${most} bytes, got ${size}`);
  }
  const bytes = method === 0 ? packed : inflateEntry(entry);
  if (crc32(bytes) !== crc) throw new LayersError(`"${name}" is damaged: its CRC is wrong`);
  return bytes;
}

function inflateEntry({ name, size, packed }: ZipEntry): Uint8Array {
  const wrongSize = (got: string) =>
    new LayersError(`"${name}" must inflate to ${size} bytes, got ${got}`);
  if (size > packed.length * MAX_RATIO) throw wrongSize('fewer');
  const bytes = new Uint8Array(size);
  let length = 0;
  let ended = false;
  const stream = new Inflate((piece, final) => {
    if (length + piece.length > size) throw wrongSize('more');
    bytes.set(piece, length);
    length += piece.length;
    ended ||= final;
  });
  try {
    for (let at = 0; at < packed.length; at += PIECE) {
      stream.push(packed.subarray(at, at + PIECE), at + PIECE >= packed.length);
    }
  } catch (error) {
    if (error instanceof LayersError) throw error;
    throw new LayersError(`"${name}" cannot be inflated`, { cause: error });
  }
  if (!ended || length < size) throw wrongSize('fewer');
  return bytes;
}
