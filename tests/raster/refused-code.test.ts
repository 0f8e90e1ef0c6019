import { expect, it, vi } from 'vitest';

// As under a Content-Security-Policy that forbids generated code: ndarray throws the EvalError that
// an engine throws, and ndarray-ops must not be reached.
vi.mock('ndarray', () => ({
  default: () => {
    throw new EvalError('Code generation from strings disallowed for this context');
  },
}));
vi.mock('ndarray-ops', () => ({
  default: {
    get assign(): never {
      throw new EvalError('Code generation from strings disallowed for this context');
    },
  },
}));

const { raster } = await import('../../src/raster/raster.ts');
const { pixelsArgument } = await import('../../src/raster/arguments.ts');
const { inkCoverage } = await import('../../src/ink/coverage.ts');

it('makes views of views where generated code is refused', () => {
  const r = raster(new Uint8Array([1, 2, 3, 4, 5, 6]), [3, 2]);
  expect([r.get(2, 1), r.shape, r.stride, r.offset]).toEqual([6, [3, 2], [1, 3], 0]);
  expect([r.dtype, r.size, r.dimension, r.index(1, 1)]).toEqual(['uint8', 6, 2, 4]);
  expect(inkCoverage(r).shape).toEqual([3, 2]);
  expect(r.pick(null, 1).get(0)).toBe(4);
  expect(r.step(-1, 1).lo(1, 0).get(0, 0)).toBe(2);
});

it('copies strided views by a plain loop there', () => {
  const data = Uint8Array.from({ length: 24 }, (_, i) => i);
  const flipped = { data, shape: [3, 2], stride: [-1, 3], offset: 2 };
  expect([...pixelsArgument(flipped, 'pixels').data]).toEqual([2, 1, 0, 5, 4, 3]);
  const planes = { data, shape: [4, 2, 3], stride: [1, 4, 8], offset: 0 };
  expect([...pixelsArgument(planes, 'pixels').data].slice(0, 6)).toEqual([0, 8, 16, 1, 9, 17]);
});
