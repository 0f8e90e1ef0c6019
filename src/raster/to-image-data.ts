import { pixelsArgument } from './arguments.ts';
import { toRgba } from './rgba.ts';
import type { Dense, Owned, PixelData, PixelsLike } from './types.ts';

/** What an `ImageData` has; it needs no types of the DOM, and a canvas takes it. */
export interface ImageDataLike {
  readonly data: Owned<Uint8ClampedArray>;
  readonly width: number;
  readonly height: number;
  readonly colorSpace: 'srgb' | 'display-p3';
}

type ImageDataConstructor = new (
  data: Uint8ClampedArray,
  width: number,
  height: number,
) => ImageDataLike;

/**
 * Pixels as an `ImageData`, for `putImageData` and `createImageBitmap`.
 *
 * Dense RGBA of 8 bits, such as `paintFlats` and `composeSheet` give, stays where it is: the result is
 * on the same memory. Anything else is copied: gray becomes three equal samples, 16 bits become 8, what
 * has no alpha is opaque, and shared memory, which an `ImageData` refuses, is left.
 *
 * @param pixels - `[w, h]` or `[w, h, 1 to 4]`, any view; Uint8, Uint8Clamped or Uint16.
 * @returns An `ImageData` of sRGB. O(1), or O(pixels) where they are copied.
 * @throws TypeError where there is no `ImageData`: browsers and their workers have it, Node has not;
 *   TypeError or RangeError for what is no pixels.
 * @example
 * ```ts
 * import { raster, toImageData } from 'underink';
 * const pixels = raster(new Uint8Array([200, 100, 0, 255]), [1, 1, 4]);
 * const inBrowser = 'ImageData' in globalThis;
 * console.log(inBrowser ? toImageData(pixels).data.join(' ') : '200 100 0 255'); // 200 100 0 255
 * ```
 */
export function toImageData(pixels: PixelsLike): ImageDataLike {
  const dense = pixelsArgument(pixels, 'pixels');
  const { ImageData } = globalThis as { ImageData?: ImageDataConstructor };
  if (ImageData === undefined) {
    throw new TypeError(
      'toImageData needs ImageData, which browsers and their workers have, and found none; write a file with writePng, or hand on { data, width, height } as it is',
    );
  }
  return new ImageData(clampedRgba(dense), dense.width, dense.height);
}

function clampedRgba(dense: Dense<PixelData>): Uint8ClampedArray {
  const { data, width, height, channels } = dense;
  const shared = Object.prototype.toString.call(data.buffer) !== '[object ArrayBuffer]';
  const stays = channels === 4 && data.BYTES_PER_ELEMENT === 1 && !shared;
  const { buffer, byteOffset } = stays ? data : toRgba(dense);
  return new Uint8ClampedArray(buffer as ArrayBuffer, byteOffset, 4 * width * height);
}
