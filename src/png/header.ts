import { PngError } from './png-error.ts';

/** Bits of a sample in a PNG. */
export type PngDepth = 1 | 2 | 4 | 8 | 16;

export const GRAY = 0;
export const RGB = 2;
export const INDEXED = 3;
export const GRAY_ALPHA = 4;
const RGB_ALPHA = 6;

/** What IHDR says. */
export interface Header {
  readonly width: number;
  readonly height: number;
  readonly depth: PngDepth;
  readonly colorType: number;
  /** Samples of a pixel as the file holds them; 1 for indexed color. */
  readonly channels: number;
  readonly interlaced: boolean;
}

/** Samples of a pixel and the depths allowed, by color type (PNG specification, table 12). */
const COLOR_TYPES: Readonly<Record<number, readonly [channels: number, depths: number[]]>> = {
  [GRAY]: [1, [1, 2, 4, 8, 16]],
  [RGB]: [3, [8, 16]],
  [INDEXED]: [1, [1, 2, 4, 8]],
  [GRAY_ALPHA]: [2, [8, 16]],
  [RGB_ALPHA]: [4, [8, 16]],
};

const MAX_SIDE = 2 ** 31 - 1;

/** Reads and checks IHDR: sides, number of pixels, color type with its depths, methods. */
export function readHeader(data: Uint8Array, maxPixels: number): Header {
  if (data.length !== 13) throw new PngError(`IHDR must hold 13 bytes, got ${data.length}`);
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const width = view.getUint32(0);
  const height = view.getUint32(4);
  const [depth, colorType, compression, filter, interlace] = data.subarray(8);
  if (width < 1 || height < 1 || width > MAX_SIDE || height > MAX_SIDE) {
    throw new PngError(`the sides must be from 1 to ${MAX_SIDE} pixels, got ${width} × ${height}`);
  }
  if (width * height > maxPixels) {
    throw new PngError(
      `the picture must have at most ${maxPixels} pixels (maxPixels), got ${width} × ${height}`,
    );
  }
  const [channels, depths] = COLOR_TYPES[colorType!] ?? [0, []];
  if (channels === 0) throw new PngError(`there is no color type ${colorType}`);
  if (!depths.includes(depth!)) {
    throw new PngError(`color type ${colorType} must have ${depths} bits, got ${depth}`);
  }
  if (compression !== 0) throw new PngError(`there is no compression method ${compression}`);
  if (filter !== 0) throw new PngError(`there is no filter method ${filter}`);
  if (interlace! > 1) throw new PngError(`there is no interlace method ${interlace}`);
  return {
    width,
    height,
    depth: depth as PngDepth,
    colorType: colorType!,
    channels,
    interlaced: interlace === 1,
  };
}

/** The pixels at (x0 + i·dx, y0 + j·dy) of a picture, as a picture of their own. */
export interface Pass {
  readonly x0: number;
  readonly y0: number;
  readonly dx: number;
  readonly dy: number;
  readonly width: number;
  readonly height: number;
  /** Bytes of a row without its filter byte. */
  readonly rowBytes: number;
}

/**
 * ```text
 * 1 6 4 6 2 6 4 6      the pass that holds each pixel
 * 7 7 7 7 7 7 7 7      of an 8 × 8 block
 * 5 6 5 6 5 6 5 6      (Adam7; PNG specification, 8.1)
 * 7 7 7 7 7 7 7 7
 * 3 6 4 6 3 6 4 6
 * 7 7 7 7 7 7 7 7
 * 5 6 5 6 5 6 5 6
 * 7 7 7 7 7 7 7 7
 * ```
 */
const ADAM7: readonly (readonly [x0: number, y0: number, dx: number, dy: number])[] = [
  [0, 0, 8, 8],
  [4, 0, 8, 8],
  [0, 4, 4, 8],
  [2, 0, 4, 4],
  [0, 2, 2, 4],
  [1, 0, 2, 2],
  [0, 1, 1, 2],
];
const WHOLE: typeof ADAM7 = [[0, 0, 1, 1]];

/** The passes in which the file holds the picture: one, or those of Adam7 that have pixels. */
export function passesOf({ width, height, depth, channels, interlaced }: Header): Pass[] {
  return (interlaced ? ADAM7 : WHOLE)
    .map(([x0, y0, dx, dy]) => {
      const w = Math.ceil((width - x0) / dx);
      const h = Math.ceil((height - y0) / dy);
      const rowBytes = Math.ceil((w * channels * depth) / 8);
      return { x0, y0, dx, dy, width: w, height: h, rowBytes };
    })
    .filter((pass) => pass.width > 0 && pass.height > 0);
}

/** Bytes of a pass before compression: a filter byte before each row. */
export function passBytes({ height, rowBytes }: Pass): number {
  return height * (1 + rowBytes);
}
