import { Buffer } from 'node:buffer';
import ndarray, { type NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import {
  checkSameSize,
  coverageArgument,
  labelsArgument,
  maskArgument,
  pixelsArgument,
  rasterArgument,
} from '../../src/raster/arguments.ts';
import { raster } from '../../src/raster/raster.ts';
import type { RasterData } from '../../src/raster/types.ts';
import { labels, mask, otherViews, symmetries } from '../support/grids.ts';
import { KINDS } from '../support/kinds.ts';

/** Samples of a view row by row, by its own `get`. */
function rows(view: NdArray<RasterData>): number[] {
  const [w, h, c] = view.shape as [number, number, number?];
  const samples: number[] = [];
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      if (c === undefined) samples.push(view.get(x, y)!);
      else for (let k = 0; k < c; k++) samples.push(view.get(x, y, k)!);
    }
  }
  return samples;
}

const count = (n: number) => Uint8Array.from({ length: n }, (_, i) => i + 1);

describe('a raster argument', () => {
  it('may be any view of two axes', () => {
    const r = raster(count(15), [5, 3]);
    for (const view of [...symmetries(r), ...otherViews(r)]) {
      const dense = pixelsArgument(view, 'pixels');
      expect([...dense.data]).toEqual(rows(view));
      expect([dense.width, dense.height, dense.channels]).toEqual([...view.shape, 1]);
    }
  });

  it.each([1, 2, 3, 4])('may be any view of three axes, %d channels', (channels) => {
    const r = raster(count(12 * channels), [4, 3, channels]);
    const planes = ndarray(count(12 * channels), [4, 3, channels], [1, 4, 12]);
    const views = [r, r.step(-1, 1, 1), r.step(1, -1, -1), r.transpose(1, 0, 2), planes];
    for (const view of [...views, r.lo(1, 1, 0).hi(2, 2, channels), r.step(2, 2, 1)]) {
      const dense = pixelsArgument(view, 'pixels');
      expect([...dense.data]).toEqual(rows(view));
      expect([dense.width, dense.height, dense.channels]).toEqual(view.shape);
    }
  });

  it('may be what structured clone leaves of a view', () => {
    const r = raster(count(15), [5, 3]).step(-1, 1);
    const left = structuredClone({ ...r });
    expect('get' in left).toBe(false);
    expect([...pixelsArgument(left, 'pixels').data]).toEqual(rows(r));
  });

  it('may be an ImageData, or samples with width and height', () => {
    class ImageDataLike {
      readonly data = new Uint8ClampedArray(count(24));
      readonly width = 3;
      readonly height = 2;
      readonly colorSpace = 'srgb';
    }
    const image = new ImageDataLike();
    const dense = pixelsArgument(image, 'pixels');
    expect(dense.data).toBe(image.data);
    expect([dense.width, dense.height, dense.channels]).toEqual([3, 2, 4]);
    const gray = pixelsArgument({ data: count(6), width: 3, height: 2, channels: 1 }, 'pixels');
    expect([gray.width, gray.height, gray.channels]).toEqual([3, 2, 1]);
  });

  it('may stand on shared memory or on a Buffer', () => {
    const shared = new Uint8Array(new SharedArrayBuffer(6));
    shared.set(count(6));
    expect(pixelsArgument(raster(shared, [3, 2]), 'pixels').data).toBe(shared);
    const flipped = raster(shared, [3, 2]).step(-1, 1);
    expect([...pixelsArgument(flipped, 'pixels').data]).toEqual([3, 2, 1, 6, 5, 4]);
    const buffer = Buffer.from(count(6));
    expect(pixelsArgument({ data: buffer, width: 3, height: 2 }, 'pixels').data).toBe(buffer);
  });

  it('may repeat samples with a stride of 0', () => {
    const view = { data: count(3), shape: [3, 2], stride: [1, 0], offset: 0 };
    expect([...pixelsArgument(view, 'pixels').data]).toEqual([1, 2, 3, 1, 2, 3]);
  });

  it('may have one channel as a third axis where one is asked for', () => {
    expect(maskArgument(raster(new Uint8Array(6), [3, 2, 1]), 'mask').channels).toBe(1);
    expect(labelsArgument(raster(new Int32Array(6), [3, 2, 1]), 'labels').width).toBe(3);
  });

  it('may have sides beyond 65,535', () => {
    for (const shape of [
      [70_001, 1],
      [1, 70_001],
    ]) {
      const r = raster(
        Uint16Array.from({ length: 70_001 }, (_, i) => i),
        shape,
      );
      expect(pixelsArgument(r, 'pixels').data).toBe(r.data);
      const flipped = pixelsArgument(r.step(-1, -1), 'pixels').data;
      expect(flipped.every((v, i) => v === ((70_000 - i) & 0xffff))).toBe(true);
    }
  });

  it.each(KINDS)('keeps its sample type when it is copied: %o', (kind) => {
    const view = raster<RasterData>(kind.from([1, 2, 3, 4]), [2, 2]).transpose(1, 0);
    const { data } = rasterArgument(view, 'raster');
    expect(data).toBeInstanceOf(kind);
    expect([...data]).toEqual([1, 3, 2, 4]);
  });
});

