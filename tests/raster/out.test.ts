import ndarray, { type NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { inkCoverage } from '../../src/ink/coverage.ts';
import { removeSpecks } from '../../src/ink/specks.ts';
import { thresholdInk } from '../../src/ink/threshold.ts';
import { remapFlats } from '../../src/palette/remap-flats.ts';
import { passageTree } from '../../src/passages/tree.ts';
import { rasterizePolygon } from '../../src/polygon/rasterize.ts';
import { outArgument } from '../../src/raster/out.ts';
import { raster } from '../../src/raster/raster.ts';
import type { RasterData, RasterView } from '../../src/raster/types.ts';
import { growUnderInk } from '../../src/regions/grow.ts';
import { labelRegions } from '../../src/regions/label.ts';
import { labels, mask, symmetries } from '../support/grids.ts';

const take = (out: unknown, inputs: RasterData[] = []) =>
  outArgument(out as RasterView<Uint8Array>, Uint8Array, 3, 2, inputs);

describe('out', () => {
  it('left out, is fresh storage of zeros', () => {
    const data = take(undefined);
    expect(data).toBeInstanceOf(Uint8Array);
    expect([...data]).toEqual([0, 0, 0, 0, 0, 0]);
  });

  it('is the storage of a dense raster, whole or part of a larger one', () => {
    const data = new Uint8Array(10);
    expect(take(raster(data.subarray(0, 6), [3, 2])).buffer).toBe(data.buffer);
    const part = take(ndarray(data, [3, 2], [1, 3], 4));
    part.fill(1);
    expect([...data]).toEqual([0, 0, 0, 0, 1, 1, 1, 1, 1, 1]);
  });

  it('may stand on shared memory, and beside an input in one buffer', () => {
    const shared = new SharedArrayBuffer(12);
    const out = raster(new Uint8Array(shared, 6), [3, 2]);
    expect(take(out, [new Uint8Array(shared, 0, 6)]).buffer).toBe(shared);
  });

  it.each<[string, unknown, Error]>([
    ['null', null, new TypeError('out must be a raster over a Uint8Array, got null')],
    [
      'a bare array',
      new Uint8Array(6),
      new TypeError('out must be a raster over a Uint8Array, got Uint8Array(6)'),
    ],
    [
      'another sample type',
      raster(new Int32Array(6), [3, 2]),
      new TypeError('out must be a raster over a Uint8Array, got Int32Array(6)'),
    ],
    [
      'Uint8Clamped',
      raster(new Uint8ClampedArray(6), [3, 2]),
      new TypeError('out must be a raster over a Uint8Array, got Uint8ClampedArray(6)'),
    ],
    [
      'another shape',
      raster(new Uint8Array(6), [2, 3]),
      new RangeError('out must be a raster of shape [3, 2], got [2, 3]'),
    ],
    [
      'a third axis',
      raster(new Uint8Array(6), [3, 2, 1]),
      new RangeError('out must be a raster of shape [3, 2], got [3, 2, 1]'),
    ],
    [
      'no shape',
      { data: new Uint8Array(6), width: 3, height: 2 },
      new RangeError('out must be a raster of shape [3, 2], got undefined'),
    ],
    [
      'column-major',
      ndarray(new Uint8Array(6), [3, 2]),
      new RangeError('out must be dense and row-major, got [2, 1]'),
    ],
    [
      'strided',
      ndarray(new Uint8Array(12), [3, 2], [2, 6]),
      new RangeError('out must be dense and row-major, got [2, 6]'),
    ],
    [
      'flipped',
      raster(new Uint8Array(6), [3, 2]).step(-1, 1),
      new RangeError('out must be dense and row-major, got [-1, 3]'),
    ],
  ])('is refused, word for word: %s', (_, out, error) => {
    expect(() => take(out)).toThrow(error);
  });

  it('is refused where it does not lie inside its data', () => {
    const view = (offset: number) => ({
      data: new Uint8Array(8),
      shape: [3, 2],
      stride: [1, 3],
      offset,
    });
    expect(take(view(2))).toHaveLength(6);
    expect(() => take(view(3))).toThrow(RangeError);
    expect(() => take(view(-1))).toThrow(RangeError);
    expect(() => take({ ...view(0), offset: undefined })).toThrow(RangeError);
    expect(() => take({ ...view(0), stride: undefined })).toThrow(RangeError);
  });

  it('is refused where it shares memory with an input', () => {
    const data = new Uint8Array(12);
    const out = ndarray(data, [3, 2], [1, 3], 6);
    const error = new RangeError('out must share no memory with an input');
    expect(() => take(out, [data])).toThrow(error);
    expect(() => take(out, [new Uint8Array(3), new Uint16Array(data.buffer, 4, 2)])).toThrow(error);
    expect(take(out, [data.subarray(0, 6)])).toHaveLength(6);
  });

  it('of a call is refused where it shares memory with a view that the call copies', () => {
    const pixels = raster(Uint8Array.from([1, 2, 3, 4]), [2, 2]);
    for (const view of symmetries(pixels)) {
      for (const call of [inkCoverage, thresholdInk]) {
        expect(() => call(view, { out: pixels })).toThrow(
          new RangeError('out must share no memory with an input'),
        );
      }
    }
    expect([...pixels.data]).toEqual([1, 2, 3, 4]);
  });
});

describe('a call with `out`', () => {
  const ink = mask('0 1 0');
  const regions = labels('1 0 2');
  const palette = ['bare', 'shell'].map((name) => ({ name, color: '#c86400' }));
  const calls: Record<string, (out: never) => NdArray> = {
    inkCoverage: (out) => inkCoverage(ink, { out }),
    thresholdInk: (out) => thresholdInk(ink, { method: 'fixed', level: 0, out }),
    removeSpecks: (out) => removeSpecks(ink, { out }),
    labelRegions: (out) => labelRegions(ink, { out }).labels,
    growUnderInk: (out) => growUnderInk(regions, ink, { out }),
    rasterizePolygon: (out) => rasterizePolygon([], [3, 1], { out }),
    remapFlats: (out) => remapFlats({ indices: ink, palette }, {}, { out }).indices,
    partition: (out) => passageTree(ink).partition(0, { out }),
  };

  it.each(Object.keys(calls))('gives an ndarray on the memory of a plain view: %s', (name) => {
    const wide = ['labelRegions', 'growUnderInk', 'partition'].includes(name);
    const data = wide ? new Int32Array(4) : new Uint8Array(4);
    const view = { data, shape: [3, 1], stride: [1, 3], offset: 1 };
    const result = calls[name]!(view as never);
    expect(result.shape).toEqual([3, 1]);
    expect(Array.from({ length: 3 }, (_, x) => result.get(x, 0))).toEqual([...data.slice(1)]);
    expect((result.data as Uint8Array).buffer).toBe(data.buffer);
    const whole = raster(data.slice(1), [3, 1]);
    expect(calls[name]!(whole as never)).toBe(whole);
  });
});
