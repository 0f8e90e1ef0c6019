import { describe, expect, it } from 'vitest';
import {
  checkCallback,
  checkList,
  checkNumber,
  checkOneOf,
  checkOptions,
  checkPoint,
  checkRecord,
  checkSize,
} from '../../src/raster/checks.ts';
import { didYouMean, describe as inWords } from '../../src/raster/errors.ts';

describe('didYouMean', () => {
  const names = ['maxGap', 'caution', 'apart', 'together', 'method'];

  it.each([
    ['maxgap', 'maxGap'],
    ['MAXGAP', 'maxGap'],
    ['max_gap', 'maxGap'],
    ['cautoin', 'caution'],
    ['aprt', 'apart'],
    ['togeter', 'together'],
    ['methods', 'method'],
  ])('of %s suggests %s', (word, near) => {
    expect(didYouMean(word, names)).toBe(`; did you mean "${near}"?`);
  });

  it('suggests nothing where nothing is near', () => {
    expect(didYouMean('palette', names)).toBe('');
    expect(didYouMean('gap', names)).toBe('');
    expect(didYouMean('', names)).toBe('');
    expect(didYouMean('maxGap', [])).toBe('');
  });

  it('takes the nearest, of equally near ones the earlier', () => {
    expect(didYouMean('skim', ['skin', 'skip', 'skid'])).toBe('; did you mean "skin"?');
    expect(didYouMean('skip', ['skin', 'skip'])).toBe('; did you mean "skip"?');
  });
});

