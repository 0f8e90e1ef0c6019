import { zlibSync } from 'fflate';
import { checkOptions, checkRecord, checkString } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import { joinBytes, makeChunk } from './chunks.ts';
import type { IccProfile } from './types.ts';

/** A name as PNG allows it (specification, 11.3.3.2): printable ISO 8859-1, no outer or doubled spaces. */
const NAME = /^(?! )(?!.* {2})[\x20-\x7e\xa1-\xff]{1,79}(?<! )$/;
/** Bytes that every ICC profile has: a header, with `acsp` at byte 36 (ICC.1:2022, 7.2). */
const HEADER_BYTES = 128;

/** The chunk iCCP of a profile argument. */
export function profileChunk(icc: IccProfile): Uint8Array {
  checkRecord(icc, 'icc', 'a profile { name, bytes }');
  const { name, bytes } = checkOptions(icc, 'icc', ['name', 'bytes']);
  if (!NAME.test(checkString(name, 'icc.name'))) {
    throw wrongValue('icc.name', '1 to 79 printable letters of ISO 8859-1', name);
  }
  if (!(bytes instanceof Uint8Array)) throw wrongKind('icc.bytes', 'a Uint8Array', bytes);
  if (bytes.length < HEADER_BYTES || String.fromCharCode(...bytes.subarray(36, 40)) !== 'acsp') {
    throw wrongValue('icc.bytes', 'an ICC profile', bytes);
  }
  const key = Uint8Array.from(`${name}\0\0`, (letter) => letter.charCodeAt(0));
  // `mem` is what fflate takes from a logarithm otherwise, as in encode.ts.
  return makeChunk('iCCP', joinBytes([key, zlibSync(bytes, { level: 6, mem: 8 })]));
}
