import { checkSameSize, maskArgument } from '../raster/arguments.ts';
import { overlap } from '../raster/out.ts';
import { type Packed, packMask } from '../raster/pack.ts';
import type { Dense, MaskLike, RasterLike } from '../raster/types.ts';

/** A `barrier` option for a raster; it must not share memory with `written`. O(pixels). */
export function barrierArgument(
  barrier: MaskLike | undefined,
  dense: Dense,
  written?: RasterLike,
): Packed | undefined {
  if (barrier === undefined) return undefined;
  const mask = maskArgument(barrier, 'barrier');
  checkSameSize(dense, 'the raster', mask, 'barrier');
  if (written !== undefined && overlap(written.data, barrier.data)) {
    throw new RangeError('barrier must share no memory with target');
  }
  return packMask(mask, 'barrier');
}
