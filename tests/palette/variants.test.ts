import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyVariants } from '../../src/palette/apply-variants.ts';
import { parseCsv } from '../../src/palette/csv.ts';
import { readVariants } from '../../src/palette/read-variants.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';

const rows = (text: string, separator = ',') =>
  parseCsv(text, separator, 'csv').map(({ fields }) => fields);

describe('parseCsv', () => {
  it('takes quotes, separators and line ends as RFC 4180 has them', () => {
    expect(rows('a,b\r\nc,d\r\n')).toEqual([
      ['a', 'b'],
      ['c', 'd'],
    ]);
    expect(rows('"a,""b""\nc",d')).toEqual([['a,"b"\nc', 'd']]);
    expect(rows('\ufeffa,,\n,\n\n"",x\n')).toEqual([
      ['a', '', ''],
      ['', ''],
      ['', 'x'],
    ]);
    expect(rows('a;b,c', ';')).toEqual([['a', 'b,c']]);
    expect(rows('a\tb\rc', '\t')).toEqual([['a', 'b'], ['c']]);
    expect(rows('')).toEqual([]);
    expect(rows('\n\r\n')).toEqual([]);
    expect(rows('a,')).toEqual([['a', '']]);
    expect(rows('""')).toEqual([['']]);
    expect(rows(' a , b')).toEqual([[' a ', ' b']]);
  });

  it('reads back what is written with every field in quotes', () => {
    const table = fc.array(fc.array(fc.string({ unit: 'binary' }), { minLength: 1 }));
    fc.assert(
      fc.property(table, fc.constantFrom('\n', '\r\n', '\r'), (fields, end) => {
        const quoted = fields.map((row) =>
          row.map((f) => `"${f.replaceAll('"', '""')}"`).join(','),
        );
        expect(rows(quoted.join(end))).toEqual(fields);
      }),
    );
  });

  it('knows the line of each row', () => {
    expect(parseCsv('a\n\n"b\r\nb"\nc', ',', 'csv').map(({ line }) => line)).toEqual([1, 3, 5]);
  });

  it('refuses quotes that do not match, naming the line', () => {
    expect(() => rows('a\n"b')).toThrow('csv has a quote on line 2 that is not closed');
    expect(() => rows('a\nb"c')).toThrow('csv has a quote inside a field on line 2');
    expect(() => rows('"a"b')).toThrow(
      'csv has text behind the closing quote of a field on line 1',
    );
  });
});

describe('readVariants', () => {
  it('reads versions and colors, an empty cell as no color', () => {
    const csv = 'name,day,"dusk, late"\r\n"scarf, left",#C86400, #804000 \r\neye,,#101010\r\n';
    expect(readVariants(csv)).toEqual({
      versions: ['day', 'dusk, late'],
      rows: [
        { swatch: 'scarf, left', colors: ['#c86400', '#804000'] },
        { swatch: 'eye', colors: [null, '#101010'] },
      ],
    });
  });

  it('reads other separators and Unicode names', () => {
    const table = readVariants('farve;nat\nhår 🦊;#102030\n', { separator: ';' });
    expect(table.rows).toEqual([{ swatch: 'hår 🦊', colors: ['#102030'] }]);
  });

  it('refuses what is no table, naming the line', () => {
    const read = (csv: unknown) => () => readVariants(csv as string);
    expect(read('')).toThrow(/^csv must start with a heading .*, got no row$/);
    expect(read('a;b\nc;#000000')).toThrow(/between ",", got one field: "a;b"$/);
    expect(read('a,b\nc')).toThrow('csv must have 2 fields in each row, got 1 on line 2');
    expect(read('a,b\n\nc,red')).toThrow(
      'the color of "c" in "b" (csv line 3) must be a color \'#rrggbb\', got "red"',
    );
    expect(read('a,b\nc,#000000\nc,#000000')).toThrow(/each swatch once, got "c" again on line 3/);
    expect(read('a,b,b\n')).toThrow(/each version once, got "b" again on line 1/);
    expect(read('a,b\n,#000000')).toThrow(/must name each swatch, got none on line 2/);
    expect(read('a,b\nbare,#000000')).toThrow(/must not color the reserved "bare"/);
    expect(read(new Uint8Array(3))).toThrow(TypeError);
    expect(() => readVariants('a,b', { separator: '|' as ',' })).toThrow(RangeError);
  });
});

function sheet(...names: string[]): Flats {
  const palette = ['bare', ...names].map((name) => ({ name, color: '#808080' }));
  return { indices: raster(new Uint8Array([1, 0]), [2, 1]), palette };
}

