import type { NdArray } from 'ndarray';
import { expect } from 'vitest';
import type { RasterData } from '../../src/raster/index.ts';
import { symmetries } from './grids.ts';

/** What a call makes of each symmetry of a raster is that symmetry of what it makes of the raster. */
export function expectMirrored<D extends RasterData>(
  input: NdArray<D>,
  call: (view: NdArray<D>) => NdArray<RasterData>,
): void {
  const expected = symmetries(call(input));
  symmetries(input).forEach((view, s) => {
    const [found, wanted] = [values(call(view)), values(expected[s]!)];
    let wrong = 0;
    for (let i = 0; i < wanted.length; i++) if (found[i] !== wanted[i]) wrong++;
    expect({ symmetry: s, wrong }).toEqual({ symmetry: s, wrong: 0 });
  });
}

/** The samples of any view, row by row. */
function values(r: NdArray<RasterData>): number[] {
  const [w, h, c = 1] = r.shape as [number, number, number?];
  return Array.from({ length: w * h * c }, (_, i) => {
    const p = Math.floor(i / c);
    const [x, y] = [p % w, Math.floor(p / w)];
    return (r.shape.length === 2 ? r.get(x, y) : r.get(x, y, i % c)) as number;
  });
}
