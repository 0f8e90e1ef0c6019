import { expect } from 'vitest';
import { findPaperRegions, growAll } from '../../src/flats/page/grown-paper.ts';
import { regrow } from '../../src/flats/page/regrow.ts';
import { packMask } from '../../src/runs/pack.ts';

/** Expects that growing a mask's paper after another one's gives what growing it from nothing gives. */
export function expectRegrown(
  before: Uint8Array,
  now: Uint8Array,
  [width, height]: readonly [number, number],
  coverage?: Uint8Array,
): void {
  const paperOf = (data: Uint8Array) =>
    findPaperRegions(packMask({ data, width, height, channels: 1 }, 'mask'));
  const grown = growAll(paperOf(before), coverage, undefined);
  const { rows } = regrow(grown, paperOf(now), coverage, undefined);
  expect(rows).toEqual(growAll(paperOf(now), coverage, undefined).rows);
}