describe('dense storage', () => {
  it('is shared when it is row-major, whole or part of a larger one', () => {
    const data = count(20);
    expect(pixelsArgument(raster(data.subarray(0, 15), [5, 3]), 'pixels').data.buffer).toBe(
      data.buffer,
    );
    const part = ndarray(data, [5, 2], [1, 5], 5);
    const dense = pixelsArgument(part, 'pixels').data;
    expect(dense.buffer).toBe(data.buffer);
    expect([...dense]).toEqual([6, 7, 8, 9, 10, 11, 12, 13, 14, 15]);
  });

  it('is shared whatever the stride along a side of 1', () => {
    const data = count(5);
    for (const view of [
      { data, shape: [5, 1], stride: [1, 99], offset: 0 },
      { data, shape: [1, 5], stride: [99, 1], offset: 0 },
      { data, shape: [5, 1, 1], stride: [1, 7, 7], offset: 0 },
    ]) {
      expect(pixelsArgument(view, 'pixels').data).toBe(data);
    }
  });

  it('of Uint8Clamped samples is read as Uint8 over the same memory', () => {
    const whole = new Uint8ClampedArray([9, 9, 0, 1, 1, 0]);
    const data = whole.subarray(2);
    for (const read of [maskArgument, coverageArgument]) {
      const dense = read({ data, width: 2, height: 2 }, 'mask').data;
      expect(dense).toBeInstanceOf(Uint8Array);
      expect(dense.buffer).toBe(whole.buffer);
      expect([...dense]).toEqual([0, 1, 1, 0]);
    }
  });

  it('is a copy of any other view, so that writing to it leaves the argument alone', () => {
    const r = mask('1 . 1\n. 1 .');
    const before = [...r.data];
    for (const view of [...symmetries(r).slice(1), ...otherViews(r)]) {
      const dense = maskArgument(view, 'mask');
      expect(dense.data.buffer).not.toBe(view.data.buffer);
      dense.data.fill(7);
    }
    expect([...r.data]).toEqual(before);
  });
});

