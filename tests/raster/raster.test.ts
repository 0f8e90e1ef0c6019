import ndarray, { type NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { PlainView } from '../../src/raster/plain-view.ts';
import { raster, viewOf } from '../../src/raster/raster.ts';
import type { RasterData } from '../../src/raster/types.ts';
import { KINDS } from '../support/kinds.ts';

describe('raster', () => {
  it('reads [x, y] row by row', () => {
    const r = raster(new Uint8Array([1, 2, 3, 4, 5, 6]), [3, 2]);
    expect(r.shape).toEqual([3, 2]);
    expect(r.stride).toEqual([1, 3]);
    expect(r.offset).toBe(0);
    expect([r.get(0, 0), r.get(2, 0), r.get(0, 1), r.get(2, 1)]).toEqual([1, 3, 4, 6]);
  });

  it('reads [x, y, channel] pixel by pixel', () => {
    const r = raster(
      Uint16Array.from({ length: 24 }, (_, i) => i),
      [4, 2, 3],
    );
    expect(r.stride).toEqual([3, 12, 1]);
    for (let y = 0; y < 2; y++) {
      for (let x = 0; x < 4; x++) {
        for (let c = 0; c < 3; c++) expect(r.get(x, y, c)).toBe((y * 4 + x) * 3 + c);
      }
    }
  });

  it('copies nothing, and takes more samples than it needs', () => {
    const data = new Float32Array(10);
    const r = raster(data, [3, 3]);
    expect(r.data).toBe(data);
    r.set(1, 2, 5);
    expect(data[7]).toBe(5);
  });

  it('keeps no hold on the shape that it is given', () => {
    const shape = [3, 2];
    const r = raster(new Uint8Array(6), shape);
    shape[0] = 9;
    expect(r.shape).toEqual([3, 2]);
  });

  it('refuses what it cannot view, word for word', () => {
    const data = new Uint8Array(6);
    const call = (d: unknown, shape: unknown) => () => raster(d as Uint8Array, shape as number[]);
    expect(call([1, 2], [2, 1])).toThrow(new TypeError('data must be a typed array, got [1, 2]'));
    expect(call(undefined, [2, 1])).toThrow(
      new TypeError('data must be a typed array, got undefined'),
    );
    expect(call(new DataView(new ArrayBuffer(4)), [2, 1])).toThrow(
      new TypeError('data must be a typed array, got DataView'),
    );
    const shapes = 'shape must be [width, height] or [width, height, channels]';
    expect(call(data, 6)).toThrow(new TypeError(`${shapes}, got 6`));
    expect(call(data, [6])).toThrow(new TypeError(`${shapes}, got [6]`));
    expect(call(data, [1, 1, 1, 1])).toThrow(new TypeError(`${shapes}, got [1, 1, 1, 1]`));
    expect(call(data, [0, 2])).toThrow(
      new RangeError('shape must be whole numbers >= 1, got [0, 2]'),
    );
    expect(call(data, [1.5, 2])).toThrow(
      new RangeError('shape must be whole numbers >= 1, got [1.5, 2]'),
    );
    expect(call(data, [3, 3])).toThrow(
      new RangeError('data must be at least 9 samples for shape [3,3], got Uint8Array(6)'),
    );
    expect(call(data, [3, 1, 3])).toThrow(
      new RangeError('data must be at least 9 samples for shape [3,1,3], got Uint8Array(6)'),
    );
  });
});

describe('a plain view', () => {
  const cases: [number[], number[], number][] = [
    [[3, 2], [1, 3], 0],
    [[3, 2], [2, 1], 0],
    [[3, 2], [-1, 3], 2],
    [[2, 2], [1, 4], 3],
    [[2, 3, 2], [2, 4, 1], 0],
    [[2, 2, 3], [-3, 6, 1], 3],
  ];
  const pair = (kind: (typeof KINDS)[number], [shape, stride, offset]: (typeof cases)[number]) => {
    const make = (): RasterData => new kind([10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21]);
    return [
      new PlainView(make(), shape, stride, offset),
      ndarray(make(), shape, stride, offset),
    ] as [PlainView<RasterData>, NdArray<RasterData>];
  };
  const places = (shape: number[]) =>
    shape.reduce<number[][]>(
      (found, side) => found.flatMap((at) => Array.from({ length: side }, (_, i) => [...at, i])),
      [[]],
    );

  it('has what an ndarray has, for every sample type', () => {
    for (const kind of KINDS) {
      const [plain, nd] = pair(kind, cases[0]!);
      expect(plain.dtype).toBe(nd.dtype);
      expect(plain.size).toBe(nd.size);
      expect(plain.dimension).toBe(nd.dimension);
    }
  });

  it('reads and writes where an ndarray does, in any layout', () => {
    for (const layout of cases) {
      const [plain, nd] = pair(Int32Array, layout);
      expect(plain.size).toBe(nd.size);
      for (const at of places(layout[0])) {
        expect(plain.index(...at)).toBe(nd.index(...at));
        expect(plain.get(...at)).toBe(nd.get(...at));
        expect(plain.set(...at, at.length)).toBe(nd.set(...at, at.length));
      }
      expect([...plain.data]).toEqual([...nd.data]);
    }
  });

  it('stands in only where generated code is refused', () => {
    expect(viewOf(new Uint8Array(4), [2, 2], [1, 2], 0)).not.toBeInstanceOf(PlainView);
  });
});
