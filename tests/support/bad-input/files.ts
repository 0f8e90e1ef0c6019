import * as underink from '../../../src/index.ts';
import { arg, type Bad, type BadArgument, type CallCases, kind, range } from './case.ts';
import * as bad from './kinds.ts';
import * as sound from './sound.ts';

const flatsFile = () => underink.writeFlats(sound.flats()).bytes;
const namesOf = () => JSON.parse(underink.namesToJson(sound.flats()));

/** An ICC profile by its header alone (ICC.1:2022, 7.2). */
function profile(): Uint8Array {
  const bytes = new Uint8Array(132);
  bytes.set([0x61, 0x63, 0x73, 0x70], 36);
  return bytes;
}

/** The arguments of a call that reads a file, and what else may be wrong with how large it may be. */
function readerArgs(error: 'PngError' | 'LayersError', ...more: Bad[]): BadArgument[] {
  const limit = bad.numberBad('maxPixels', { min: 1, max: 2 ** 31 - 1, integer: true });
  return [
    arg('bytes', [0], bad.bytesBad('bytes', error)),
    arg('maxPixels', [1, 'maxPixels'], limit, ...more),
  ];
}

export const FILES: readonly CallCases[] = [
  {
    call: 'raster',
    run: underink.raster,
    sound: () => [new Uint8Array(30), [6, 5]],
    args: [
      arg(
        'data',
        [0],
        kind('nothing', () => undefined, 'data must be a typed array'),
        kind('null', () => null, 'data must be a typed array'),
        kind('a plain list', () => [1, 2, 3], 'data must be a typed array'),
        kind('a DataView', () => new DataView(new ArrayBuffer(30)), 'data must be a typed array'),
        kind('a buffer', () => new ArrayBuffer(30), 'data must be a typed array'),
        range('too few samples', () => new Uint8Array(29), 'data must be at least 30 samples'),
        range('empty', () => new Uint8Array(0), 'data must be at least 30 samples'),
        range(
          'a detached buffer',
          () => bad.detached(new Uint8Array(30)),
          'data must be at least 30',
        ),
      ),
      arg(
        'shape',
        [1],
        kind('nothing', () => undefined, 'shape must be [width, height] or'),
        kind('a number', () => 6, 'shape must be [width, height] or'),
        kind('one side', () => [6], 'shape must be [width, height] or'),
        kind('four sides', () => [6, 5, 1, 1], 'shape must be [width, height] or'),
        range('no columns', () => [0, 5], 'shape must be whole numbers >= 1'),
        range('a negative side', () => [6, -5], 'shape must be whole numbers >= 1'),
        range('NaN', () => [6, Number.NaN], 'shape must be whole numbers >= 1'),
        range('infinite', () => [1 / 0, 5], 'shape must be whole numbers >= 1'),
        range('half a column', () => [5.5, 5], 'shape must be whole numbers >= 1'),
        range('texts', () => ['6', '5'], 'shape must be whole numbers >= 1'),
      ),
    ],
  },
  {
    call: 'toImageData',
    run: underink.toImageData,
    sound: () => [sound.rgb()],
    args: [arg('pixels', [0], bad.pixelsBad('pixels'))],
  },
  {
    call: 'maskToPixels',
    run: underink.maskToPixels,
    sound: () => [sound.ink()],
    args: [arg('mask', [0], bad.maskBad('mask'))],
  },
  {
    call: 'readPng',
    run: underink.readPng,
    sound: () => [flatsFile(), { maxPixels: 100 }],
    takes: ['maxPixels'],
    args: readerArgs('PngError', {
      what: 'fewer pixels than the file has',
      value: () => 29,
      error: 'PngError',
      says: 'the picture must have at most 29 pixels (maxPixels), got 6 × 5',
    }),
  },
  {
    call: 'readFlats',
    run: underink.readFlats,
    sound: () => [flatsFile(), { maxPixels: 100, names: namesOf() }],
    takes: ['maxPixels', 'names'],
    args: [
      arg('bytes', [0], bad.bytesBad('bytes', 'PngError')),
      arg(
        'maxPixels',
        [1, 'maxPixels'],
        bad.numberBad('maxPixels', { min: 1, max: 2 ** 31 - 1, integer: true }),
      ),
      arg(
        'names',
        [1, 'names'],
        range('a text that is no JSON', () => '{', 'names must be the JSON that namesToJson gives'),
        kind('null', () => null, 'names must be'),
        kind('a number', () => 7, 'names must be'),
        kind('a list', () => [], 'names must be'),
        range('another version', () => ({ ...namesOf(), version: 2 }), 'names.version must be 1'),
        range(
          'a ground that is no name',
          () => ({ ...namesOf(), ground: 7 }),
          'names.ground must be the name of a swatch',
        ),
      ),
      arg('names.palette', [1, 'names', 'palette'], bad.paletteBad('names.palette', 'first')),
    ],
  },
  {
    call: 'writePng',
    run: underink.writePng,
    sound: () => [
      sound.rgb(),
      { resolution: sound.resolution(), icc: { name: 'harbor', bytes: profile() } },
    ],
    takes: ['resolution', 'icc'],
    args: [
      arg(
        'pixels',
        [0],
        bad.pixelsBad('pixels'),
        range(
          'a mask',
          sound.ink,
          'pixels must be a picture of samples up to 255, got a mask',
          /maskToPixels\(mask\)/,
        ),
      ),
      arg('resolution', [1, 'resolution'], bad.resolutionBad()),
      arg(
        'icc',
        [1, 'icc'],
        kind('null', () => null, 'icc must be a profile { name, bytes }'),
        kind('its bytes alone', profile, 'icc must be a profile { name, bytes }'),
        kind(
          'an unknown field',
          () => ({ nam: 'harbor', bytes: profile() }),
          'icc has no option "nam"',
          /did you mean "name"/,
        ),
      ),
      arg(
        'icc.name',
        [1, 'icc', 'name'],
        bad.stringBad('icc.name', 'a string', false),
        range('empty', () => '', 'icc.name must be 1 to 79 printable letters of ISO 8859-1'),
        range(
          'too long',
          () => 'h'.repeat(80),
          'icc.name must be 1 to 79 printable letters of ISO 8859-1',
        ),
        range(
          'a letter that a PNG cannot name',
          () => 'harbor 🦊',
          'icc.name must be 1 to 79 printable',
        ),
      ),
      arg(
        'icc.bytes',
        [1, 'icc', 'bytes'],
        kind('null', () => null, 'icc.bytes must be a Uint8Array'),
        kind('a text', () => 'acsp', 'icc.bytes must be a Uint8Array'),
        range('too short', () => new Uint8Array(64), 'icc.bytes must be an ICC profile'),
        range('zeros', () => new Uint8Array(132), 'icc.bytes must be an ICC profile'),
        range(
          'a detached buffer',
          () => bad.detached(profile()),
          'icc.bytes must be an ICC profile',
        ),
      ),
    ],
  },
  {
    call: 'writeFlats',
    run: underink.writeFlats,
    sound: () => [sound.flats(), { resolution: sound.resolution(), transparentGround: true }],
    takes: ['resolution', 'transparentGround'],
    args: [
      arg('flats', [0], bad.flatsBad('flats')),
      ...bad.flatsPartsBad('flats', [0]),
      arg('resolution', [1, 'resolution'], bad.resolutionBad()),
      arg('transparentGround', [1, 'transparentGround'], bad.trueOrFalseBad('transparentGround')),
    ],
  },
  {
    call: 'writeMasks',
    run: underink.writeMasks,
    sound: () => [sound.flats(), { resolution: sound.resolution() }],
    takes: ['resolution'],
    args: [
      arg('flats', [0], bad.flatsBad('flats')),
      ...bad.flatsPartsBad('flats', [0]),
      arg('resolution', [1, 'resolution'], bad.resolutionBad()),
    ],
  },
  {
    call: 'namesToJson',
    run: underink.namesToJson,
    sound: () => [sound.flats()],
    args: [arg('flats', [0], bad.flatsBad('flats')), ...bad.flatsPartsBad('flats', [0], false)],
  },
  {
    call: 'readLayers',
    run: underink.readLayers,
    sound: () => [underink.writeLayers(sound.flats()), { maxPixels: 100 }],
    takes: ['maxPixels'],
    args: readerArgs('LayersError'),
  },
  {
    call: 'writeLayers',
    run: underink.writeLayers,
    sound: () => [
      sound.flats(),
      {
        line: sound.gray(),
        lineOn: 'multiply',
        resolution: sound.resolution(),
        layers: 'swatch',
        groups: true,
      },
    ],
    takes: ['line', 'lineOn', 'resolution', 'layers', 'groups'],
    args: [
      arg('flats', [0], bad.flatsBad('flats')),
      ...bad.flatsPartsBad('flats', [0]),
      arg(
        'line',
        [1, 'line'],
        bad.pixelsBad('line', true),
        bad.otherSize('line', Uint8Array, 'flats'),
      ),
      arg('lineOn', [1, 'lineOn'], bad.oneOfBad('lineOn', ['clear', 'multiply'])),
      arg('resolution', [1, 'resolution'], bad.resolutionBad()),
      arg('layers', [1, 'layers'], bad.oneOfBad('layers', ['swatch', 'flats'])),
      arg('groups', [1, 'groups'], bad.trueOrFalseBad('groups')),
    ],
  },
  {
    call: 'flatsFromLayers',
    run: underink.flatsFromLayers,
    sound: () => [
      [
        {
          name: 'fur',
          pixels: underink.paintFlats(sound.flats()),
          offset: [0, 0],
          opacity: 1,
          visible: true,
          mode: 'svg:src-over',
          palette: sound.palette(),
        },
      ],
      { size: [6, 5], ground: 'fur' },
    ],
    takes: ['size', 'ground'],
    args: [
      arg(
        'layers',
        [0],
        kind('nothing', () => undefined, 'layers must be a list of layers'),
        kind('null', () => null, 'layers must be a list of layers'),
        kind('the bytes of a file', () => new Uint8Array(9), 'layers must be a list of layers'),
        kind('an object without layers', () => ({}), 'layers.layers must be a list of layers'),
        kind('null as a layer', () => [null], 'layers[0] must be a layer { name, pixels, offset }'),
        kind('a picture as a layer', () => [new Uint8Array(9)], 'layers[0] must be a layer'),
      ),
      arg('layers[0].name', [0, 0, 'name'], bad.stringBad('layers[0].name', 'a string', false)),
      arg('layers[0].pixels', [0, 0, 'pixels'], bad.pixelsBad('layers[0] ("fur").pixels')),
      arg(
        'layers[0].offset',
        [0, 0, 'offset'],
        kind('null', () => null, 'layers[0] ("fur").offset must be [x, y] in whole pixels'),
        kind('one number', () => [1], 'layers[0] ("fur").offset must be [x, y] in whole pixels'),
        kind(
          'half a pixel',
          () => [0.5, 0],
          'layers[0] ("fur").offset must be [x, y] in whole pixels',
        ),
        kind(
          'NaN',
          () => [Number.NaN, 0],
          'layers[0] ("fur").offset must be [x, y] in whole pixels',
        ),
      ),
      arg(
        'layers[0].opacity',
        [0, 0, 'opacity'],
        range('half', () => 0.5, 'layers[0] ("fur").opacity must be 1', /layers\.filter/),
        range('NaN', () => Number.NaN, 'layers[0] ("fur").opacity must be 1'),
      ),
      arg(
        'layers[0].mode',
        [0, 0, 'mode'],
        range(
          'another mode',
          () => 'svg:multiply',
          'layers[0] ("fur").mode must be "svg:src-over"',
          /layers\.filter/,
        ),
      ),
      arg(
        'layers[0].palette',
        [0, 0, 'palette'],
        bad.paletteBad('layers[0] ("fur").palette', 'first', true),
      ),
      arg(
        'size',
        [1, 'size'],
        bad.sizeBad('size').filter(({ what }) => what !== 'nothing'),
      ),
      arg(
        'ground',
        [1, 'ground'],
        bad.swatchNameBad('ground', true).filter(({ what }) => what !== 'null'),
        range('the reserved name', () => 'bare', 'ground must be a swatch other than "bare"'),
      ),
    ],
  },
];
