import { expect, it } from 'vitest';
import { packMask } from '../../src/raster/pack.ts';
import { raster } from '../../src/raster/raster.ts';
import { barrierArgument } from '../../src/runs/barrier.ts';
import { mask } from '../support/grids.ts';

it('a barrier is packed, of the size of the raster and in memory of its own', () => {
  const dense = { data: new Uint8Array(6), width: 3, height: 2, channels: 1 };
  const line = mask('1 . 1\n. 1 .');
  expect(barrierArgument(undefined, dense)).toBeUndefined();
  const packed = packMask({ data: line.data, width: 3, height: 2, channels: 1 }, 'barrier');
  expect(barrierArgument(line, dense)).toEqual(packed);
  expect(barrierArgument(line, dense, raster(new Uint8Array(6), [3, 2]))).toEqual(packed);
  expect(() => barrierArgument(line, dense, raster(line.data, [3, 2]))).toThrow(
    new RangeError('barrier must share no memory with target'),
  );
  expect(() => barrierArgument(mask('1 1\n1 1'), dense)).toThrow(
    'barrier must have the size of the raster, 3 × 2, got 2 × 2',
  );
  expect(() => barrierArgument(raster(Uint8Array.of(0, 2, 0, 0, 0, 0), [3, 2]), dense)).toThrow(
    /^barrier must hold 0 or 1, got 2 at \[1, 0\]/,
  );
});
