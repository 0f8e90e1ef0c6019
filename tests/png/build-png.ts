import { deflateSync } from 'node:zlib';
import { joinBytes, makeChunk, readChunks, SIGNATURE } from '../../src/png/chunks.ts';

/** Header fields of a PNG to build; 8 bit gray and not interlaced where left out. */
export interface BuildHeader {
  readonly width: number;
  readonly height: number;
  readonly depth?: number;
  readonly colorType?: number;
  readonly interlace?: number;
}

export const CHANNELS: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };

export function ihdr({
  width,
  height,
  depth = 8,
  colorType = 0,
  interlace = 0,
}: BuildHeader): Uint8Array {
  const data = new Uint8Array(13);
  const view = new DataView(data.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  data.set([depth, colorType, 0, 0, interlace], 8);
  return makeChunk('IHDR', data);
}

export const idat = (raw: Uint8Array): Uint8Array => makeChunk('IDAT', deflateSync(raw));
export const iend: Uint8Array = makeChunk('IEND', new Uint8Array(0));
export const png = (...chunks: Uint8Array[]): Uint8Array =>
  joinBytes([Uint8Array.from(SIGNATURE), ...chunks]);
export const latin1 = (text: string): Uint8Array => Buffer.from(text, 'latin1');
export const uint32 = (...values: number[]): Uint8Array => {
  const data = new Uint8Array(4 * values.length);
  values.forEach((value, i) => {
    new DataView(data.buffer).setUint32(4 * i, value);
  });
  return data;
};

/** The file with whole chunks put in before its image data. */
export function insertBeforeData(file: Uint8Array, chunks: readonly Uint8Array[]): Uint8Array {
  const at = [...readChunks(file)].find(({ type }) => type === 'IDAT')!.start;
  return joinBytes([file.subarray(0, at), ...chunks, file.subarray(at)]);
}

/**
 * An encoder written from the PNG specification, sample by sample: filters (9.2) chosen by
 * `filterOf(row)`, Adam7 (8.1) by the pass that each pixel belongs to.
 */
export function encodeRaw(
  header: BuildHeader,
  samples: ArrayLike<number>,
  filterOf: (row: number) => number,
): Uint8Array {
  const { width, height, depth = 8, colorType = 0, interlace = 0 } = header;
  const channels = CHANNELS[colorType]!;
  const bpp = Math.max(1, (channels * depth) / 8);
  const raw: number[] = [];
  for (let pass = 1; pass <= (interlace ? 7 : 1); pass++) {
    let above: number[] = [];
    for (let y = 0; y < height; y++) {
      const bits: number[] = [];
      for (let x = 0; x < width; x++) {
        if (interlace && passAt(x, y) !== pass) continue;
        for (let c = 0; c < channels; c++) {
          const sample = samples[(y * width + x) * channels + c]!;
          for (let bit = depth - 1; bit >= 0; bit--) bits.push((sample >> bit) & 1);
        }
      }
      if (bits.length === 0) continue;
      const row: number[] = [];
      for (let at = 0; at < bits.length; at += 8) {
        row.push(
          Number.parseInt(
            bits
              .slice(at, at + 8)
              .join('')
              .padEnd(8, '0'),
            2,
          ),
        );
      }
      const filter = filterOf(raw.length);
      raw.push(filter);
      row.forEach((value, i) => {
        const a = row[i - bpp] ?? 0;
        const b = above[i] ?? 0;
        const c = i >= bpp ? (above[i - bpp] ?? 0) : 0;
        const predicted = [0, a, b, Math.floor((a + b) / 2), paeth(a, b, c)][filter]!;
        raw.push((value - predicted) & 255);
      });
      above = row;
    }
  }
  return Uint8Array.from(raw);
}

/** The pass of Adam7 that holds a pixel, from the picture in the specification. */
function passAt(x: number, y: number): number {
  const rows = [
    '16462646',
    '77777777',
    '56565656',
    '77777777',
    '36463646',
    '77777777',
    '56565656',
    '77777777',
  ];
  return Number(rows[y % 8]![x % 8]);
}

function paeth(a: number, b: number, c: number): number {
  const p = a + b - c;
  const [pa, pb, pc] = [Math.abs(p - a), Math.abs(p - b), Math.abs(p - c)];
  return pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
}
