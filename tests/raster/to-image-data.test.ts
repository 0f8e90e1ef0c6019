import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { raster } from '../../src/raster/raster.ts';
import { toImageData } from '../../src/raster/to-image-data.ts';

/** What the HTML standard asks of the constructor: Uint8Clamped on an ArrayBuffer, 4 · w · h samples. */
class StandIn {
  readonly colorSpace = 'srgb';
  constructor(
    readonly data: Uint8ClampedArray,
    readonly width: number,
    readonly height: number,
  ) {
    if (!(data instanceof Uint8ClampedArray) || !(data.buffer instanceof ArrayBuffer)) {
      throw new TypeError('not a Uint8ClampedArray');
    }
    if (data.length !== 4 * width * height) throw new RangeError('wrong length');
  }
}

const own = globalThis as { ImageData?: unknown };

describe('toImageData', () => {
  beforeEach(() => {
    own.ImageData = StandIn;
  });
  afterEach(() => {
    delete own.ImageData;
  });

  it.each([Uint8Array, Uint8ClampedArray])('is on the memory of dense RGBA, %o', (Kind) => {
    const buffer = new ArrayBuffer(16);
    const data = new Kind(buffer, 4, 8).fill(7);
    const image = toImageData(raster(data, [1, 2, 4]));
    expect([image.width, image.height, image.data.length]).toEqual([1, 2, 8]);
    data[3] = 99;
    expect(image.data[3]).toBe(99);
    expect(image.data.buffer).toBe(buffer);
  });

  it('takes no more of a longer array than the picture', () => {
    const image = toImageData(raster(new Uint8Array(100), [1, 2, 4]));
    expect(image.data).toHaveLength(8);
  });

  it.each([
    ['gray', raster(new Uint8Array([7]), [1, 1]), [7, 7, 7, 255]],
    ['gray and alpha', raster(new Uint8Array([7, 9]), [1, 1, 2]), [7, 7, 7, 9]],
    ['RGB', raster(new Uint8Array([1, 2, 3]), [1, 1, 3]), [1, 2, 3, 255]],
    ['16 bit', raster(new Uint16Array([257, 514, 65_535, 128]), [1, 1, 4]), [1, 2, 255, 0]],
    [
      'a flipped view',
      raster(new Uint8Array([1, 2]), [2, 1]).step(-1, 1),
      [2, 2, 2, 255, 1, 1, 1, 255],
    ],
    [
      'shared memory',
      raster(new Uint8Array(new SharedArrayBuffer(4)).fill(5), [1, 1, 4]),
      [5, 5, 5, 5],
    ],
  ])('converts %s', (_, pixels, expected) => {
    expect([...toImageData(pixels).data]).toEqual(expected);
  });

  it('says where there is no ImageData what to do', () => {
    delete own.ImageData;
    expect(() => toImageData(raster(new Uint8Array(4), [1, 1, 4]))).toThrow(
      /^toImageData needs ImageData, which browsers and their workers have, and found none/,
    );
    expect(() => toImageData('x' as never)).toThrow(/pixels must be/);
  });
});