describe('applyVariants', () => {
  const front = { name: 'front', flats: { ...sheet('scarf', 'shell'), ground: 'scarf' } };
  const back = { name: 'back', flats: sheet('scarf') };
  const table = readVariants('x,day,night\nscarf,#c86400,#402060\nshell,,#304050\n');

  it('gives each sheet in each version, over the same indices', () => {
    const made = applyVariants([front, back], table);
    expect(
      made.map(({ name, version, flats }) => [name, version, ...flats.palette.map((s) => s.color)]),
    ).toEqual([
      ['front', 'day', '#808080', '#c86400', '#808080'],
      ['front', 'night', '#808080', '#402060', '#304050'],
      ['back', 'day', '#808080', '#c86400'],
      ['back', 'night', '#808080', '#402060'],
    ]);
    expect(made.every(({ flats }, i) => flats.indices === [front, back][i >> 1]!.flats.indices));
    expect(made[1]!.flats.indices).toBe(front.flats.indices);
    expect(made[0]!.flats.ground).toBe('scarf');
  });

  it('makes the versions that are asked for', () => {
    const made = applyVariants([back], readVariants('x,a,b\nscarf,#000001,#000002'), {
      versions: ['b'],
    });
    expect(made.map(({ version }) => version)).toEqual(['b']);
    expect(() => applyVariants([front], table, { versions: ['nigth'] })).toThrow(
      'versions[0] must be a version of the table, got "nigth"; did you mean "night"?',
    );
  });

  it('lists names that are unknown, with the near ones', () => {
    const mistyped = readVariants('x,day\nscafr,#000000\nzebra,#000000\nshell,#000000');
    expect(() => applyVariants([front], mistyped)).toThrow(
      new RangeError(
        'table must name the swatches of the sheets, but no sheet has "scafr" (did you mean "scarf"?), "zebra", and the table has no row for "scarf" (did you mean "scafr"?)',
      ),
    );
    expect(() => applyVariants([front], mistyped, { missing: 'keep' })).toThrow(
      /sheet has "scafr"/,
    );
    expect(() => applyVariants([front, { name: 'b', flats: sheet('paw') }], table)).toThrow(
      /but the table has no row for "paw"$/,
    );
    const asked = readVariants('x,day\nscar?,#000000\nshell,#000000\nscarf,#000000');
    expect(() => applyVariants([front], asked)).toThrow(
      'no sheet has "scar?" (did you mean "scarf"?)',
    );
    const many = sheet('scarf', 'shell', ...Array.from({ length: 30 }, (_, i) => `swatch ${i}`));
    expect(() => applyVariants([{ name: 'm', flats: many }], table)).toThrow(/ and 20 more$/);
  });

  it('leaves swatches without a row as they are where it may', () => {
    const more = { name: 'more', flats: sheet('scarf', 'shell', 'paw') };
    const [day] = applyVariants([more], table, { missing: 'keep' });
    expect(day!.flats.palette[3]).toEqual({ name: 'paw', color: '#808080' });
  });

  it('passes over rows of no sheet where it may', () => {
    const whole = readVariants('x,day\nshell,#102030\nbadge,#000000\nscarf,#405060');
    expect(() => applyVariants([front], whole)).toThrow(/but no sheet has "badge"$/);
    const [day] = applyVariants([front], whole, { extra: 'ignore' });
    expect(day!.flats.palette.slice(1).map(({ color }) => color)).toEqual(
      front.flats.palette.slice(1).map(({ name }) => (name === 'scarf' ? '#405060' : '#102030')),
    );
    expect(() => applyVariants([front], whole, { extra: 'skip' as never })).toThrow(
      /^extra must be/,
    );
  });

  it('takes any name for a name', () => {
    const odd = ['__proto__', 'constructor', '1'];
    const csv = `x,v\n${odd.map((name) => `${name},#010203`).join('\n')}`;
    const [made] = applyVariants([{ name: 's', flats: sheet(...odd) }], readVariants(csv));
    expect(made!.flats.palette.slice(1).map(({ color }) => color)).toEqual(
      Array(3).fill('#010203'),
    );
  });

  it('refuses sheets and tables that are none', () => {
    const apply = (sheets: unknown, t: unknown) => () =>
      applyVariants(sheets as [], t as typeof table);
    expect(apply('front', table)).toThrow(TypeError);
    expect(apply([front, front], table)).toThrow(/sheets\[1\]\.name must be unique/);
    for (const none of [null, undefined, 3, 'table', {}, { versions: ['a'] }, { rows: [] }]) {
      expect(apply([front], none)).toThrow(/^table must be a variant table \{ versions, rows \}/);
    }
    expect(apply([front], { versions: ['a'], rows: [{ swatch: 'scarf', colors: [] }] })).toThrow(
      /table\.rows\[0\]\.colors/,
    );
    const red = { versions: ['a'], rows: [{ swatch: 'scarf', colors: ['red'] }] };
    expect(apply([front], red)).toThrow(/table\.rows\[0\]\.colors\[0\]/);
  });
});
