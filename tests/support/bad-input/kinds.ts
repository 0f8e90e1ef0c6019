/** What may be wrong with an argument of a kind. `name` is what messages call the argument. */
import type { RasterData } from '../../../src/raster/types.ts';
import { type Bad, type BadArgument, kind, ofKind, type Path, range } from './case.ts';

/** The size of all sound rasters: not square, so that swapped sides show. */
export const W: number = 6;
export const H: number = 5;
const SIZE = W * H;

type ArrayKind = { new (length: number): RasterData; readonly name: string };

/** Memory that was given away, as `postMessage` leaves it. */
export function detached<A extends RasterData>(data: A): A {
  structuredClone(data.buffer, { transfer: [data.buffer as ArrayBuffer] });
  return data;
}

const view =
  (data: unknown, over: object = {}) =>
  () => ({
    data,
    shape: [W, H],
    stride: [1, W],
    offset: 0,
    ...over,
  });

interface RasterRule {
  readonly noun: string;
  readonly takes: ArrayKind;
  readonly wrong: ArrayKind;
  readonly channels: number;
  /** Whether it may be left out. */
  readonly optional: boolean;
}

function rasterBad(name: string, { noun, takes, wrong, channels, optional }: RasterRule): Bad[] {
  const must = `${name} must be ${noun}`;
  const data = () => new takes(SIZE * (channels + 1));
  const side = (value: unknown) => view(data(), { shape: [value, H] });
  const inside = `${name} must lie inside its data of`;
  return ofKind(noun, name, [
    ...(optional ? [] : [kind('nothing', () => undefined, must)]),
    kind('null', () => null, must),
    kind('a number', () => 7, must),
    kind('a text', () => 'heron.png', must, /readPng\(bytes\)\.pixels/),
    kind('samples without sides', () => new takes(SIZE), must, /raster\(data, \[width, height\]\)/),
    kind('an object without data', () => ({ width: W, height: H }), must),
    kind('a list of rows', () => [[0, 1]], must),
    kind('samples of another type', view(new wrong(SIZE)), must, new RegExp(wrong.name)),
    kind('numbers in a plain list', view(new Array(SIZE).fill(0)), must),
    kind('a DataView', view(new DataView(new ArrayBuffer(SIZE))), must),
    range('one axis', view(data(), { shape: [W], stride: [1] }), must, /got shape \[6\]/),
    range('four axes', view(data(), { shape: [W, H, 1, 1], stride: [1, W, 1, 1] }), must),
    range(
      'too many channels',
      view(data(), { shape: [W, H, channels + 1], stride: [1, W, SIZE] }),
      must,
      /got \d channels/,
    ),
    range('no columns', side(0), `${name}.shape[0] must be a whole number >= 1`, /got 0/),
    range('a negative side', side(-6), `${name}.shape[0] must be a whole number >= 1`, /got -6/),
    range('a side of NaN', side(Number.NaN), `${name}.shape[0] must be a whole number >= 1`),
    range('an infinite side', side(1 / 0), `${name}.shape[0] must be a whole number >= 1`),
    range('half a column', side(5.5), `${name}.shape[0] must be a whole number >= 1`, /got 5.5/),
    kind('a side as text', side('6'), `${name}.shape[0] must be a whole number >= 1`, /got "6"/),
    range(
      'more pixels than can be counted',
      view(data(), { shape: [65_536, 65_536], stride: [0, 0] }),
      `${name} must have at most 2147483647 pixels`,
      /65536 × 65536/,
    ),
    range('no samples', view(new takes(0)), `${inside} 0 samples`),
    range('too few samples', view(new takes(SIZE - 1)), `${inside} 29 samples`),
    range('a detached buffer', () => view(detached(new takes(SIZE)))(), `${inside} 0 samples`),
    range('an offset before the data', view(data(), { offset: -1 }), inside, /indices -1 to/),
    range('a stride beyond the data', view(data(), { stride: [1, 999] }), inside),
    range(
      'an offset of NaN',
      view(data(), { offset: Number.NaN }),
      `${name}.stride and offset must`,
    ),
    range('half a stride', view(data(), { stride: [0.5, W] }), `${name}.stride and offset must`),
    range(
      'sides that do not fit the data',
      () => ({ data: new takes(7), width: W, height: H, channels: 1 }),
      `${name}.data must be 30 samples (6 × 5 × 1)`,
      /\(7\)/,
    ),
  ]);
}

const BYTES = { takes: Uint8Array, channels: 1 } as const;

