import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compactPalette } from '../../src/palette/compact-palette.ts';
import { mergeSwatches } from '../../src/palette/merge-swatches.ts';
import { recolor } from '../../src/palette/recolor.ts';
import { remapFlats } from '../../src/palette/remap-flats.ts';
import { renameSwatch } from '../../src/palette/rename-swatch.ts';
import type { Flats, IndexRaster } from '../../src/palette/types.ts';
import { writeFlats } from '../../src/png/write-flats.ts';
import { raster } from '../../src/raster/raster.ts';
import { otherViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

const names = ['bare', 'sky', 'fur', 'eye', 'paw'];
const palette = names.map((name, i) => ({ name, color: `#10203${i}` }));
const flats: Flats = {
  indices: raster(new Uint8Array([1, 1, 2, 0, 4, 4]), [3, 2]),
  palette,
  ground: 'sky',
};

/** A page of noise in a palette of `count` swatches, `s1`, `s2` … */
function noise(count: number, width: number, height: number, seed: number): Flats {
  const random = seeded(seed);
  const indices = new (count > 256 ? Uint16Array : Uint8Array)(width * height);
  for (let i = 0; i < indices.length; i++) indices[i] = Math.floor(random() * count);
  const swatches = Array.from({ length: count }, (_, i) => ({
    name: i === 0 ? 'bare' : `s${i}`,
    color: `#${i.toString(16).padStart(6, '0')}`,
  }));
  return { indices: raster<IndexRaster['data']>(indices, [width, height]), palette: swatches };
}

/** The name of the swatch of each pixel. */
const named = ({ indices, palette: swatches }: Flats): string[] =>
  Array.from(indices.data, (index) => swatches[index]!.name);

describe('remapFlats, by words', () => {
  it.each([1, 2, 3, 4, 5, 31, 64, 257])('maps each of %d pixels by its index', (size) => {
    const page = noise(7, size, 1, size);
    const table = { s1: 's3', s3: 'bare', bare: 's6', s5: 's1' } as Record<string, string>;
    const expected = named(page).map((name) => table[name] ?? name);
    expect(named(remapFlats(page, table))).toEqual(expected);
  });

  it('maps every view, also one that starts inside a word', () => {
    const page = noise(7, 13, 11, 3);
    const data = new Uint8Array(page.indices.size + 3);
    data.set(page.indices.data, 3);
    const inside = { data: data.subarray(3), width: 13, height: 11 };
    const views = [...otherViews(page.indices), inside];
    for (const indices of views) {
      const mapped = remapFlats({ indices, palette: page.palette }, { s1: 's2' });
      expect(mapped.indices.data).toEqual(remapFlats(page, { s1: 's2' }).indices.data);
    }
    for (const indices of symmetries(page.indices)) {
      const mapped = remapFlats({ indices, palette: page.palette }, { s1: 's2', s2: 's1' });
      const [w, h] = indices.shape as [number, number];
      for (let y = 0; y < h; y++) {
        for (let x = 0; x < w; x++) {
          const from = indices.get(x, y) as number;
          expect(mapped.indices.get(x, y)).toBe(from === 1 ? 2 : from === 2 ? 1 : from);
        }
      }
    }
  });

  it.each([0, 1, 2, 3, 4, 9])(
    'names the pixel of an index past the palette, at place %d',
    (place) => {
      for (const count of [3, 255, 300]) {
        const page = noise(count, 10, 1, 5);
        page.indices.data[place] = count;
        expect(() => remapFlats(page, {})).toThrow(
          new RangeError(
            `flats.indices must be below the ${count} swatches of the palette, got ${count} at [${place}, 0]`,
          ),
        );
      }
    },
  );

  it('works past 65,535 pixels a side and with 256 and 257 swatches', () => {
    for (const count of [256, 257]) {
      const page = noise(count, 70_001, 1, count);
      const last = `s${count - 1}`;
      const there = remapFlats(page, { s1: last, [last]: 's1' });
      expect(there.indices.data).not.toEqual(page.indices.data);
      expect(remapFlats(there, { s1: last, [last]: 's1' }).indices.data).toEqual(page.indices.data);
    }
  });

  it('writes into out where it is given one', () => {
    for (const count of [7, 300]) {
      const page = noise(count, 21, 5, count);
      const { data } = page.indices;
      const own = new (count > 256 ? Uint16Array : Uint8Array)(data.length + 1);
      const wide = raster<Uint8Array | Uint16Array>(own.subarray(0, data.length), [21, 5]);
      const odd = { data: own, shape: [21, 5], stride: [1, 21], offset: 1 };
      for (const out of [wide, odd]) {
        const mapped = remapFlats(page, { s1: 's2' }, { out });
        expect(mapped).toEqual(remapFlats(page, { s1: 's2' }));
        expect(mapped.indices.data.buffer).toBe(own.buffer);
      }
      expect(() => remapFlats(page, {}, { out: page.indices })).toThrow(/share no memory/);
      const narrow = raster(new Uint8Array(4), [2, 2]);
      expect(() => remapFlats(page, {}, { out: narrow })).toThrow(/^out must be/);
    }
  });

  it('restores the file to the byte by a permutation and back', () => {
    for (const count of [5, 256, 300]) {
      const page = noise(count, 37, 23, count + 1);
      const laid = page.palette.map(({ name }) => name);
      fc.assert(
        fc.property(fc.shuffledSubarray(laid, { minLength: laid.length }), (to) => {
          const there = Object.fromEntries(laid.map((name, i) => [name, to[i]!]));
          const back = Object.fromEntries(to.map((name, i) => [name, laid[i]!]));
          const restored = remapFlats(remapFlats(page, there), back);
          expect(writeFlats(restored).bytes).toEqual(writeFlats(page).bytes);
        }),
        { numRuns: 10, seed: 1 },
      );
    }
  });
});

describe('recolor', () => {
  it('never changes indices, whatever the colors', () => {
    const page = noise(40, 19, 17, 9);
    const before = page.indices.data.slice();
    const color = fc.integer({ min: 0, max: 0xffffff }).map((v) => v.toString(16));
    fc.assert(
      fc.property(fc.dictionary(fc.constantFrom('s1', 's7', 's39'), color), (entries) => {
        const colors = Object.fromEntries(
          Object.entries(entries).map(([name, hex]) => [name, `#${hex.padStart(6, '0')}`]),
        );
        const changed = recolor(page, colors);
        expect(changed.indices).toBe(page.indices);
        expect(changed.indices.data).toEqual(before);
      }),
    );
  });

  it('looks 65,535 names up at once', () => {
    const page = noise(65_536, 2, 1, 4);
    const colors = Object.fromEntries(page.palette.slice(1).map(({ name }) => [name, '#123456']));
    expect(recolor(page, colors).palette.at(-1)).toEqual({ name: 's65535', color: '#123456' });
  });
});

describe('an unknown name', () => {
  it('is answered with the three nearest', () => {
    const near = ['bare', 'fur dark', 'fur darker', 'fur dusk', 'furs', 'hat'].map((name) => ({
      name,
      color: '#000000',
    }));
    const page = { indices: raster(new Uint8Array(1), [1, 1]), palette: near };
    expect(() => recolor(page, { 'fur dork': '#000000' })).toThrow(
      /got "fur dork"; did you mean "fur dark", "fur dusk" or "fur darker"\?$/,
    );
    expect(() => recolor(page, { zebra: '#000000' })).toThrow(/got "zebra"$/);
  });
});

describe('mergeSwatches', () => {
  it('lays many swatches in one and takes their names off', () => {
    const merged = mergeSwatches(flats, ['fur', 'eye'], 'paw');
    expect(merged.palette.map(({ name }) => name)).toEqual(['bare', 'sky', 'paw']);
    expect([...merged.indices.data]).toEqual([1, 1, 2, 0, 2, 2]);
    expect(merged.palette[2]).toEqual(palette[4]);
    expect(merged.ground).toBe('sky');
    expect([...flats.indices.data]).toEqual([1, 1, 2, 0, 4, 4]);
  });

  it('may name the one that stays, and the same one twice', () => {
    expect(mergeSwatches(flats, ['paw', 'fur', 'fur'], 'paw')).toEqual(
      mergeSwatches(flats, ['fur'], 'paw'),
    );
    expect(mergeSwatches(flats, [], 'paw').palette).toEqual(palette);
  });

  it('moves the ground with its swatch', () => {
    expect(mergeSwatches(flats, ['sky'], 'fur').ground).toBe('fur');
  });

  it('gives bytes as soon as 256 swatches are left', () => {
    const page = noise(300, 50, 40, 2);
    const last = Array.from({ length: 44 }, (_, i) => `s${256 + i}`);
    const merged = mergeSwatches(page, last, 's1');
    expect(merged.indices.data).toBeInstanceOf(Uint8Array);
    const expected = named(page).map((name) => (last.includes(name) ? 's1' : name));
    expect(named(merged)).toEqual(expected);
  });

  it('refuses bare and unknown names, near ones listed', () => {
    expect(() => mergeSwatches(flats, ['bare'], 'fur')).toThrow(
      'a name of names must be a swatch other than "bare", got "bare"',
    );
    expect(() => mergeSwatches(flats, ['fur'], 'bare')).toThrow(/^into must be a swatch other/);
    expect(() => mergeSwatches(flats, ['furr'], 'sky')).toThrow(/^names\[0\] .* mean "fur"\?$/);
    expect(() => mergeSwatches(flats, ['fur'], 'sly')).toThrow(/^into .* mean "sky"\?$/);
    expect(() => mergeSwatches(flats, 'fur' as unknown as string[], 'sky')).toThrow(TypeError);
  });
});

describe('compactPalette', () => {
  it('drops the swatches without a pixel', () => {
    const compact = compactPalette(flats);
    expect(compact.palette.map(({ name }) => name)).toEqual(['bare', 'sky', 'fur', 'paw']);
    expect(named(compact)).toEqual(named(flats));
    expect(compactPalette(compact)).toEqual(compact);
  });

  it('keeps bare, the ground and what it is asked to keep', () => {
    const page = { ...flats, indices: raster(new Uint8Array([2]), [1, 1]), ground: 'eye' };
    const kept = (keep?: string[]) =>
      compactPalette(page, keep && { keep }).palette.map(({ name }) => name);
    expect(kept()).toEqual(['bare', 'fur', 'eye']);
    expect(kept(['paw'])).toEqual(['bare', 'fur', 'eye', 'paw']);
  });

  it('keeps every pixel its name, from any view', () => {
    const page = noise(300, 12, 9, 6);
    const compact = compactPalette(page);
    expect(compact.palette.length).toBeLessThan(130);
    expect(compact.indices.data).toBeInstanceOf(Uint8Array);
    expect(named(compact)).toEqual(named(page));
    for (const indices of otherViews(page.indices)) {
      expect(compactPalette({ indices, palette: page.palette })).toEqual(compact);
    }
  });

  it('refuses unknown names and options', () => {
    expect(() => compactPalette(flats, { keep: ['pow'] })).toThrow(/^keep\[0\] .* mean "paw"\?$/);
    expect(() => compactPalette(flats, { keeps: [] } as object)).toThrow(/did you mean "keep"/);
  });
});

describe('renameSwatch', () => {
  it('changes one name and nothing else', () => {
    const renamed = renameSwatch(flats, 'fur', 'brush');
    expect(renamed.palette[2]).toEqual({ name: 'brush', color: palette[2]!.color });
    expect(renamed.indices.data).toEqual(flats.indices.data);
    expect(renamed.indices.data).not.toBe(flats.indices.data);
    expect(renameSwatch(renamed, 'brush', 'fur')).toEqual(renameSwatch(flats, 'fur', 'fur'));
  });

  it('takes the ground along', () => {
    expect(renameSwatch(flats, 'sky', 'air').ground).toBe('air');
    expect(renameSwatch(flats, 'fur', 'brush').ground).toBe('sky');
  });

  it('refuses names that are unknown, taken or reserved', () => {
    const rename = (from: string, to: unknown) => () => renameSwatch(flats, from, to as string);
    expect(rename('furr', 'brush')).toThrow(/^from .* mean "fur"\?$/);
    expect(rename('fur', 'eye')).toThrow('to must be a name that no other swatch has, got "eye"');
    expect(rename('fur', 'bare')).toThrow(/^to must be a name other than the reserved "bare"/);
    expect(rename('bare', 'hole')).toThrow(/^from must be a swatch other than "bare"/);
    expect(rename('fur', '')).toThrow(/^to must be a string that is not empty/);
    expect(rename('fur', 7)).toThrow(TypeError);
  });
});
