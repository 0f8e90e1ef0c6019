import { describe, expect, it } from 'vitest';
import { diffFlats } from '../../src/palette/diff-flats.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import { mask, otherViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

const names = ['bare', 'sky', 'fur', 'eye'];
const palette = names.map((name, i) => ({ name, color: `#10203${i}` }));
const flatsOf = (grid: string): Flats => ({ indices: mask(grid), palette });

describe('diffFlats', () => {
  it('tells regions by their pair of swatches, by first pixel', () => {
    const a = flatsOf(`
      1 1 2 2
      1 1 2 2
      . 3 3 2`);
    const b = flatsOf(`
      1 3 2 2
      1 3 3 2
      . 3 3 1`);
    const { changed, regions, swatches } = diffFlats(a, b);
    expect(changed).toBe(4);
    expect(regions).toEqual([
      { from: 'sky', to: 'eye', area: 2, bounds: [1, 0, 2, 2], at: [1.5, 0.5] },
      { from: 'fur', to: 'eye', area: 1, bounds: [2, 1, 3, 2], at: [2.5, 1.5] },
      { from: 'fur', to: 'sky', area: 1, bounds: [3, 2, 4, 3], at: [3.5, 2.5] },
    ]);
    expect(
      swatches.map(({ name, areaBefore, areaAfter, gained, lost }) => [
        name,
        areaBefore,
        areaAfter,
        gained,
        lost,
      ]),
    ).toEqual([
      ['sky', 4, 3, 1, 2],
      ['fur', 5, 3, 0, 2],
      ['eye', 2, 5, 3, 0],
    ]);
  });

  it('finds nothing between equal flats, in whatever order their palettes are', () => {
    const a = flatsOf('1 2 3 .');
    const turned = { indices: mask('3 2 1 .'), palette: [0, 3, 2, 1].map((i) => palette[i]!) };
    for (const b of [a, turned]) {
      const { changed, regions, swatches } = diffFlats(a, b);
      expect([changed, regions, swatches]).toEqual([0, [], []]);
    }
  });

  it('tells swatches that are new, gone or recolored, and paints them', () => {
    const after = [
      palette[0]!,
      { name: 'sky', color: '#ffffff' },
      palette[2]!,
      { name: 'paw', color: '#000000' },
    ];
    const { swatches, picture } = diffFlats(flatsOf('1 2 . 2'), {
      indices: mask('1 3 . 2'),
      palette: after,
    });
    expect(swatches).toEqual([
      {
        name: 'sky',
        colorBefore: '#102031',
        colorAfter: '#ffffff',
        areaBefore: 1,
        areaAfter: 1,
        gained: 0,
        lost: 0,
      },
      {
        name: 'fur',
        colorBefore: '#102032',
        colorAfter: '#102032',
        areaBefore: 2,
        areaAfter: 1,
        gained: 0,
        lost: 1,
      },
      { name: 'eye', colorBefore: '#102033', areaBefore: 0, areaAfter: 0, gained: 0, lost: 0 },
      { name: 'paw', colorAfter: '#000000', areaBefore: 0, areaAfter: 1, gained: 1, lost: 0 },
    ]);
    expect(picture.shape).toEqual([4, 1, 4]);
    const paleFur = 191 + Math.floor((299 * 16 + 587 * 32 + 114 * 50) / 4000);
    expect([...picture.data]).toEqual(
      [
        [0x00, 0x78, 0xff, 255],
        [0xe6, 0x00, 0x7e, 255],
        [255, 255, 255, 255],
        [paleFur, paleFur, paleFur, 255],
      ].flat(),
    );
  });

  it('counts each changed pixel once, in all symmetries and views', () => {
    const random = seeded(8);
    const noise = () => Uint8Array.from({ length: 19 * 11 }, () => Math.floor(random() * 4));
    const a = raster(noise(), [19, 11]);
    const b = raster(noise(), [19, 11]);
    const differ = a.data.reduce((sum, index, i) => sum + (index === b.data[i] ? 0 : 1), 0);
    const pairs = [
      ...symmetries(a).map((view, i) => [view, symmetries(b)[i]!] as const),
      ...otherViews(a).map((view, i) => [view, otherViews(b)[i]!] as const),
    ];
    for (const [one, two] of pairs) {
      const diff = diffFlats({ indices: one, palette }, { indices: two, palette });
      expect(diff.changed).toBe(differ);
      const marked = diff.picture.data.reduce(
        (sum, v, i, data) => sum + (i % 4 === 0 && v === 0xe6 && data[i + 1] === 0 ? 1 : 0),
        0,
      );
      expect(marked).toBe(differ);
      for (const { from, to, at } of diff.regions) {
        expect(names[one.get(Math.floor(at[0]), Math.floor(at[1])) as number]).toBe(from);
        expect(names[two.get(Math.floor(at[0]), Math.floor(at[1])) as number]).toBe(to);
      }
      for (const { areaBefore, areaAfter, name } of diff.swatches) {
        const count = (r: typeof a) => r.data.filter((v) => names[v] === name).length;
        expect([areaBefore, areaAfter]).toEqual([count(a), count(b)]);
      }
    }
  });

  it('works past 65,535 pixels a side and between 8 and 16 bit indices', () => {
    const many = Array.from({ length: 300 }, (_, i) => ({
      name: names[i] ?? `s${i}`,
      color: '#000000',
    }));
    const wide = { indices: raster(new Uint16Array(70_001), [70_001, 1]), palette: many };
    wide.indices.data[70_000] = 299;
    const bare = { indices: raster(new Uint8Array(70_001), [70_001, 1]), palette };
    const { regions } = diffFlats(bare, wide);
    expect(regions).toEqual([
      { from: 'bare', to: 's299', area: 1, bounds: [70_000, 0, 70_001, 1], at: [70_000.5, 0.5] },
    ]);
  });

  it('refuses two sizes and what are no flats', () => {
    expect(() => diffFlats(flatsOf('1 1'), flatsOf('1'))).toThrow(
      'b.indices must have the size of a.indices, 2 × 1, got 1 × 1',
    );
    expect(() => diffFlats(flatsOf('1'), flatsOf('7'))).toThrow(/^b\.indices must be below/);
    expect(() => diffFlats(null as unknown as Flats, flatsOf('1'))).toThrow(/^a must be flats/);
  });
});
