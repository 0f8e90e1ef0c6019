import { describe, expect, it } from 'vitest';
import { checkFlats, checkSheets, type SheetException } from '../../src/checks/index.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import { mask } from '../support/grids.ts';

const sheet = (grid: string, colors: Record<string, string>): Flats => ({
  indices: mask(grid),
  palette: [
    { name: 'bare', color: '#000000' },
    ...Object.entries(colors).map(([name, color]) => ({ name, color })),
  ],
});

const BLOCK = `
  1 1 1 1
  1 1 1 1
  1 1 1 1
  2 2 2 2
  2 2 2 2
  2 2 2 2
`;

describe('checkSheets', () => {
  it('checks each sheet as checkFlats does', () => {
    const one = sheet('1 . 2', { sky: '#a0c8f0', fur: '#8a5d42' });
    const two = sheet('1 2 2', { sky: '#a0c8f0', fur: '#8a5d42' });
    const ink = mask('. . .');
    const found = checkSheets([
      { name: 'one', flats: one },
      { name: 'two', flats: two, ink },
    ]);
    expect(found).toEqual([
      ...checkFlats(one).map((finding) => ({ sheet: 'one', ...finding })),
      ...checkFlats(two, { ink }).map((finding) => ({ sheet: 'two', ...finding })),
    ]);
  });

  it('finds a swatch whose color departs from the first sheet that has it', () => {
    const found = checkSheets([
      { name: 'one', flats: sheet(BLOCK, { sky: '#a0c8f0', fur: '#8A5D42' }) },
      { name: 'two', flats: sheet(BLOCK, { fur: '#8a5d42', eye: '#101010' }) },
      { name: 'three', flats: sheet(BLOCK, { eye: '#101011', fur: '#8a5d43', sky: '#000000' }) },
    ]);
    expect(found.map((f) => `${f.sheet}: ${f.check} ${f.message} ${f.area}`)).toEqual([
      'three: colors "eye" is #101011, on "two" #101010 12',
      'three: colors "fur" is #8a5d43, on "one" #8a5d42 12',
      'three: colors "sky" is #000000, on "one" #a0c8f0 0',
    ]);
    expect(found[1]).toMatchObject({ bounds: [0, 3, 4, 6], at: [0.5, 3.5], swatches: ['fur'] });
    expect(found[2]).toMatchObject({ bounds: [0, 0, 4, 6], at: [0.5, 0.5] });
  });

  it('leaves exceptions out, of colors too', () => {
    const sheets = ['#8a5d42', '#8a5d43'].map((fur, i) => ({
      name: `${i}`,
      flats: sheet(BLOCK, { sky: '#a0c8f0', fur }),
    }));
    expect(checkSheets(sheets)).toHaveLength(1);
    const left = (...exceptions: SheetException[]) =>
      checkSheets(sheets, { exceptions }).map((f) => `${f.sheet}: ${f.check}: ${f.message}`);
    expect(left({ check: 'colors', swatch: 'fur' })).toEqual([]);
    expect(left({ check: 'colors', swatch: 'fur', sheet: '1' })).toEqual([]);
    const differs = '1: colors: "fur" is #8a5d43, on "0" #8a5d42';
    expect(left({ check: 'colors', swatch: 'sky' })).toEqual([
      '0: stale exception: no finding of "colors" of "sky" any more',
      differs,
    ]);
    expect(left({ check: 'colors', swatch: 'fur', sheet: '0' })).toEqual([
      '0: stale exception: no finding of "colors" of "fur" any more',
      differs,
    ]);
    expect(left({ check: 'halo' })).toEqual([differs]);
    expect(() => left({ check: 'colors', sheet: '3' })).toThrow(/^exceptions\[0\].sheet must be/);
  });

  it('reads pictures, against one palette', () => {
    const picture = raster(new Uint8Array([1, 1, 1, 9, 9, 9]), [2, 1, 3]);
    const palette = [{ name: 'eye', color: '#010101' }];
    const found = checkSheets([{ name: 'one', flats: picture }], { palette, checks: ['off'] });
    expect(found.map(({ message }) => message)).toEqual(['1 pixel off the palette at [1, 0]']);
  });

  it('names the place of what is wrong', () => {
    const good = { name: 'one', flats: sheet('1', { sky: '#a0c8f0' }) };
    const bad = (sheets: unknown, options?: object) => () => checkSheets(sheets as [], options);
    expect(bad([good, { ...good, name: 'two', flats: sheet('2', { sky: '#a0c8f0' }) }])).toThrow(
      /^sheets\[1\]\.flats\.indices must be below the 2 swatches/,
    );
    expect(bad([good, { ...good, name: 'two', ink: mask('. .') }])).toThrow(
      new RangeError('sheets[1].ink must have the size of sheets[1].flats, 1 × 1, got 2 × 1'),
    );
    expect(bad([good], { checks: ['seams'] })).toThrow(
      new RangeError('sheets[0].ink must be given for the check "seams", got undefined'),
    );
    expect(bad([good, good])).toThrow(
      new RangeError('sheets[1].name must be unique among the sheets, got "one"'),
    );
    expect(bad([{ flats: good.flats }])).toThrow(TypeError);
    expect(bad([{ ...good, inks: 1 }])).toThrow(/did you mean "ink"\?/);
    expect(bad(good)).toThrow(TypeError);
    expect(bad([good], { ink: mask('.') })).toThrow(/^checkSheets has no option "ink"/);
    expect(checkSheets([])).toEqual([]);
  });
});