export function maskBad(name: string, optional = false): Bad[] {
  const noun = 'a Uint8 mask of shape [width, height]';
  return [
    ...rasterBad(name, { ...BYTES, noun, wrong: Uint16Array, optional }),
    range(
      'values of 0 and 255',
      view(new Uint8Array(SIZE).fill(255)),
      `${name} must hold 0 or 1`,
      /got 255 at \[0, 0\]; .*divide it by 255/,
    ),
    range(
      'a coverage',
      view(new Uint8Array(SIZE).fill(17)),
      `${name} must hold 0 or 1`,
      /got 17 at \[0, 0\]; .*thresholdInk/,
    ),
  ];
}

export function coverageBad(name: string, optional = false): Bad[] {
  const noun = 'a Uint8 coverage of shape [width, height]';
  return rasterBad(name, { ...BYTES, noun, wrong: Float32Array, optional });
}

export function labelsBad(name: string): Bad[] {
  const noun = 'an Int32 label raster of shape [width, height]';
  return [
    ...rasterBad(name, {
      noun,
      takes: Int32Array,
      wrong: Uint32Array,
      channels: 1,
      optional: false,
    }),
    range(
      'a negative id',
      view(new Int32Array(SIZE).fill(-3, 8, 9)),
      `${name} must hold ids >= 0`,
      /got -3 at \[2, 1\]/,
    ),
  ];
}

export function pixelsBad(name: string, optional = false): Bad[] {
  const noun =
    'Uint8, Uint8Clamped or Uint16 pixels of shape [width, height] or [width, height, 1 to 4]';
  return rasterBad(name, { noun, takes: Uint8Array, wrong: Float64Array, channels: 4, optional });
}

export function anyRasterBad(name: string): Bad[] {
  const noun = 'a raster of numbers of shape [width, height] or [width, height, 1 to 4]';
  const wrong = BigInt64Array as unknown as ArrayKind;
  return rasterBad(name, { noun, takes: Uint8Array, wrong, channels: 4, optional: false });
}

/** A raster that must have the sides of another. */
export function otherSize(name: string, takes: ArrayKind, fellow: string): Bad {
  return range(
    `another size than ${fellow}`,
    () => ({ data: new takes(SIZE), width: H, height: W }),
    `${name} must have the size of ${fellow}, 6 × 5`,
    /got 5 × 6/,
  );
}

/** An `out` that a call writes its result into; `shares` makes one on memory of an input. */
export function outBad(takes: ArrayKind, wrong: ArrayKind, name = 'out'): Bad[] {
  const must = `${name} must be a raster over a ${takes.name}`;
  return ofKind(`a raster over a ${takes.name} to write into`, name, [
    kind('null', () => null, must),
    kind('a text', () => 'out', must),
    kind('samples of another type', view(new wrong(SIZE)), must),
    kind('samples without sides', () => new takes(SIZE), must),
    range(
      'another shape',
      view(new takes(SIZE), { shape: [H, W], stride: [1, H] }),
      `${name} must be a raster of shape [6, 5]`,
    ),
    range(
      'a third axis',
      view(new takes(SIZE), { shape: [W, H, 1], stride: [1, W, 1] }),
      `${name} must be a raster of shape [6, 5]`,
    ),
    range(
      'columns first',
      view(new takes(SIZE), { stride: [H, 1] }),
      `${name} must be dense and row-major`,
    ),
    range(
      'half an offset',
      view(new takes(SIZE + 6), { offset: 0.5 }),
      `${name} must be dense and row-major`,
    ),
    range(
      'a detached buffer',
      () => view(detached(new takes(SIZE)))(),
      `${name} must be dense and row-major`,
    ),
  ]);
}

interface NumberRule {
  readonly min?: number;
  readonly max?: number;
  readonly integer?: boolean;
  readonly unit?: string;
  readonly optional?: boolean;
}

export function numberBad(name: string, rule: NumberRule = {}): Bad[] {
  const { min = 0, max, integer = false, unit, optional = true } = rule;
  const noun = `${integer ? 'a whole number' : 'a finite number'}${unit ? ` of ${unit}` : ''}`;
  const must = `${name} must be ${noun} ${max === undefined ? `>= ${min}` : `from ${min} to ${max}`}`;
  return [
    ...(optional ? [] : [kind('nothing', () => undefined, must)]),
    kind('null', () => null, must),
    kind('a text', () => '3', must, /got "3"/),
    kind('a list', () => [3], must, /got \[3\]/),
    kind('true', () => true, must, /got true/),
    range('NaN', () => Number.NaN, must, /got NaN/),
    range('infinite', () => Number.POSITIVE_INFINITY, must, /got Infinity/),
    ...(min === Number.NEGATIVE_INFINITY
      ? []
      : [range('below the least', () => min - 1, must, new RegExp(`got ${min - 1}`))]),
    ...(max === undefined ? [] : [range('above the most', () => max + 1, must)]),
    ...(integer ? [range('half a number', () => min + 0.5, must)] : []),
  ];
}