describe('a raster argument is refused, word for word,', () => {
  const MASK = 'ink must be a Uint8 mask of shape [width, height]';
  const TAKES = 'readPng(bytes).pixels reads a file, raster(data, [width, height]) takes samples';
  const data = new Uint8Array(6);
  const view = (fields: object) => ({ data, shape: [3, 2], stride: [1, 3], offset: 0, ...fields });

  it.each<[string, unknown, Error]>([
    ['undefined', undefined, new TypeError(`${MASK}, got undefined`)],
    ['null', null, new TypeError(`${MASK}, got null`)],
    ['a number', 7, new TypeError(`${MASK}, got 7`)],
    [
      'a path',
      'ink.png',
      new TypeError(`${MASK}, got "ink.png"; a file is read with readPng(bytes).pixels`),
    ],
    ['bytes', data, new TypeError(`${MASK}, got Uint8Array(6); ${TAKES}`)],
    ['a Buffer', Buffer.from(data), new TypeError(`${MASK}, got Buffer(6); ${TAKES}`)],
    ['a buffer', data.buffer, new TypeError(`${MASK}, got an ArrayBuffer; ${TAKES}`)],
    [
      'what labeled ink is part of',
      { ink: raster(data, [3, 2]), labels: labels('1 2') },
      new TypeError(`${MASK}, got an object { ink, labels }; pass its .ink`),
    ],
    ['an array', [0, 1], new TypeError(`${MASK}, got [0, 1]`)],
    [
      'a result',
      { sealed: 1, bridges: 2 },
      new TypeError(`${MASK}, got an object { sealed, bridges }`),
    ],
    ['plain numbers', view({ data: [0, 1] }), new TypeError(`${MASK}, got [0, 1]`)],
    ['no samples', view({ data: null }), new TypeError(`${MASK}, got null`)],
    ['labels', labels('1 2'), new TypeError(`${MASK}, got Int32Array(2)`)],
    [
      'a DataView',
      view({ data: new DataView(new ArrayBuffer(2)) }),
      new TypeError(`${MASK}, got DataView`),
    ],
    [
      'colors',
      view({ shape: [1, 2, 3], stride: [3, 3, 1] }),
      new RangeError(`${MASK}, got 3 channels`),
    ],
    ['one axis', view({ shape: [6], stride: [1] }), new RangeError(`${MASK}, got shape [6]`)],
    ['no stride', view({ stride: undefined }), new RangeError(`${MASK}, got shape [3, 2]`)],
    ['an axis without stride', view({ stride: [1] }), new RangeError(`${MASK}, got shape [3, 2]`)],
    [
      'a side of 0',
      view({ shape: [0, 2] }),
      new RangeError('ink.shape[0] must be a whole number >= 1, got 0'),
    ],
    [
      'half a side',
      view({ shape: [3, 1.5] }),
      new RangeError('ink.shape[1] must be a whole number >= 1, got 1.5'),
    ],
    [
      'a side of text',
      view({ shape: ['3', 2] }),
      new TypeError('ink.shape[0] must be a whole number >= 1, got "3"'),
    ],
    [
      'no offset',
      view({ offset: undefined }),
      new RangeError('ink.stride and offset must be whole numbers, got an array of 3'),
    ],
    [
      'half a stride',
      view({ stride: [0.5, 3] }),
      new RangeError('ink.stride and offset must be whole numbers, got [0.5, 3, 0]'),
    ],
    [
      'a view past its end',
      view({ offset: 1 }),
      new RangeError('ink must lie inside its data of 6 samples, got indices 1 to 6'),
    ],
    [
      'a view before its start',
      view({ stride: [-1, 3] }),
      new RangeError('ink must lie inside its data of 6 samples, got indices -2 to 3'),
    ],
    [
      'no width',
      { data, height: 2 },
      new TypeError('ink.width must be a whole number >= 1, got undefined'),
    ],
    [
      'a height of 0',
      { data, width: 3, height: 0 },
      new RangeError('ink.height must be a whole number >= 1, got 0'),
    ],
    [
      'too few samples',
      { data, width: 3, height: 3, channels: 1 },
      new RangeError('ink.data must be 9 samples (3 × 3 × 1), got Uint8Array(6)'),
    ],
    ['too many samples', { data, width: 3, height: 1 }, new RangeError(`${MASK}, got 2 channels`)],
    [
      'too many pixels',
      view({ shape: [65536, 65536], stride: [0, 0] }),
      new RangeError('ink must have at most 2147483647 pixels, got 65536 × 65536'),
    ],
  ])('%s', (_, value, error) => {
    expect(() => maskArgument(value as never, 'ink')).toThrow(error);
  });

  it('by the noun of its kind', () => {
    const wrong = raster(new Float32Array(10), [1, 2, 5]);
    expect(() => coverageArgument(wrong as never, 'coverage')).toThrow(
      new TypeError(
        'coverage must be a Uint8 coverage of shape [width, height], got Float32Array(10)',
      ),
    );
    expect(() => labelsArgument(wrong as never, 'labels')).toThrow(
      new TypeError(
        'labels must be an Int32 label raster of shape [width, height], got Float32Array(10)',
      ),
    );
    expect(() => pixelsArgument(wrong as never, 'pixels')).toThrow(
      new TypeError(
        'pixels must be Uint8, Uint8Clamped or Uint16 pixels of shape [width, height] or [width, height, 1 to 4], got Float32Array(10)',
      ),
    );
    expect(() => rasterArgument(wrong, 'target')).toThrow(
      new RangeError(
        'target must be a raster of numbers of shape [width, height] or [width, height, 1 to 4], got 5 channels',
      ),
    );
  });

  it('when labels are negative', () => {
    expect(() => labelsArgument(labels('1 2\n3 -4'), 'labels')).toThrow(
      new RangeError('labels must hold ids >= 0 (0 = no region), got -4 at [1, 1]'),
    );
  });

  it('when two that belong together differ in size', () => {
    const a = maskArgument(mask('. .\n. .'), 'ink');
    const b = maskArgument(mask('. . .\n. . .'), 'coverage');
    expect(() => checkSameSize(a, 'ink', b, 'coverage')).toThrow(
      new RangeError('coverage must have the size of ink, 2 × 2, got 3 × 2'),
    );
    expect(checkSameSize(a, 'ink', a, 'coverage')).toBeUndefined();
  });
});

describe('a picture argument', () => {
  it('tells what to pass of what readPng gives', () => {
    const read = { pixels: raster(new Uint8Array(2), [2, 1]), text: {}, depth: 8 };
    expect(() => pixelsArgument(read as never, 'pixels')).toThrow(
      /^pixels must be .*, got an object \{ pixels, text, depth \}; pass its \.pixels$/,
    );
  });

  it('may not hold more pixels than Int32 counts', () => {
    const sides = { data: new Uint8Array(1), width: 65_536, height: 32_768, channels: 1 };
    const error = new RangeError('pixels must have at most 2147483647 pixels, got 65536 × 32768');
    expect(() => pixelsArgument(sides, 'pixels')).toThrow(error);
  });
});
