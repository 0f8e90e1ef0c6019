import { describe, expect, it } from 'vitest';
import { paletteUse } from '../../src/palette/palette-use.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import { mask, otherViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

const names = ['bare', 'sky', 'fur', 'eye'];
const palette = names.map((name) => ({ name, color: '#102030' }));
const flatsOf = (grid: string): Flats => ({ indices: mask(grid), palette });

/** Areas and regions by flooding from every pixel that is not seen yet. */
function floods({ indices }: Flats): { area: number; regions: number }[] {
  const [w, h] = indices.shape as [number, number];
  const seen = new Set<number>();
  const result = names.map(() => ({ area: 0, regions: 0 }));
  for (let start = 0; start < w * h; start++) {
    if (seen.has(start)) continue;
    const index = indices.get(start % w, Math.floor(start / w)) as number;
    result[index]!.regions++;
    const stack = [start];
    seen.add(start);
    while (stack.length > 0) {
      const at = stack.pop()!;
      result[index]!.area++;
      const [x, y] = [at % w, Math.floor(at / w)];
      for (const [u, v] of [
        [x - 1, y],
        [x + 1, y],
        [x, y - 1],
        [x, y + 1],
      ] as const) {
        const next = v * w + u;
        if (u < 0 || v < 0 || u >= w || v >= h || seen.has(next)) continue;
        if (indices.get(u, v) !== index) continue;
        seen.add(next);
        stack.push(next);
      }
    }
  }
  return result;
}

describe('paletteUse', () => {
  it('counts pixels and 4-connected regions, and lists what is not used', () => {
    const use = paletteUse(
      flatsOf(`
        1 1 . 2
        1 . 2 2
        . 1 1 1`),
    );
    expect(use.swatches.map(({ name, area, regions }) => [name, area, regions])).toEqual([
      ['bare', 3, 3],
      ['sky', 6, 2],
      ['fur', 3, 1],
      ['eye', 0, 0],
    ]);
    expect(use.swatches[1]).toEqual({
      name: 'sky',
      colors: ['#102030'],
      area: 6,
      regions: 2,
      sheets: [],
    });
    expect(use.unused).toEqual(['eye']);
  });

  it('counts what floods count, in all symmetries and views', () => {
    const random = seeded(5);
    const data = Uint8Array.from({ length: 17 * 13 }, () => Math.floor(random() * 4));
    const noise = raster(data, [17, 13]);
    for (const indices of [...symmetries(noise), ...otherViews(noise)]) {
      const flats = { indices, palette };
      const counted = paletteUse(flats).swatches.map(({ area, regions }) => ({ area, regions }));
      expect(counted).toEqual(floods(flats));
    }
  });

  it('adds sheets up by name, and tells colors that differ', () => {
    const front = { name: 'front', flats: flatsOf('1 1 2') };
    const other = [
      { name: 'bare', color: '#000000' },
      { name: 'fur', color: '#405060' },
      { name: 'paw', color: '#010101' },
    ];
    const back = { name: 'back', flats: { indices: mask('. 1 .'), palette: other } };
    const { swatches, unused } = paletteUse([front, back]);
    expect(swatches.map(({ name }) => name)).toEqual([...names, 'paw']);
    expect(swatches.map(({ area }) => area)).toEqual([2, 2, 2, 0, 0]);
    expect(swatches.map(({ regions }) => regions)).toEqual([2, 1, 2, 0, 0]);
    expect(swatches.map(({ sheets }) => sheets)).toEqual([
      ['back'],
      ['front'],
      ['front', 'back'],
      [],
      [],
    ]);
    expect(swatches[2]!.colors).toEqual(['#102030', '#405060']);
    expect(unused).toEqual(['eye', 'paw']);
    expect(paletteUse([])).toEqual({ swatches: [], unused: [] });
  });

  it('works past 65,535 pixels a side, and with more than 256 swatches', () => {
    const many = Array.from({ length: 300 }, (_, i) => ({
      name: i === 0 ? 'bare' : `s${i}`,
      color: '#000000',
    }));
    const data = Uint16Array.from({ length: 70_000 }, (_, i) => i % 300);
    const use = paletteUse({ indices: raster(data, [70_000, 1]), palette: many });
    expect(use.swatches[299]).toMatchObject({ area: 233, regions: 233 });
    expect(use.unused).toEqual([]);
  });

  it('refuses what are no flats and no sheets', () => {
    const use = (flats: unknown) => () => paletteUse(flats as Flats);
    expect(use(null)).toThrow(TypeError);
    expect(use([{ name: 'a' }])).toThrow(/^flats\[0\]\.flats must be flats/);
    const front = { name: 'front', flats: flatsOf('1') };
    expect(use([front, front])).toThrow(/^flats\[1\]\.name must be unique among the sheets/);
    expect(use([{ ...front, ink: 1 }])).toThrow(TypeError);
    expect(use(flatsOf('9'))).toThrow(/got 9 at \[0, 0\]/);
  });
});