export function oneOfBad(name: string, words: readonly (string | number)[]): Bad[] {
  const must = `${name} must be one of ${words.map((word) => JSON.stringify(word)).join(', ')}`;
  const [first] = words;
  const near =
    typeof first === 'string'
      ? [
          range('a near word', () => `${first}x`, must, new RegExp(`did you mean "${first}"\\?`)),
          range('a word that is none', () => '???', must),
          kind('a number', () => 4, must),
        ]
      : [
          range('another number', () => 99, must, /got 99/),
          range('NaN', () => Number.NaN, must),
          kind('a text', () => String(first), must),
        ];
  return [...near, kind('null', () => null, must), kind('a list', () => [first], must)];
}

export function stringBad(name: string, allowed = 'a string', optional = true): Bad[] {
  const must = `${name} must be ${allowed}`;
  return [
    ...(optional ? [] : [kind('nothing', () => undefined, must)]),
    kind('null', () => null, must),
    kind('a number', () => 7, must),
    kind('a list', () => ['fur'], must),
  ];
}

export function trueOrFalseBad(name: string): Bad[] {
  const must = `${name} must be true or false`;
  return [
    kind('null', () => null, must),
    kind('a number', () => 1, must),
    kind('a text', () => 'true', must),
  ];
}

export function callbackBad(name: string): Bad[] {
  const must = `${name} must be a function`;
  return [
    kind('null', () => null, must),
    kind('a text', () => 'log', must),
    kind('an object', () => ({}), must),
  ];
}

export function signalBad(): Bad[] {
  const must = 'signal must be an AbortSignal';
  return [
    kind('null', () => null, must),
    kind('true', () => true, must),
    kind('its controller', () => new AbortController(), must),
  ];
}

/** A point; `inside` completes the sentence of one that lies outside. */
export function pointBad(name: string, inside?: string): Bad[] {
  const must = `${name} must be a point`;
  return [
    kind('nothing', () => undefined, must),
    kind('null', () => null, must),
    kind('one number', () => [3], must),
    kind('three numbers', () => [1, 2, 3], must),
    kind('texts', () => ['1', '2'], must),
    kind('an object', () => ({ x: 1, y: 2 }), must),
    range('NaN', () => [Number.NaN, 1], must, /got \[NaN, 1\]/),
    range('infinite', () => [1, Number.NEGATIVE_INFINITY], must),
    ...(inside === undefined
      ? []
      : [
          range(
            'outside to the left',
            () => [-0.5, 1],
            `${name} must be ${inside}`,
            /got \[-0.5, 1\]/,
          ),
          range('outside below', () => [1, H], `${name} must be ${inside}`, /got \[1, 5\]/),
        ]),
  ];
}

export function sizeBad(name: string): Bad[] {
  const must = `${name} must be [width, height] in whole pixels >= 1`;
  return [
    kind('nothing', () => undefined, must),
    kind('a number', () => 6, must),
    kind('one side', () => [6], must),
    kind('texts', () => ['6', '5'], must),
    range('no columns', () => [0, 5], must),
    range('a negative side', () => [6, -5], must),
    range('half a column', () => [5.5, 5], must),
    range('NaN', () => [Number.NaN, 5], must),
    range('infinite', () => [6, Number.POSITIVE_INFINITY], must),
    range(
      'more pixels than can be counted',
      () => [65_536, 65_536],
      `${name} must have at most 2147483647 pixels`,
    ),
  ];
}