describe('a long name', () => {
  it('is answered without near ones, and is not spelled out', () => {
    const word = 'x'.repeat(16_000);
    expect(didYouMean(word, [`${word}y`, word])).toBe('');
    expect(didYouMean('x'.repeat(64), ['x'.repeat(63)])).toMatch(/^; did you mean/);
    const options = { [word]: 1 } as { level?: number };
    expect(() => checkOptions(options, 'thresholdInk', ['level'])).toThrow(/x{40}…".{0,40}$/);
  });
});

describe('checkNumber', () => {
  it('gives back what is allowed', () => {
    expect(checkNumber(0, 'n')).toBe(0);
    expect(checkNumber(2.5, 'n', { max: 2.5 })).toBe(2.5);
    expect(checkNumber(-3, 'n', { min: -3 })).toBe(-3);
    expect(checkNumber(7, 'n', { integer: true })).toBe(7);
  });

  it.each<[unknown, Parameters<typeof checkNumber>[2], Error]>([
    [-3, { unit: 'pixels' }, new RangeError('n must be a finite number of pixels >= 0, got -3')],
    [Number.NaN, {}, new RangeError('n must be a finite number >= 0, got NaN')],
    [Number.POSITIVE_INFINITY, {}, new RangeError('n must be a finite number >= 0, got Infinity')],
    [1.5, { max: 1 }, new RangeError('n must be a finite number from 0 to 1, got 1.5')],
    [0.5, { integer: true, min: 1 }, new RangeError('n must be a whole number >= 1, got 0.5')],
    [
      9,
      { integer: true, min: 1, max: 8, unit: 'bits' },
      new RangeError('n must be a whole number of bits from 1 to 8, got 9'),
    ],
    ['3', {}, new TypeError('n must be a finite number >= 0, got "3"')],
    [undefined, {}, new TypeError('n must be a finite number >= 0, got undefined')],
    [null, {}, new TypeError('n must be a finite number >= 0, got null')],
    [3n, {}, new TypeError('n must be a finite number >= 0, got 3')],
  ])('refuses %s with %j', (value, rule, error) => {
    expect(() => checkNumber(value, 'n', rule)).toThrow(error);
  });
});

describe('checkOneOf', () => {
  it('gives back what is allowed', () => {
    expect(checkOneOf(8, 'connectivity', [4, 8])).toBe(8);
    expect(checkOneOf('otsu', 'method', ['otsu', 'fixed'])).toBe('otsu');
  });

  it('refuses the rest, suggesting the near word', () => {
    expect(() => checkOneOf(6, 'connectivity', [4, 8])).toThrow(
      new RangeError('connectivity must be one of 4, 8, got 6'),
    );
    expect(() => checkOneOf('8', 'connectivity', [4, 8])).toThrow(
      new TypeError('connectivity must be one of 4, 8, got "8"'),
    );
    expect(() => checkOneOf('Fixed', 'method', ['otsu', 'fixed'])).toThrow(
      new RangeError('method must be one of "otsu", "fixed", got "Fixed"; did you mean "fixed"?'),
    );
    expect(() => checkOneOf('blue', 'method', ['otsu', 'fixed'])).toThrow(
      new RangeError('method must be one of "otsu", "fixed", got "blue"'),
    );
    expect(() => checkOneOf(undefined, 'method', ['otsu', 'fixed'])).toThrow(
      new TypeError('method must be one of "otsu", "fixed", got undefined'),
    );
  });
});

describe('checkOptions', () => {
  const check = (options: object | undefined) =>
    checkOptions<{ level?: number; method?: string }>(options, 'thresholdInk', ['level', 'method']);

  it('takes undefined as no options, and gives back an object as it is', () => {
    const options = { level: 3 };
    expect(check(undefined)).toEqual({});
    expect(check(options)).toBe(options);
  });

  it('names an unknown option, the near one and all there are', () => {
    expect(() => check({ lvel: 3 })).toThrow(
      new TypeError(
        'thresholdInk has no option "lvel"; did you mean "level"? It takes: level, method',
      ),
    );
    expect(() => check({ xyzzy: 3 })).toThrow(/^thresholdInk has no option "xyzzy"[.;:]/);
    expect(() => check({ xyzzy: 3 })).not.toThrow(/did you mean/);
  });

  it.each<[unknown, string]>([
    [null, 'null'],
    [5, '5'],
    ['fixed', '"fixed"'],
    [[], '[]'],
    [() => 1, 'a function'],
  ])('refuses %j', (options, text) => {
    expect(() => check(options as object)).toThrow(
      new TypeError(`options of thresholdInk must be an object, got ${text}`),
    );
  });
});

describe('checkCallback and checkPoint', () => {
  it('give back what is allowed', () => {
    const call = () => 1;
    expect(checkCallback(call, 'onProgress')).toBe(call);
    expect(checkCallback(undefined, 'onProgress')).toBeUndefined();
    expect(checkPoint([1.5, -2], 'point')).toEqual([1.5, -2]);
  });

  it('refuse the rest', () => {
    expect(() => checkCallback('log' as never, 'onProgress')).toThrow(
      new TypeError('onProgress must be a function, got "log"'),
    );
    for (const [value, text] of [
      [[1], '[1]'],
      [[1, 2, 3], '[1, 2, 3]'],
      [['1', 2], 'an array of 2'],
      [{ x: 1, y: 2 }, 'an object { x, y }'],
    ]) {
      expect(() => checkPoint(value, 'marks[0].point')).toThrow(
        new TypeError(`marks[0].point must be a point [x, y], got ${text}`),
      );
    }
    expect(() => checkPoint([1, Number.NaN], 'point')).toThrow(
      new RangeError('point must be a point of finite numbers, got [1, NaN]'),
    );
  });
});

describe('a value in an error', () => {
  it.each<[unknown, string]>([
    ['#fff', '"#fff"'],
    ['x'.repeat(50), `"${'x'.repeat(40)}…"`],
    [[], '[]'],
    [[1, 2, 3, 4, 5, 6], '[1, 2, 3, 4, 5, 6]'],
    [[1, 2, 3, 4, 5, 6, 7], 'an array of 7'],
    [['a'], 'an array of 1'],
    [new Int16Array(3), 'Int16Array(3)'],
    [new DataView(new ArrayBuffer(1)), 'DataView'],
    [new Map(), 'a Map'],
    [{ a: 1, b: 2, c: 3, d: 4, e: 5, f: 6 }, 'an object { a, b, c, d, e }'],
    [Object.assign(Object.create(null), { a: 1 }), 'an object { a }'],
    [Symbol('s'), 'Symbol(s)'],
    [true, 'true'],
  ])('is short: %#', (value, text) => {
    expect(inWords(value)).toBe(text);
  });
});

describe('checkRecord, checkList and checkSize', () => {
  it('take objects, whatever made them', () => {
    for (const value of [{ a: 1 }, Object.create(null)]) {
      expect(checkRecord(value, 'colors', 'an object')).toBe(value);
    }
  });

  it.each<[unknown, string]>([
    [new Map(), 'a Map; Object.fromEntries(map) makes an object of it'],
    [new Set(), 'a Set'],
    [[], '[]'],
    [null, 'null'],
    [new Uint8Array(2), 'Uint8Array(2)'],
    ['shell', '"shell"'],
  ])('refuse what is read by no keys: %o', (value, got) => {
    const error = new TypeError(`colors must be an object, got ${got}`);
    expect(() => checkRecord(value as object, 'colors', 'an object')).toThrow(error);
    expect(() => checkOptions(value as object, 'recolor', [])).toThrow(TypeError);
  });

  it('show holes of a list as undefined', () => {
    // biome-ignore lint/suspicious/noSparseArray: it is what is looked at
    expect(checkList([1, , 3], 'ids', 'a list')).toEqual([1, undefined, 3]);
    expect(() => checkList('ab' as never, 'ids', 'a list')).toThrow('ids must be a list, got "ab"');
  });

  it('bound the pixels of a size', () => {
    expect(checkSize([65_536, 32_767], 'size')).toEqual([65_536, 32_767]);
    const error = new RangeError('size must have at most 2147483647 pixels, got 65536 × 32768');
    expect(() => checkSize([65_536, 32_768], 'size')).toThrow(error);
  });
});
