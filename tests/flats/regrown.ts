import { expect } from 'vitest';
import { growAll } from '../../src/flats/page/grown-paper.ts';
import { regrow } from '../../src/flats/page/regrow.ts';
import { packMask } from '../../src/raster/pack.ts';
import { changeParts } from '../../src/runs/change-parts.ts';
import { findParts } from '../../src/runs/parts.ts';

/** Expects that growing a mask's paper after another one's gives what growing it from nothing gives. */
export function expectRegrown(
  before: Uint8Array,
  now: Uint8Array,
  [width, height]: readonly [number, number],
  coverage?: Uint8Array,
): void {
  const packed = (data: Uint8Array) => packMask({ data, width, height, channels: 1 }, 'mask');
  const grown = growAll(findParts(packed(before)), coverage, undefined);
  const differ = Int32Array.from(before.keys()).filter((p) => before[p] !== now[p]);
  const [closed, opened] = [1, 0].map((value) => differ.filter((p) => now[p] === value));
  const changed = changeParts(grown.paper, closed!, opened!);
  const { rows } = regrow(grown, changed, () => packed(now), coverage, undefined);
  expect(rows).toEqual(growAll(findParts(packed(now)), coverage, undefined).rows);
}