export function colorBad(name: string, optional = true): Bad[] {
  const must = `${name} must be a color '#rrggbb'`;
  return [
    ...(optional ? [] : [kind('nothing', () => undefined, must)]),
    kind('null', () => null, must),
    kind('a number', () => 0xd2603a, must),
    kind('samples', () => [210, 96, 58], must),
    range('a word', () => 'coral', must, /got "coral"/),
    range('three digits', () => '#d63', must, /write #dd6633/),
    range('no sign before the digits', () => 'd2603a', must, /write #d2603a/),
    range('an alpha', () => '#d2603aff', must),
    range('empty', () => '', must),
  ];
}

/** The name of a swatch that a palette has. */
export function swatchNameBad(name: string, optional = false): Bad[] {
  return [
    ...stringBad(name, 'the name of a swatch', optional),
    range(
      'a name that none has',
      () => 'carrot',
      `${name} must be the name of a swatch of the palette`,
      /got "carrot"/,
    ),
    range(
      'a near name',
      () => 'furr',
      `${name} must be the name of a swatch of the palette`,
      /did you mean "fur"/,
    ),
    range('empty', () => '', `${name} must be the name of a swatch of the palette`),
  ];
}

/** A list of swatches; `bare` as in the sources. */
export function paletteBad(
  name: string,
  bare: 'first' | 'never' | 'either',
  optional = false,
): Bad[] {
  const must = `${name} must be an array of swatches { name, color }`;
  const first = bare === 'first' ? [{ name: 'bare', color: '#000000' }] : [];
  const i = first.length;
  const list =
    (...swatches: unknown[]) =>
    () => [...first, ...swatches];
  const fur = { name: 'fur', color: '#8a5d43' };
  return ofKind(`an array of swatches, bare ${bare}`, name, [
    ...(optional ? [] : [kind('nothing', () => undefined, must)]),
    kind('null', () => null, must),
    kind('an object by name', () => ({ fur: '#8a5d43' }), must),
    kind(
      'a color in place of a swatch',
      list('#8a5d43'),
      `${name}[${i}] must be a swatch { name, color }`,
    ),
    kind('a hole', list(undefined), `${name}[${i}] must be a swatch { name, color }`),
    kind(
      'a name that is a number',
      list({ name: 7, color: '#8a5d43' }),
      `${name}[${i}].name must be a string`,
    ),
    range(
      'an empty name',
      list({ name: '', color: '#8a5d43' }),
      `${name}[${i}].name must be a string that is not empty`,
    ),
    range(
      'a name twice',
      list(fur, fur),
      `${name}[${i + 1}].name must be unique in ${name}`,
      /got "fur"/,
    ),
    range(
      'a color that is none',
      list({ name: 'fur', color: 'brown' }),
      `${name}[${i}].color must be a color '#rrggbb'`,
    ),
    kind('no color', list({ name: 'fur' }), `${name}[${i}].color must be a color '#rrggbb'`),
    range(
      'the reserved name at another place',
      list(fur, { name: 'bare', color: '#000000' }),
      `${name}[${i + 1}].name must be a name other than the reserved "bare"`,
    ),
    ...(bare === 'first'
      ? [
          range('empty', () => [], `${name} must start with the swatch "bare"`),
          range('another name first', () => [fur], `${name}[0].name must be "bare"`),
        ]
      : []),
    range(
      'more swatches than an index can tell apart',
      () => new Array(65_537).fill(fur),
      `${name} must hold at most ${bare === 'never' ? 65_535 : 65_536} swatches`,
      /got 65537/,
    ),
  ]);
}

/** An options object: what is no object, and the near and the far name of each option. */
export function optionsBad(call: string, takes: readonly string[]): Bad[] {
  const must = `options of ${call} must be an object`;
  return [
    kind('null', () => null, must),
    kind('a number', () => 8, must),
    kind('a text', () => 'auto', must),
    kind('a list', () => [], must),
    kind('a Map', () => new Map(), must, /Object\.fromEntries/),
    ...namesBad(call, 'option', takes),
  ];
}

/** A name that an object does not take; the message lists those that it takes. */
export function namesBad(owner: string, noun: string, takes: readonly string[]): Bad[] {
  const list = new RegExp(`It takes: ${takes.join(', ')}$`);
  return [
    kind(`an unknown ${noun}`, () => ({ '???': 1 }), `${owner} has no ${noun} "???"`, list),
    ...takes.map((name) => {
      const near = `${name}s`;
      const hint = new RegExp(`did you mean "${name}"\\? It takes: ${takes.join(', ')}$`);
      return kind(
        `${near}, near to ${name}`,
        () => ({ [near]: 1 }),
        `${owner} has no ${noun} "${near}"`,
        hint,
      );
    }),
  ];
}

/** Flats, whole. */
export function flatsBad(name: string): Bad[] {
  const must = `${name} must be flats { indices, palette }`;
  return [
    kind('nothing', () => undefined, must),
    kind('null', () => null, must),
    kind('a number', () => 7, must),
    kind('the bytes of a file', () => new Uint8Array(8), must, /readFlats\(bytes\)\.flats/),
    kind('what holds flats', () => ({ flats: {} }), must, /pass its \.flats/),
    kind('a picture', view(new Uint8Array(SIZE)), must, /indexFlats\(pixels\)/),
    kind('an empty object', () => ({}), must),
  ];
}

/** What may be wrong inside of flats: their indices, palette and ground. */
export function flatsPartsBad(name: string, at: Path, readsIndices = true): BadArgument[] {
  const noun = 'a Uint8 raster of shape [width, height] for a palette of up to 256 swatches';
  const indices = `${name}.indices`;
  const wrong = Uint16Array;
  return [
    {
      name: indices,
      at: [...at, 'indices'],
      bad: [
        ...rasterBad(indices, { ...BYTES, noun, wrong, optional: false }),
        ...(readsIndices
          ? [
              range(
                'an index past the palette',
                view(new Uint8Array(SIZE).fill(200, 8, 9)),
                `${indices} must be below the 4 swatches of the palette`,
                /got 200 at \[2, 1\]/,
              ),
            ]
          : []),
      ],
    },
    {
      name: `${name}.palette`,
      at: [...at, 'palette'],
      bad: paletteBad(`${name}.palette`, 'first'),
    },
    {
      name: `${name}.ground`,
      at: [...at, 'ground'],
      bad: [
        ...swatchNameBad(`${name}.ground`, true),
        range(
          'the reserved name',
          () => 'bare',
          `${name}.ground must be a swatch other than "bare"`,
        ),
      ],
    },
  ];
}

export function resolutionBad(name = 'resolution'): Bad[] {
  const must = `${name} must be { x, y, unit: 'meter' | 'unknown' } of whole pixels`;
  const with_ = (over: object) => () => ({ x: 1, y: 1, unit: 'meter', ...over });
  const whole = 'must be a whole number of pixels per unit from 1 to 2147483647';
  return [
    kind('null', () => null, must),
    kind('a number', () => 300, must),
    range('no dots', with_({ x: 0 }), `${name}.x ${whole}`),
    range('half a dot', with_({ y: 1.5 }), `${name}.y ${whole}`),
    range('NaN', with_({ y: Number.NaN }), `${name}.y ${whole}`),
    kind('a text', with_({ x: '300' }), `${name}.x ${whole}`),
    range('inches', with_({ unit: 'inch' }), `${name}.unit must be one of "meter", "unknown"`),
    kind('an unknown field', with_({ z: 1 }), `${name} has no option "z"`),
  ];
}

/** The bytes of a file. */
export function bytesBad(name: string, error: 'PngError' | 'LayersError'): Bad[] {
  const must = `${name} must be a Uint8Array, ArrayBuffer or SharedArrayBuffer`;
  const file = (what: string, value: () => unknown): Bad => ({ what, value, error, says: '' });
  return [
    kind('nothing', () => undefined, must),
    kind('null', () => null, must),
    kind('a path', () => 'heron.png', must, /read the file first/),
    kind('words', () => new Uint16Array(8), must),
    kind('a list', () => [137, 80], must),
    file('empty', () => new Uint8Array(0)),
    file('zeros', () => new Uint8Array(64)),
    file('a detached buffer', () => detached(new Uint8Array(64))),
  ];
}

/** Rings of points. */
export function ringsBad(name: string): Bad[] {
  const ring =
    (...points: unknown[]) =>
    () => [[[0, 0], [3, 0], ...points]];
  return [
    kind('nothing', () => undefined, `${name} must be a list of rings`),
    kind('null', () => null, `${name} must be a list of rings`),
    kind('typed coordinates', () => new Float64Array(6), `${name} must be a list of rings`),
    kind('an object', () => ({}), `${name} must be a list of rings`),
    kind(
      'one ring alone',
      () => [
        [0, 0],
        [1, 1],
        [2, 0],
      ],
      `${name}[0] must be a ring, a list of points [x, y]; one ring is [ring]`,
    ),
    kind('a ring of null', () => [null], `${name}[0] must be a ring, a list of points [x, y]`),
    kind('a hole', ring(undefined), `${name}[0][2] must be a point [x, y]`),
    kind('a point of three', ring([1, 2, 3]), `${name}[0][2] must be a point [x, y]`),
    kind('a point of texts', ring(['1', '2']), `${name}[0][2] must be a point [x, y]`),
    range('NaN', ring([Number.NaN, 0]), `${name}[0][2] must be a point of finite numbers`),
    range('infinite', ring([0, 1 / 0]), `${name}[0][2] must be a point of finite numbers`),
    range(
      'farther than edges can be exact',
      ring([2 ** 31, 0]),
      `${name}[0][2] must be coordinates within ±2^30`,
    ),
  ];
}
