import ndarray, { type NdArray } from 'ndarray';
import ops from 'ndarray-ops';
import { describe, expect, it } from 'vitest';
import { NdView } from '../../src/raster/nd-view.ts';
import { raster } from '../../src/raster/raster.ts';
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

type Shaped = Pick<
  NdArray<RasterData>,
  'shape' | 'stride' | 'offset' | 'order' | 'size' | 'dimension'
>;

describe('a view that results are', () => {
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
    return [new NdView(make(), shape, stride, offset), ndarray(make(), shape, stride, offset)] as [
      NdView<RasterData>,
      NdArray<RasterData>,
    ];
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
        const [x = 0, y = 0, c] = at;
        const value: [number, number?] = c === undefined ? [7] : [c, 8];
        expect(plain.index(x, y, c)).toBe(nd.index(...at));
        expect(plain.get(x, y, c)).toBe(nd.get(...at));
        expect(plain.set(x, y, ...value)).toBe(nd.set(x, y, ...(value as number[])));
      }
      expect([...plain.data]).toEqual([...nd.data]);
    }
  });

  it('gives the views that an ndarray gives', () => {
    const flat = ({ shape, stride, offset, order, size, dimension }: Shaped) => [
      [shape, stride, offset],
      [order, size, dimension],
    ];
    const ways: ((r: NdArray<RasterData>) => NdArray<RasterData>)[] = [
      (r) => r,
      (r) => r.lo(1, 1),
      (r) => r.lo(0, 1).hi(1, 1),
      (r) => r.hi(2),
      (r) => r.step(-1, 2),
      (r) => r.step(2, -1).transpose(1, 0),
      (r) => r.step(-2, -2),
      (r) => r.transpose(...(r.dimension === 2 ? [1, 0] : [2, 0, 1])),
      (r) => r.pick(1, null),
      (r) => r.pick(null, 1),
      (r) => r.pick(1),
      (r) => r.pick(1, 1).step(-1),
      (r) => r.pick(1, 1, 1),
    ];
    for (const layout of cases) {
      for (const way of ways) {
        const [plain, nd] = pair(Uint16Array, layout).map((r) => way(r as NdArray<RasterData>));
        expect(flat(plain!)).toEqual(flat(nd!));
        for (const at of places(nd!.shape)) {
          expect(plain!.get(...at)).toBe(nd!.get(...at));
          expect(plain!.set(...at, 5)).toBe(nd!.set(...at, 5));
        }
        expect([...plain!.data]).toEqual([...nd!.data]);
      }
    }
  });

  it('is taken by ndarray-ops', () => {
    const a = raster(new Float32Array([1, 2, 3, 4]), [2, 2]);
    const b = raster(new Float32Array(4), [2, 2]);
    ops.assign(b, a.transpose(1, 0));
    ops.mulseq(b, 2);
    expect([...b.data]).toEqual([2, 6, 4, 8]);
    expect(ops.sum(a)).toBe(10);
  });
});
