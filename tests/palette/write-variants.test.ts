import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readVariants, type VariantTable } from '../../src/palette/read-variants.ts';
import { writeVariants } from '../../src/palette/write-variants.ts';
import { HOSTILE_NAMES, hostileFlats } from '../support/hostile-names.ts';

const table: VariantTable = {
  versions: ['day', 'late, dusk'],
  rows: [
    { swatch: 'scarf "left"', colors: ['#c86400', null] },
    { swatch: '=SUM(A1)', colors: [null, '#402060'] },
  ],
};

describe('writeVariants', () => {
  it('writes what readVariants reads', () => {
    const csv = writeVariants(table);
    expect(csv).toBe(
      'swatch,day,"late, dusk"\r\n"scarf ""left""",#c86400,\r\n\'=SUM(A1),,#402060\r\n',
    );
    for (const separator of [',', ';', '\t'] as const) {
      expect(readVariants(writeVariants(table, { separator }), { separator })).toEqual(table);
    }
  });

  it('writes a palette as one version, without bare', () => {
    const palette = [
      { name: 'bare', color: '#000000' },
      { name: 'fur', color: '#8A5D42' },
    ];
    expect(writeVariants(palette)).toBe('swatch,color\r\nfur,#8a5d42\r\n');
    expect(writeVariants(palette.slice(1), { version: 'night' })).toMatch(/^swatch,night\r\n/);
  });

  it('keeps every name, and starts no cell as a formula', () => {
    const { palette } = hostileFlats();
    const csv = writeVariants(palette);
    expect(readVariants(csv).rows.map(({ swatch }) => swatch)).toEqual(HOSTILE_NAMES);
    // What spreadsheets run (OWASP, CSV Injection), at the start of a row, quoted or not.
    expect(csv).not.toMatch(/^"?\s*[=+\-@\t＝＋－＠]/m);
    const names = fc.uniqueArray(
      fc.string({ unit: fc.constantFrom(...'\'=+-@,;\t"\r\n ax'), minLength: 1 }),
      { maxLength: 9 },
    );
    fc.assert(
      fc.property(names, fc.constantFrom(',', ';', '\t'), (own, separator) => {
        const rows = own.map((swatch) => ({ swatch, colors: ['#000000'] }));
        const written = writeVariants({ versions: ['v'], rows }, { separator: separator as ',' });
        expect(readVariants(written, { separator: separator as ',' }).rows).toEqual(rows);
      }),
    );
  });

  it.skipIf(!existsSync('/usr/bin/python3'))(
    'writes CSV that Python’s csv module reads the same',
    () => {
      const script =
        'import csv,io,json,sys; print(json.dumps(list(csv.reader(io.StringIO(sys.stdin.buffer.read().decode("utf-8"), newline="")))))';
      const input = writeVariants({
        versions: ['v'],
        rows: HOSTILE_NAMES.filter((name) => !/\p{Surrogate}/u.test(name)).map((swatch) => ({
          swatch,
          colors: ['#000000'],
        })),
      });
      const rows: string[][] = JSON.parse(
        execFileSync('/usr/bin/python3', ['-c', script], { input, encoding: 'utf8' }),
      );
      const well = HOSTILE_NAMES.filter((name) => !/\p{Surrogate}/u.test(name));
      expect(rows.slice(1).map(([name]) => name!.replace(/^'(?=[=+\-@])/, ''))).toEqual(well);
    },
  );

  it('refuses what is no table', () => {
    const write = (value: unknown, options?: object) => () =>
      writeVariants(value as VariantTable, options);
    expect(write('a,b')).toThrow(/table must be a variant table/);
    expect(write([{ name: 'fur', color: 'red' }])).toThrow(/table\[0\].color must be a color/);
    expect(write({ versions: ['a', 'a'], rows: [] })).toThrow(
      'table.versions[1] must be a name not listed yet, got "a"',
    );
    expect(write({ versions: [''], rows: [] })).toThrow(RangeError);
    expect(write({ versions: ['a'], rows: [{ swatch: '', colors: ['#000000'] }] })).toThrow(
      RangeError,
    );
    expect(write(table, { separator: '|' })).toThrow(RangeError);
    expect(write(table, { sep: ',' })).toThrow(/no option "sep"/);
  });
});
