import { describe, expect, it } from 'vitest';
import { checkExceptions } from '../../src/palette/exceptions.ts';
import { freeName } from '../../src/palette/free-name.ts';
import { checkSheetNames } from '../../src/palette/sheets.ts';
import { guardCell, unguardCell } from '../../src/palette/spreadsheet-cells.ts';

describe('checkExceptions', () => {
  const check = (value: unknown, extra: readonly 'sheet'[] = []) =>
    checkExceptions<{ check: string; sheet?: string }>(value, 'exceptions', extra);

  it('copies what it takes', () => {
    const at: [number, number] = [3.5, 2];
    const bounds: [number, number, number, number] = [0, 1, 5, 6.5];
    const given = [
      { check: 'bare', at, bounds, swatch: 'fur', note: 'the eye' },
      { check: 'halo' },
    ];
    const taken = checkExceptions(given, 'exceptions');
    expect(taken).toEqual(given);
    at[0] = 99;
    bounds[3] = 99;
    expect(taken[0]).toEqual({
      check: 'bare',
      at: [3.5, 2],
      bounds: [0, 1, 5, 6.5],
      swatch: 'fur',
      note: 'the eye',
    });
    expect(Object.keys(taken[1]!)).toEqual(['check']);
    expect(check([{ check: 'bare', sheet: 'otter' }], ['sheet'])).toEqual([
      { check: 'bare', sheet: 'otter' },
    ]);
  });

  it.each<[unknown, Error]>([
    ['bare', new TypeError('exceptions must be an array of exceptions, got "bare"')],
    [[null], new TypeError('exceptions[0] must be an exception { check }, got null')],
    [['bare'], new TypeError('exceptions[0] must be an exception { check }, got "bare"')],
    [[{}], new TypeError('exceptions[0].check must be the name of a check, got undefined')],
    [
      [{ check: 'bare' }, { check: 'bare', swatch: 3 }],
      new TypeError('exceptions[1].swatch must be the name of a swatch, got 3'),
    ],
    [[{ check: 'bare', note: 3 }], new TypeError('exceptions[0].note must be a string, got 3')],
    [
      [{ check: 'bare', bounds: 3 }],
      new TypeError('exceptions[0].bounds must be four numbers [x0, y0, x1, y1], got 3'),
    ],
    [
      [{ check: 'bare', bounds: [1, 2, 3] }],
      new RangeError('exceptions[0].bounds must be four numbers [x0, y0, x1, y1], got [1, 2, 3]'),
    ],
    [
      [{ check: 'bare', bounds: [1, 2, 3, Number.NaN] }],
      new RangeError(
        'exceptions[0].bounds must be four numbers [x0, y0, x1, y1], got [1, 2, 3, NaN]',
      ),
    ],
  ])('refuses %j', (value, error) => {
    expect(() => check(value)).toThrow(error);
  });

  it('refuses a wrong point and an unknown field', () => {
    expect(() => check([{ check: 'bare', at: [1] }])).toThrow(/^exceptions\[0\]\.at must be /);
    expect(() => check([{ check: 'bare', sheet: 'otter' }])).toThrow(/^exceptions\[0\] has no /);
  });
});

describe('checkSheetNames', () => {
  it('takes names that differ, and refuses the rest', () => {
    const flats = {} as never;
    const check = (...names: unknown[]) =>
      checkSheetNames(names.map((name) => ({ name, flats })) as never, 'sheets');
    expect(check('otter', 'heron', '')).toBeUndefined();
    expect(check()).toBeUndefined();
    expect(() => check('otter', 'heron', 'otter')).toThrow(
      new RangeError('sheets[2].name must be unique among the sheets, got "otter"'),
    );
    expect(() => check('otter', 7)).toThrow(TypeError);
    expect(() => checkSheetNames('otter' as never, 'sheets')).toThrow(TypeError);
    expect(() => checkSheetNames([null] as never, 'sheets')).toThrow(TypeError);
    expect(() => checkSheetNames([{ name: 'a', flats, flat: 1 }] as never, 'sheets')).toThrow(
      /^sheets\[0\] has no /,
    );
  });
});

describe('freeName', () => {
  it('numbers from 2 until nothing goes by the name', () => {
    expect(freeName('fur', new Set(['shell']))).toBe('fur');
    expect(freeName('fur', new Set(['fur']))).toBe('fur (2)');
    expect(freeName('fur', new Set(['fur', 'fur (2)', 'fur (4)']))).toBe('fur (3)');
  });
});

describe('guardCell', () => {
  it('leads with a quote what a spreadsheet would run, and is undone', () => {
    const run = ['=1', '+1', '-1', '@a', '\tx', '\rx', '\nx', '＝1', '＋1', '－1', '＠a', '  =1'];
    for (const cell of [...run, "'=1", "''=1", "' =1"]) {
      expect(guardCell(cell)).toBe(`'${cell}`);
      expect(unguardCell(guardCell(cell))).toBe(cell);
    }
    for (const cell of ['', 'fur', "it's", "'fur'", 'a=1', '1-2', ' fur', '# 3']) {
      expect(guardCell(cell)).toBe(cell);
      expect(unguardCell(cell)).toBe(cell);
    }
  });
});
