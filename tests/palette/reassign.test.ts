import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import { recolor } from '../../src/palette/recolor.ts';
import { remapFlats } from '../../src/palette/remap-flats.ts';
import { selectSwatch } from '../../src/palette/select-swatch.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import { otherViews, symmetries } from '../support/grids.ts';

const names = ['bare', 'sky', 'fur', 'eye'];
const colors = ['#000000', '#a0c8f0', '#8a5d42', '#101010'];
const palette = names.map((name, i) => ({ name, color: colors[i]! }));
const data = new Uint8Array([1, 1, 2, 0, 2, 3]);
const flats: Flats = { indices: raster(data, [3, 2]), palette, ground: 'sky' };

describe('recolor', () => {
  it('changes colors and shares indices', () => {
    const night = recolor(flats, { sky: '#101840', fur: '#402810' });
    expect(night.indices).toBe(flats.indices);
    expect(night.palette.map(({ color }) => color)).toEqual([
      '#000000',
      '#101840',
      '#402810',
      '#101010',
    ]);
    expect(night.palette.map(({ name }) => name)).toEqual(names);
    expect(night.ground).toBe('sky');
    expect(flats.palette).toEqual(palette);
    expect([...paintFlats(night).data.subarray(0, 4)]).toEqual([0x10, 0x18, 0x40, 255]);
  });

  it('shares the memory of indices that are no ndarray', () => {
    const { shape, stride, offset } = flats.indices;
    const forms = [
      { data, width: 3, height: 2 },
      { data, shape, stride, offset },
    ];
    for (const indices of forms) {
      const changed = recolor({ indices, palette }, { fur: '#000000' });
      expect(changed.indices.data).toBe(data);
      expect(changed.indices.get(2, 1)).toBe(3);
      expect(changed).not.toHaveProperty('ground');
    }
  });

  it('refuses unknown names, bare, and what is no color', () => {
    expect(() => recolor(flats, { furr: '#000000' })).toThrow(
      new RangeError(
        'a key of colors must be the name of a swatch of the palette, got "furr"; did you mean "fur"?',
      ),
    );
    expect(() => recolor(flats, { bare: '#000000' })).toThrow(
      new RangeError('a key of colors must be a swatch other than "bare", got "bare"'),
    );
    expect(() => recolor(flats, { fur: 'brown' })).toThrow(
      new RangeError('colors["fur"] must be a color \'#rrggbb\', got "brown"'),
    );
    expect(() => recolor(flats, ['#000000'] as unknown as Record<string, string>)).toThrow(
      TypeError,
    );
  });
});

describe('remapFlats', () => {
  it('merges, swaps and rotates all at once', () => {
    const mapped = (table: Record<string, string>) => [...remapFlats(flats, table).indices.data];
    expect(mapped({})).toEqual([1, 1, 2, 0, 2, 3]);
    expect(mapped({ eye: 'fur' })).toEqual([1, 1, 2, 0, 2, 2]);
    expect(mapped({ sky: 'fur', fur: 'sky' })).toEqual([2, 2, 1, 0, 1, 3]);
    expect(mapped({ sky: 'fur', fur: 'eye', eye: 'sky' })).toEqual([2, 2, 3, 0, 3, 1]);
    expect(mapped({ bare: 'eye', fur: 'bare' })).toEqual([1, 1, 0, 3, 0, 3]);
  });

  it('keeps palette, ground and its argument', () => {
    const mapped = remapFlats(flats, { sky: 'fur' });
    expect(mapped.palette).toEqual(palette);
    expect(mapped.ground).toBe('sky');
    expect(mapped.indices.data).not.toBe(data);
    expect([...data]).toEqual([1, 1, 2, 0, 2, 3]);
  });

  it('is undone by the inverse of a permutation', () => {
    const laid = names.slice(1);
    fc.assert(
      fc.property(fc.shuffledSubarray(laid, { minLength: 3 }), (to) => {
        const there = Object.fromEntries(laid.map((name, i) => [name, to[i]!]));
        const back = Object.fromEntries(to.map((name, i) => [name, laid[i]!]));
        expect(remapFlats(remapFlats(flats, there), back)).toEqual(remapFlats(flats, {}));
      }),
    );
  });

  it('refuses unknown names on either side', () => {
    expect(() => remapFlats(flats, { eyes: 'fur' })).toThrow(/^a name of table .* "eye"\?$/);
    expect(() => remapFlats(flats, { eye: 'furr' })).toThrow(/^table\["eye"\] .* "fur"\?$/);
    expect(() => remapFlats(flats, { eye: 2 as unknown as string })).toThrow(TypeError);
    expect(() => remapFlats(flats, null as unknown as Record<string, string>)).toThrow(TypeError);
  });
});

describe('selectSwatch', () => {
  it('selects the pixels of one swatch', () => {
    expect([...selectSwatch(flats, 'fur').data]).toEqual([0, 0, 1, 0, 1, 0]);
    expect([...selectSwatch(flats, 'bare').data]).toEqual([0, 0, 0, 1, 0, 0]);
    expect(selectSwatch(flats, 'sky').shape).toEqual([3, 2]);
  });

  it('selects each pixel once over all swatches, from any view', () => {
    for (const indices of [...symmetries(flats.indices), ...otherViews(flats.indices)]) {
      const masks = names.map((name) => selectSwatch({ indices, palette }, name));
      const [w, h] = indices.shape as [number, number];
      for (let y = 0; y < h; y++) {
        for (let x = 0; x < w; x++) {
          expect(masks.map((mask) => mask.get(x, y)).indexOf(1)).toBe(indices.get(x, y));
          expect(masks.reduce((sum, mask) => sum + mask.get(x, y)!, 0)).toBe(1);
        }
      }
    }
  });

  it('refuses an unknown name', () => {
    expect(() => selectSwatch(flats, 'fir')).toThrow(
      new RangeError(
        'name must be the name of a swatch of the palette, got "fir"; did you mean "fur"?',
      ),
    );
  });
});

describe('a Map of names', () => {
  const flats: Flats = {
    indices: raster(new Uint8Array([1]), [1, 1]),
    palette: ['bare', 'shell'].map((name) => ({ name, color: '#c86400' })),
  };

  it('is refused by recolor and remapFlats', () => {
    const colors = new Map([['shell', '#402060']]);
    const hint = 'got a Map; Object.fromEntries(map) makes an object of it';
    expect(() => recolor(flats, colors as never)).toThrow(
      new TypeError(`colors must be an object { name: color }, ${hint}`),
    );
    expect(() => remapFlats(flats, colors as never)).toThrow(
      new TypeError(`table must be an object { name: name }, ${hint}`),
    );
  });
});

describe('what is often taken for flats', () => {
  it.each<[string, unknown, string]>([
    ['a laid sheet', { flats: {}, ink: {} }, 'pass its .flats'],
    ['a path', 'crab.png', 'a file is read with readFlats(bytes).flats'],
    ['bytes', new Uint8Array(3), 'a file is read with readFlats(bytes).flats'],
    ['pixels', raster(new Uint8Array(3), [1, 1, 3]), 'indexFlats(pixels) makes flats'],
  ])('is told what to pass instead: %s', (_, value, hint) => {
    expect(() => paintFlats(value as Flats)).toThrow(`; ${hint}`);
  });
});
