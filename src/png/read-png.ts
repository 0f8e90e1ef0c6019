import { checkOptions } from '../raster/checks.ts';
import type { Pixels } from '../raster/types.ts';
import { bytesArgument, maxPixelsOption } from './bytes-argument.ts';
import { decodeSamples } from './decode-samples.ts';
import { expandSamples } from './expand.ts';
import type { PngDepth } from './header.ts';
import { readIcc, readProfile, readResolution, readTexts } from './metadata.ts';
import { parsePng } from './parse-png.ts';
import type { IccProfile, PngBytes, Resolution } from './types.ts';

export interface ReadPngOptions {
  /**
   * Most pixels of a picture; a larger one is refused before anything is inflated. From 1 to
   * 2^31 − 1 pixels.
   * @default 2 ** 27
   */
  readonly maxPixels?: number | undefined;
}

/** What a PNG holds. */
export interface PngPicture {
  /** `[w, h, c]`: Uint16 for 16 bits, else Uint8. */
  readonly pixels: Pixels<Uint8Array | Uint16Array>;
  /** Pixels per unit; absent where the file does not say. */
  readonly resolution?: Resolution;
  /** Name of the color space where it is another than sRGB; `pixels` are not converted. */
  readonly profile?: string;
  /** The ICC profile in the file, sRGB or not; `writePng` takes it, so that a scan keeps its own. */
  readonly icc?: IccProfile;
  /** tEXt, zTXt and iTXt by keyword. */
  readonly text: Record<string, string>;
  /** Bits of a sample in the file: 1, 2, 4, 8 or 16. */
  readonly depth: PngDepth;
}

/**
 * Reads a PNG: all color types, 1 to 16 bits, interlaced or not.
 *
 * Indexed color becomes RGB, or RGBA where there is a tRNS. Gray below 8 bits is scaled to 8. The
 * one transparent color of a gray or RGB picture becomes an alpha channel. 16 bits stay 16.
 *
 * `profile` is what the file says of its color space where that is not sRGB: the name of its ICC
 * profile (one whose name holds `sRGB` counts as sRGB), `gamma 0.55556` or `chromaticities …` of
 * gAMA and cHRM, `cICP 9-16-0-1` of code points. Texts under one keyword are joined by line feeds.
 *
 * The whole file is checked before its picture is inflated, and no more is inflated than the size
 * implies. Wrong CRCs are errors in every chunk; what follows IEND is not looked at.
 *
 * @param bytes - The file: a Uint8Array (any view, a Node `Buffer` too), an ArrayBuffer or a
 *   SharedArrayBuffer.
 * @returns The picture; it shares no memory with `bytes`. O(bytes + samples). While it is
 *   read, at most the bytes of the file once more, 32 bytes a pixel (16 bit RGB with one color
 *   transparent; an RGB picture of 8 bits takes 14), and 24 MiB of compressed texts and profile: so `maxPixels`
 *   bounds the memory, whatever the file holds.
 * @throws PngError for anything wrong with the file, with the inner error as its `cause`. A TIFF,
 *   JPEG, WebP, GIF, PSD or AVIF is named as such: decode it otherwise, and pass what comes of it as
 *   `{ data, width, height }`.
 * @example
 * ```ts
 * import { raster, readPng, writePng } from 'underink';
 * const bytes = writePng(raster(new Uint8Array([0, 255]), [2, 1]));
 * const { pixels, depth } = readPng(bytes);
 * console.log(pixels.shape, pixels.data.join(' '), depth); // [ 2, 1, 1 ] 0 255 8
 * ```
 */
export function readPng(bytes: PngBytes, options?: ReadPngOptions): PngPicture {
  const { maxPixels } = checkOptions(options, 'readPng', ['maxPixels']);
  const file = parsePng(bytesArgument(bytes, 'bytes'), maxPixelsOption(maxPixels));
  const text = readTexts(file);
  const resolution = readResolution(file);
  const profile = readProfile(file);
  const icc = readIcc(file);
  const pixels = expandSamples(file, decodeSamples(file));
  return {
    pixels,
    ...(resolution && { resolution }),
    ...(profile !== undefined && { profile }),
    ...(icc && { icc }),
    text,
    depth: file.header.depth,
  };
}
