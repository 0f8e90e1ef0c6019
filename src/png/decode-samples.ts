import { decode } from 'fast-png';
import type { Owned } from '../raster/types.ts';
import { CHUNK_FRAME, SIGNATURE } from './chunks.ts';
import { type Header, type Pass, passBytes, passesOf } from './header.ts';
import { inflateExactly } from './inflate.ts';
import type { PngFile } from './parse-png.ts';
import { PngError } from './png-error.ts';

/** Samples as a file holds them, 16 bits where it has them. */
export type Samples = Owned<Uint8Array> | Owned<Uint16Array>;

/**
 * The samples as the file holds them, row-major, one in each element, not scaled.
 *
 * Rows of bytes without a filter, as `writeFlats` writes them, are taken as they are. Of other pictures
 * fast-png undoes the filters, the interlacing and the byte order. It is given not the file but a
 * clean one of our making, with the picture in stored blocks (deflate without compression),
 * because fast-png would inflate what comes without bound and would read chunks without checks.
 * So a picture is inflated once, into the bytes that IHDR implies.
 *
 * fast-png reads no Adam7 below 8 bits. Each pass of Adam7 is a picture of its own, so there it
 * gets the passes one by one, and only their pixels are put in place here.
 *
 * O(samples) time; at most four times the bytes of the picture at a time.
 */
export function decodeSamples(png: PngFile): Samples {
  const { header } = png;
  if (header.depth >= 8) {
    const { samples, file } = samplesOrFile(png);
    return samples ?? (decodeStored(file!) as Samples);
  }
  const { width, height, depth } = header;
  const inflated = inflatePicture(png);
  const samples = new Uint8Array(width * height);
  let at = 0;
  for (const pass of passesOf(header)) {
    const end = at + passBytes(pass);
    const own = { ...header, width: pass.width, height: pass.height, interlaced: false };
    const packed = decodeStored(storedPng(own, inflated.subarray(at, end))) as Uint8Array;
    unpack(packed, depth, pass, samples, width);
    at = end;
  }
  return samples;
}

/**
 * The samples where they stand in the file as they are, else a file for fast-png. A function by itself,
 * so that the inflated picture is free before fast-png makes its copies.
 */
function samplesOrFile(png: PngFile): { samples?: Owned<Uint8Array>; file?: Uint8Array } {
  const inflated = inflatePicture(png);
  const samples = unfilteredSamples(png.header, inflated);
  return samples === undefined ? { file: storedPng(png.header, inflated) } : { samples };
}

/** The samples of 8 bits of a picture without interlacing whose rows all have filter 0, none. */
function unfilteredSamples(header: Header, rows: Uint8Array): Owned<Uint8Array> | undefined {
  const { height, depth, interlaced } = header;
  if (depth !== 8 || interlaced) return undefined;
  const step = rows.length / height;
  for (let at = 0; at < rows.length; at += step) if (rows[at] !== 0) return undefined;
  const samples = new Uint8Array(rows.length - height);
  for (let y = 0; y < height; y++) {
    samples.set(rows.subarray(y * step + 1, (y + 1) * step), y * (step - 1));
  }
  return samples;
}

function inflatePicture({ header, compressed }: PngFile): Uint8Array {
  const length = passesOf(header).reduce((sum, pass) => sum + passBytes(pass), 0);
  return inflateExactly(compressed, length, 'the picture');
}

const MAX_STORED = 65_535;

/**
 * A PNG that holds `inflated` in stored blocks (RFC 1951, 3.2.4), an IDAT chunk each. It never
 * leaves this file, and fast-png looks at neither CRCs nor the check sum: they stay 0.
 */
function storedPng(header: Header, inflated: Uint8Array): Uint8Array {
  const blocks = Math.ceil(inflated.length / MAX_STORED);
  const zlibBytes = 2 + 5 * blocks + inflated.length + 4;
  const file = new Uint8Array(SIGNATURE.length + 13 + zlibBytes + CHUNK_FRAME * (blocks + 4));
  const view = new DataView(file.buffer);
  let next = SIGNATURE.length;
  /** Starts a chunk; gives the place of its data. */
  const chunk = (type: string, length: number): number => {
    const at = next + 8;
    view.setUint32(next, length);
    for (let i = 0; i < 4; i++) file[next + 4 + i] = type.charCodeAt(i);
    next += CHUNK_FRAME + length;
    return at;
  };
  file.set(SIGNATURE);
  const ihdr = chunk('IHDR', 13);
  view.setUint32(ihdr, header.width);
  view.setUint32(ihdr + 4, header.height);
  file.set([header.depth, header.colorType, 0, 0, header.interlaced ? 1 : 0], ihdr + 8);
  file.set([0x78, 0x01], chunk('IDAT', 2));
  for (let from = 0; from < inflated.length; from += MAX_STORED) {
    const block = inflated.subarray(from, from + MAX_STORED);
    const at = chunk('IDAT', 5 + block.length);
    file[at] = from + block.length === inflated.length ? 1 : 0;
    view.setUint16(at + 1, block.length, true);
    view.setUint16(at + 3, ~block.length, true);
    file.set(block, at + 5);
  }
  chunk('IDAT', 4);
  chunk('IEND', 0);
  return file;
}

function decodeStored(file: Uint8Array): Uint8Array | Uint8ClampedArray | Uint16Array {
  try {
    return decode(file).data;
  } catch (error) {
    throw new PngError('the rows of the picture cannot be decoded', { cause: error });
  }
}

/** Puts the samples of a pass, packed several to the byte, at their places in the picture. */
function unpack(
  packed: Uint8Array,
  depth: number,
  { x0, y0, dx, dy, width, height, rowBytes }: Pass,
  samples: Uint8Array,
  pictureWidth: number,
): void {
  const most = (1 << depth) - 1;
  for (let j = 0; j < height; j++) {
    const row = j * rowBytes;
    let to = (y0 + j * dy) * pictureWidth + x0;
    for (let i = 0; i < width; i++, to += dx) {
      const bit = i * depth;
      samples[to] = (packed[row + Math.floor(bit / 8)]! >> (8 - depth - (bit % 8))) & most;
    }
  }
}
