import { describe, expect, it } from 'vitest';
import { raster } from '../../src/raster/raster.ts';
import { splitRegion } from '../../src/regions/split.ts';

describe('splitRegion at the top of the ids', () => {
  it('gives the last id there is, and none beyond', () => {
    const cut = [
      [2.5, 0],
      [2.5, 1],
    ] as const;
    const top = 2 ** 31 - 1;
    const line = (id: number) => raster(Int32Array.from([id, id, id, id, id]), [5, 1]);
    expect([...splitRegion(line(top - 1), top - 1, cut).data]).toEqual(
      [0, 0, 0, 1, 1].map((more) => top - 1 + more),
    );
    const labels = line(top);
    expect(() => splitRegion(labels, top, cut)).toThrow(
      new RangeError(
        'labels must leave ids up to 2147483647 for new pieces, got 2147483647 as the highest; relabel(labels) renumbers them',
      ),
    );
    expect([...labels.data]).toEqual([top, top, top, top, top]);
  });
});
