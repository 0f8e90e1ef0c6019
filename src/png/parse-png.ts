import { CHUNK_FRAME, readChunks } from './chunks.ts';
import { GRAY, GRAY_ALPHA, type Header, INDEXED, RGB, readHeader } from './header.ts';
import { PngError } from './png-error.ts';

/** A PNG whose chunks are all checked, and nothing inflated yet. */
export interface PngFile {
  readonly header: Header;
  /** RGB triples. */
  readonly palette?: Uint8Array;
  /** tRNS: alpha by palette index, or the one transparent color as 16 bit samples. */
  readonly transparency?: Uint8Array;
  /** The compressed picture, in one piece. */
  readonly compressed: Uint8Array;
  /** The other chunks that are read, by type. */
  readonly ancillary: ReadonlyMap<string, Uint8Array>;
  /** tEXt, zTXt and iTXt in the order of the file. */
  readonly texts: readonly { readonly type: string; readonly data: Uint8Array }[];
}

/**
 * Chunks that may come once, with the chunk they must come before (PNG specification, 5.6).
 * Ancillary chunks that are not here are not read, so that nothing is asked of them.
 */
const ONCE_BEFORE: Readonly<Record<string, 'PLTE' | 'IDAT'>> = {
  cICP: 'PLTE',
  iCCP: 'PLTE',
  sRGB: 'PLTE',
  gAMA: 'PLTE',
  cHRM: 'PLTE',
  PLTE: 'IDAT',
  tRNS: 'IDAT',
  pHYs: 'IDAT',
};

/** Bytes that these hold; the length of the others is not fixed. */
const LENGTHS: Readonly<Record<string, number>> = { cICP: 4, sRGB: 1, gAMA: 4, cHRM: 32, pHYs: 9 };

/** Splits a PNG into what the reader needs and checks order, number and length of its chunks. */
export function parsePng(file: Uint8Array, maxPixels: number): PngFile {
  let header: Header | undefined;
  const once = new Map<string, Uint8Array>();
  const texts: { type: string; data: Uint8Array }[] = [];
  let dataStart = -1;
  let dataEnd = -1;
  for (const { type, data, start } of readChunks(file)) {
    if (header === undefined) {
      if (type !== 'IHDR') throw new PngError(`the first chunk must be IHDR, got ${type}`);
      header = readHeader(data, maxPixels);
    } else if (type === 'IDAT') {
      if (dataStart < 0) dataStart = start;
      else if (dataEnd !== start) throw new PngError('the IDAT chunks must follow one another');
      dataEnd = start + CHUNK_FRAME + data.length;
    } else if (type in ONCE_BEFORE) {
      if (once.has(type)) throw new PngError(`there must be one chunk ${type}, got two`);
      const late = dataStart >= 0 ? 'IDAT' : once.has('PLTE') ? 'PLTE' : undefined;
      if (late === 'IDAT' || late === ONCE_BEFORE[type]) {
        throw new PngError(`chunk ${type} must come before ${late}`);
      }
      checkLength(type, data);
      once.set(type, data);
      if (type === 'PLTE') checkPalette(header, data, once.has('tRNS'));
      if (type === 'tRNS') checkTransparency(header, data, once.get('PLTE'));
    } else if (type === 'tEXt' || type === 'zTXt' || type === 'iTXt') {
      texts.push({ type, data });
    } else if (type === 'IEND') {
      if (data.length > 0) throw new PngError(`IEND must be empty, got ${data.length} bytes`);
    } else if (/^[A-Z]/.test(type)) {
      throw new PngError(`the critical chunk ${type} is unknown, or comes twice`);
    }
  }
  if (header === undefined || dataStart < 0) throw new PngError('there is no chunk IDAT');
  const palette = once.get('PLTE');
  const transparency = once.get('tRNS');
  if (header.colorType === INDEXED && palette === undefined) {
    throw new PngError('a picture in indexed color must have a chunk PLTE, got none');
  }
  return {
    header,
    ...(palette && { palette }),
    ...(transparency && { transparency }),
    compressed: imageData(file, dataStart, dataEnd),
    ancillary: once,
    texts,
  };
}

function checkLength(type: string, data: Uint8Array): void {
  const length = LENGTHS[type] ?? data.length;
  if (data.length !== length) {
    throw new PngError(`chunk ${type} must hold ${length} bytes, got ${data.length}`);
  }
}

function checkPalette({ colorType, depth }: Header, data: Uint8Array, late: boolean): void {
  if (colorType === GRAY || colorType === GRAY_ALPHA) {
    throw new PngError('a gray picture must have no chunk PLTE, got one');
  }
  if (late) throw new PngError('chunk PLTE must come before tRNS');
  const most = colorType === INDEXED ? 2 ** depth : 256;
  if (data.length % 3 !== 0 || data.length === 0 || data.length > 3 * most) {
    throw new PngError(`PLTE must hold 1 to ${most} colors of 3 bytes, got ${data.length} bytes`);
  }
}

function checkTransparency({ colorType }: Header, data: Uint8Array, palette?: Uint8Array): void {
  const { length } = data;
  if (colorType === GRAY && length !== 2) {
    throw new PngError(`tRNS of a gray picture must hold 2 bytes, got ${length}`);
  }
  if (colorType === RGB && length !== 6) {
    throw new PngError(`tRNS of an RGB picture must hold 6 bytes, got ${length}`);
  }
  if (colorType === INDEXED) {
    if (palette === undefined) throw new PngError('chunk tRNS must come after PLTE');
    if (length < 1 || length > palette.length / 3) {
      throw new PngError(`tRNS must hold 1 to ${palette.length / 3} bytes, got ${length}`);
    }
  }
  if (colorType !== GRAY && colorType !== RGB && colorType !== INDEXED) {
    throw new PngError('a picture with alpha must have no chunk tRNS, got one');
  }
}

/** The data of the IDAT chunks from `start` to `end`; not copied where there is one. */
function imageData(file: Uint8Array, start: number, end: number): Uint8Array {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const first = view.getUint32(start);
  if (start + CHUNK_FRAME + first === end) return file.subarray(start + 8, start + 8 + first);
  const joined = new Uint8Array(end - start);
  let length = 0;
  for (let at = start; at < end; ) {
    const size = view.getUint32(at);
    joined.set(file.subarray(at + 8, at + 8 + size), length);
    length += size;
    at += CHUNK_FRAME + size;
  }
  return joined.subarray(0, length);
}
