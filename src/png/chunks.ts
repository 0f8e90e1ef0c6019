import type { Owned } from '../raster/types.ts';
import { crc32 } from './crc32.ts';
import { otherFormat } from './other-formats.ts';
import { PngError } from './png-error.ts';

/** One chunk of a PNG; `data` is a view of the file. */
export interface Chunk {
  readonly type: string;
  readonly data: Uint8Array;
  /** Where the chunk starts in the file: at its length field. */
  readonly start: number;
}

export const SIGNATURE: readonly number[] = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** Length, type and CRC around the data of a chunk. */
export const CHUNK_FRAME = 12;

const MAX_LENGTH = 2 ** 31 - 1;

/**
 * The chunks of a PNG in order, IEND the last. What follows IEND is not looked at.
 *
 * A wrong CRC is an error in ancillary chunks too, which the specification leaves to the decoder:
 * transparency and the table of swatches are ancillary, and without them the picture would come
 * back changed and nobody told. A generator, so that a file of many tiny chunks costs no list.
 */
export function* readChunks(file: Uint8Array): Generator<Chunk, void, void> {
  if (!SIGNATURE.every((byte, i) => file[i] === byte)) {
    throw notPng(file);
  }
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  let start = SIGNATURE.length;
  let type = '';
  while (type !== 'IEND') {
    if (start + CHUNK_FRAME > file.length) {
      throw new PngError(`the file is cut off: it ends at byte ${file.length}, before chunk IEND`);
    }
    const length = view.getUint32(start);
    type = chunkType(file, start + 4);
    if (length > MAX_LENGTH) {
      throw new PngError(`chunk ${type} at byte ${start} has the impossible length ${length}`);
    }
    const end = start + 8 + length;
    if (end + 4 > file.length) {
      throw new PngError(`the file is cut off: it ends at byte ${file.length}, in chunk ${type}`);
    }
    if (crc32(file.subarray(start + 4, end)) !== view.getUint32(end)) {
      throw new PngError(`chunk ${type} at byte ${start} is damaged: its CRC is wrong`);
    }
    yield { type, data: file.subarray(start + 8, end), start };
    start = end + 4;
  }
}

function notPng(file: Uint8Array): PngError {
  const format = otherFormat(file);
  return new PngError(
    format === undefined
      ? 'not a PNG: the file does not start with the PNG signature'
      : `not a PNG but a ${format}: decode it with a library that reads ${format}, and pass { data, width, height } where pixels are wanted (docs/any-picture.md says how)`,
  );
}

/** A whole chunk: length, type, data, CRC. */
export function makeChunk(type: string, data: Uint8Array): Uint8Array {
  const chunk = new Uint8Array(CHUNK_FRAME + data.length);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, data.length);
  for (let i = 0; i < 4; i++) chunk[4 + i] = type.charCodeAt(i);
  chunk.set(data, 8);
  view.setUint32(8 + data.length, crc32(chunk.subarray(4, 8 + data.length)));
  return chunk;
}

/**
 * The file with whole chunks put in: those of the color space behind IHDR, where PLTE may not come
 * before them, the others before its image data.
 */
export function insertChunks(
  file: Owned<Uint8Array>,
  ofColor: readonly Uint8Array[],
  others: readonly Uint8Array[],
): Owned<Uint8Array> {
  const starts: number[] = [];
  for (const { type, start } of readChunks(file)) {
    starts.push(start);
    if (type === 'IDAT') break;
  }
  const [header, data] = [starts[1]!, starts.at(-1)!];
  return joinBytes([
    file.subarray(0, header),
    ...ofColor,
    file.subarray(header, data),
    ...others,
    file.subarray(data),
  ]);
}

export function joinBytes(parts: readonly Uint8Array[]): Owned<Uint8Array> {
  const joined = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    joined.set(part, at);
    at += part.length;
  }
  return joined;
}

function chunkType(file: Uint8Array, at: number): string {
  const letters = file.subarray(at, at + 4);
  const type = String.fromCharCode(...letters);
  if (!/^[A-Za-z]{4}$/.test(type)) {
    throw new PngError(`no chunk at byte ${at - 4}: its type is [${letters.join(', ')}]`);
  }
  return type;
}
