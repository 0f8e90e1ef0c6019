import ndarray from 'ndarray';
import { expect, it } from 'vitest';
import { raster } from '../../src/raster/raster.ts';
import { targetArgument } from '../../src/raster/target.ts';
import { pixelViews } from '../support/grids.ts';

const [width, height, channels] = [4, 3, 2];

it('what a kernel changed within the bounds comes into any view, and nothing outside them', () => {
  const samples = new Uint8Array(width * height * channels);
  for (const view of pixelViews(raster(samples, [width, height, channels]))) {
    view.data.fill(0);
    const target = targetArgument(view, 'target');
    const { dense } = target;
    const own = dense.data.buffer === view.data.buffer;
    for (let i = 0; i < dense.data.length; i++) dense.data[i] = 100 + i;
    const before = view.data.slice();
    target.commit(null);
    expect(view.data).toEqual(before);
    const [x0, y0, x1, y1] = [1, 0, dense.width - 1, 2];
    target.commit([x0, y0, x1, y1]);
    for (let y = 0; y < dense.height; y++) {
      for (let x = 0; x < dense.width; x++) {
        for (let c = 0; c < channels; c++) {
          const at = (y * dense.width + x) * channels + c;
          const inside = x >= x0 && x < x1 && y >= y0 && y < y1;
          const kept = before[view.index(x, y, c)];
          expect(view.get(x, y, c)).toBe(inside || own ? 100 + at : kept);
        }
      }
    }
    const changed = view.data.filter((sample, i) => sample !== before[i]).length;
    expect(changed).toBe(own ? 0 : (x1 - x0) * (y1 - y0) * channels);
  }
});

it('dense memory is changed in place, views without channels through their two strides', () => {
  const data = Uint8Array.of(1, 2, 3, 4, 5, 6);
  const whole = targetArgument(raster(data, [3, 2]), 'target');
  whole.dense.data[4] = 9;
  expect(data[4]).toBe(9);
  const columns = ndarray(Uint8Array.of(1, 2, 3, 4, 5, 6), [3, 2], [2, 1]);
  const turned = targetArgument(columns, 'target');
  expect([...turned.dense.data]).toEqual([1, 3, 5, 2, 4, 6]);
  turned.dense.data.fill(0);
  turned.commit([1, 0, 2, 2]);
  expect([...columns.data]).toEqual([1, 2, 0, 0, 5, 6]);
});
