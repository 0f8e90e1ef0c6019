import * as underink from '../../../src/index.ts';
import { arg, type BadArgument, type CallCases, kind, range } from './case.ts';
import * as bad from './kinds.ts';
import * as sound from './sound.ts';

const PIXELS = arg('pixels', [0], bad.pixelsBad('pixels'));
const LIGHT = bad.oneOfBad('light', ['auto', 'srgb', 'linear']);

const flatsArgs = (name = 'flats', at = 0, readsIndices = true): BadArgument[] => [
  arg(name, [at], bad.flatsBad(name)),
  ...bad.flatsPartsBad(name, [at], readsIndices),
];

/** Named sheets, or flats alone. */
function sheetsArg(name: string): BadArgument {
  const must = `${name} must be an array of { name, flats }`;
  const one = `${name}[0] must be an object { name, flats }`;
  return arg(
    name,
    [0],
    kind('nothing', () => undefined, must),
    kind('null', () => null, must),
    kind('an object by name', () => ({ heron: sound.flats() }), must),
    kind('null as a sheet', () => [null], one),
    kind(
      'an unknown field',
      () => [{ name: 'heron', flat: sound.flats() }],
      `${name}[0] has no option "flat"`,
      /did you mean "flats"/,
    ),
    kind('no name', () => [{ flats: sound.flats() }], `${name}[0].name must be a string`),
    range(
      'a name twice',
      () => [...sound.sheets(), ...sound.sheets()],
      `${name}[1].name must be unique among the sheets`,
      /got "heron"/,
    ),
    kind(
      'no flats',
      () => [{ name: 'heron' }],
      `${name}[0].flats must be flats { indices, palette }`,
    ),
    kind(
      'a picture',
      () => [{ name: 'heron', flats: sound.rgb() }],
      `${name}[0].flats must be flats`,
      /indexFlats\(pixels\)/,
    ),
  );
}

const table = 'table must be a variant table { versions, rows }';

function tableArgs(at: number): BadArgument[] {
  const row = (over: object) => () => [{ swatch: 'fur', colors: ['#8a5d43', null], ...over }];
  return [
    arg(
      'table',
      [at],
      kind('nothing', () => undefined, table),
      kind('null', () => null, table),
      kind('the text of a table', () => 'swatch,day', table),
      kind('an empty object', () => ({}), table),
    ),
    arg(
      'table.versions',
      [at, 'versions'],
      kind('nothing', () => undefined, table),
      kind('a number', () => [7, 'night'], 'table.versions[0] must be a string'),
      range(
        'an empty name',
        () => ['', 'night'],
        'table.versions[0] must be a name not listed yet',
      ),
      range(
        'a name twice',
        () => ['day', 'day'],
        'table.versions[1] must be a name not listed yet',
        /got "day"/,
      ),
    ),
    arg(
      'table.rows',
      [at, 'rows'],
      kind('null', () => null, table),
      kind('null as a row', () => [null], 'table.rows[0] must be a row { swatch, colors }'),
      kind(
        'a row as a list',
        () => [['fur', '#8a5d43']],
        'table.rows[0] must be a row { swatch, colors }',
      ),
      kind('no name', row({ swatch: undefined }), 'table.rows[0].swatch must be a string'),
      range(
        'an empty name',
        row({ swatch: '' }),
        'table.rows[0].swatch must be a name not listed yet and not "bare"',
      ),
      range(
        'the reserved name',
        row({ swatch: 'bare' }),
        'table.rows[0].swatch must be a name not listed yet and not "bare"',
      ),
      range(
        'too few colors',
        row({ colors: ['#8a5d43'] }),
        'table.rows[0].colors must be a list of 2 colors',
      ),
      range(
        'no list of colors',
        row({ colors: '#8a5d43' }),
        'table.rows[0].colors must be a list of 2 colors',
      ),
      range(
        'a color that is none',
        row({ colors: ['brown', null] }),
        "table.rows[0].colors[0] must be a color '#rrggbb'",
      ),
    ),
  ];
}

const SEPARATOR = bad
  .oneOfBad('separator', [',', ';', '\t'])
  .filter(({ what }) => what !== 'a near word');

export const COLORS: readonly CallCases[] = [
  { call: 'edgeHardness', run: underink.edgeHardness, sound: () => [sound.rgb()], args: [PIXELS] },
  {
    call: 'findFringe',
    run: underink.findFringe,
    sound: () => [sound.rgb(), { light: 'srgb', places: 3 }],
    takes: ['light', 'places'],
    args: [
      PIXELS,
      arg('light', [1, 'light'], LIGHT),
      arg('places', [1, 'places'], bad.numberBad('places', { integer: true })),
    ],
  },
  {
    call: 'hardenEdges',
    run: underink.hardenEdges,
    sound: () => [
      sound.rgb(),
      {
        palette: sound.swatches(),
        gather: 1,
        light: 'auto',
        onProgress: () => undefined,
        signal: new AbortController().signal,
      },
    ],
    takes: ['palette', 'gather', 'light', 'onProgress', 'signal'],
    args: [
      PIXELS,
      arg(
        'palette',
        [1, 'palette'],
        bad.paletteBad('palette', 'either', true),
        range('empty', () => [], 'palette must hold a swatch other than "bare"'),
      ),
      arg('gather', [1, 'gather'], bad.numberBad('gather')),
      arg('light', [1, 'light'], LIGHT),
      arg('onProgress', [1, 'onProgress'], bad.callbackBad('onProgress')),
      arg('signal', [1, 'signal'], bad.signalBad()),
    ],
  },
  {
    call: 'snapColors',
    run: underink.snapColors,
    sound: () => [sound.rgb(), sound.swatches(), { within: 3 }],
    takes: ['within'],
    args: [
      PIXELS,
      arg('palette', [1], bad.paletteBad('palette', 'either')),
      arg('within', [2, 'within'], bad.numberBad('within')),
    ],
  },
  ...Object.entries({ findHalo: underink.findHalo, mendHalo: underink.mendHalo }).map(
    ([call, run]) => ({
      call,
      run,
      sound: () => [sound.flats(), sound.coverage()],
      args: [
        ...flatsArgs(),
        arg(
          'coverage',
          [1],
          bad.coverageBad('coverage'),
          bad.otherSize('coverage', Uint8Array, 'flats'),
        ),
      ],
    }),
  ),
  {
    call: 'colorDifference',
    run: underink.colorDifference,
    sound: () => ['#ffffff', [50, 10, -10]],
    args: ['a', 'b'].map((name, i) => {
      const must = `${name} must be a color '#rrggbb' or [L, a, b]`;
      return arg(
        name,
        [i],
        kind('nothing', () => undefined, must),
        kind('a number', () => 0xffffff, must),
        kind('two numbers', () => [50, 10], must),
        kind('texts', () => ['50', '10', '10'], must),
        range('NaN', () => [Number.NaN, 0, 0], must),
        range('infinite', () => [50, 1 / 0, 0], must),
        range('a word', () => 'white', `${name} must be a color '#rrggbb'`),
        range('three digits', () => '#fff', `${name} must be a color '#rrggbb'`, /write #ffffff/),
      );
    }),
  },
  {
    call: 'applyVariants',
    run: underink.applyVariants,
    sound: () => [
      sound.sheets(),
      sound.tableOf(),
      { versions: ['night'], missing: 'error', extra: 'error' },
    ],
    takes: ['versions', 'missing', 'extra'],
    args: [
      sheetsArg('sheets'),
      ...bad
        .flatsPartsBad('sheets[0].flats', [0, 0, 'flats'], false)
        .map((one) => (one.name.endsWith('.palette') ? { ...one, bad: one.bad } : one)),
      ...tableArgs(1),
      arg(
        'versions',
        [2, 'versions'],
        kind('null', () => null, 'versions must be an array of names'),
        kind('one name', () => 'night', 'versions must be an array of names'),
        range(
          'a near name',
          () => ['nigth'],
          'versions[0] must be a version of the table',
          /did you mean "night"/,
        ),
      ),
      arg('missing', [2, 'missing'], bad.oneOfBad('missing', ['error', 'keep'])),
      arg('extra', [2, 'extra'], bad.oneOfBad('extra', ['error', 'ignore'])),
    ],
  },
  {
    call: 'compactPalette',
    run: underink.compactPalette,
    sound: () => [sound.flats(), { keep: ['scarf'] }],
    takes: ['keep'],
    args: [
      ...flatsArgs(),
      arg(
        'keep',
        [1, 'keep'],
        kind('null', () => null, 'keep must be an array of names of swatches'),
        kind('one name', () => 'scarf', 'keep must be an array of names of swatches'),
        bad.swatchNameBad('keep[0]').map((one) => ({ ...one, value: () => [one.value()] })),
      ),
    ],
  },
  {
    call: 'diffFlats',
    run: underink.diffFlats,
    sound: () => [sound.flats(), sound.flats()],
    args: [...flatsArgs('a', 0), ...flatsArgs('b', 1)],
  },
  {
    call: 'findLookalikes',
    run: underink.findLookalikes,
    sound: () => [sound.swatches(), { below: 2 }],
    takes: ['below'],
    args: [
      arg('palette', [0], bad.paletteBad('palette', 'either')),
      arg('below', [1, 'below'], bad.numberBad('below')),
    ],
  },
  {
    call: 'indexFlats',
    run: underink.indexFlats,
    sound: () => [sound.rgb()],
    args: [
      arg(
        'pixels',
        [0],
        bad.pixelsBad('pixels'),
        range(
          'half an alpha',
          () => ({ data: new Uint8Array(120).fill(128), width: 6, height: 5, channels: 4 }),
          'pixels must be opaque or fully transparent',
          /got alpha 128 at \[0, 0\]/,
        ),
        range(
          'samples between those of 8 bits',
          () => ({ data: new Uint16Array(90).fill(258), width: 6, height: 5, channels: 3 }),
          'pixels must hold 16 bit samples that are 257 times an 8 bit one',
        ),
      ),
    ],
  },
  {
    call: 'mergeSwatches',
    run: underink.mergeSwatches,
    sound: () => [sound.flats(), ['scarf'], 'fur'],
    args: [
      ...flatsArgs(),
      arg(
        'names',
        [1],
        kind('nothing', () => undefined, 'names must be an array of names of swatches'),
        kind('one name', () => 'scarf', 'names must be an array of names of swatches'),
        bad.swatchNameBad('names[0]').map((one) => ({ ...one, value: () => [one.value()] })),
        range(
          'the reserved name',
          () => ['bare'],
          'a name of names must be a swatch other than "bare"',
        ),
      ),
      arg(
        'into',
        [2],
        bad.swatchNameBad('into'),
        range('the reserved name', () => 'bare', 'into must be a swatch other than "bare"'),
      ),
    ],
  },
  {
    call: 'paintFlats',
    run: underink.paintFlats,
    sound: () => [sound.flats(), { transparentGround: true }],
    takes: ['transparentGround'],
    args: [
      ...flatsArgs(),
      arg('transparentGround', [1, 'transparentGround'], bad.trueOrFalseBad('transparentGround')),
    ],
  },
  { call: 'paletteUse', run: underink.paletteUse, sound: () => [sound.flats()], args: flatsArgs() },
  {
    call: 'paletteUse, of sheets',
    run: underink.paletteUse,
    sound: () => [sound.sheets()],
    args: [{ ...sheetsArg('flats'), bad: sheetsArg('flats').bad.slice(3) }],
  },
  {
    call: 'readVariants',
    run: underink.readVariants,
    sound: () => ['swatch,day\nfur,#8a5d43\n', { separator: ',' }],
    takes: ['separator'],
    args: [
      arg(
        'csv',
        [0],
        kind('nothing', () => undefined, 'csv must be the text of a table'),
        kind('the bytes of a file', () => new Uint8Array(4), 'csv must be the text of a table'),
        range('empty', () => '', 'csv must start with a heading and the names of versions'),
        range(
          'a heading alone',
          () => 'swatch',
          'csv must start with a heading and the names of versions',
        ),
        range(
          'a row that is too short',
          () => 'swatch,day\nfur\n',
          'csv must have 2 fields in each row',
          /got 1 on line 2/,
        ),
        range(
          'a row that is too long',
          () => 'swatch,day\nfur,#8a5d43,x\n',
          'csv must have 2 fields in each row',
          /got 3 on line 2/,
        ),
        range(
          'the reserved name',
          () => 'swatch,day\nbare,#8a5d43\n',
          'csv must not color the reserved "bare"',
        ),
        range(
          'a swatch without a name',
          () => 'swatch,day\n,#8a5d43\n',
          'csv must name each swatch',
        ),
        range(
          'a swatch twice',
          () => 'swatch,day\nfur,#8a5d43\nfur,#8a5d43\n',
          'csv must name each swatch once',
          /on line 3/,
        ),
        range('a version twice', () => 'swatch,day,day\n', 'csv must name each version once'),
        range(
          'a color that is none',
          () => 'swatch,day\nfur,brown\n',
          'the color of "fur" in "day" (csv line 2) must be a color',
          /brown/,
        ),
        range(
          'a quote that is not closed',
          () => 'swatch,day\n"fur,#8a5d43\n',
          'csv has a quote on line 2 that is not closed',
        ),
        range(
          'text behind a quote',
          () => 'swatch,day\n"fur"x,#8a5d43\n',
          'csv has text behind the closing quote of a field on line 2',
        ),
        range(
          'a quote inside a field',
          () => 'swatch,day\nf"ur,#8a5d43\n',
          'csv has a quote inside a field on line 2',
        ),
      ),
      arg('separator', [1, 'separator'], SEPARATOR),
    ],
  },
  {
    call: 'writeVariants',
    run: underink.writeVariants,
    sound: () => [sound.swatches(), { separator: ';', version: 'day' }],
    takes: ['separator', 'version'],
    args: [
      arg(
        'table',
        [0],
        kind('nothing', () => undefined, table),
        kind('null', () => null, table),
        kind('a text', () => 'swatch,day', table),
        kind('a hole in a palette', () => [undefined], 'table[0] must be a swatch { name, color }'),
      ),
      arg('separator', [1, 'separator'], SEPARATOR),
      arg('version', [1, 'version'], bad.stringBad('version')),
    ],
  },
  {
    call: 'writeVariants, of a table',
    run: underink.writeVariants,
    sound: () => [sound.tableOf()],
    args: tableArgs(0),
  },
  {
    call: 'recolor',
    run: underink.recolor,
    sound: () => [sound.flats(), { fur: '#777777' }],
    args: [
      ...flatsArgs('flats', 0, false),
      arg(
        'colors',
        [1],
        kind('nothing', () => undefined, 'colors must be an object { name: color }'),
        kind(
          'a Map',
          () => new Map([['fur', '#777777']]),
          'colors must be an object { name: color }',
          /Object\.fromEntries/,
        ),
        kind('a list', () => ['#777777'], 'colors must be an object { name: color }'),
        range(
          'a near name',
          () => ({ furr: '#777777' }),
          'a key of colors must be the name of a swatch of the palette',
          /did you mean "fur"/,
        ),
        range(
          'the reserved name',
          () => ({ bare: '#777777' }),
          'a key of colors must be a swatch other than "bare"',
        ),
        bad
          .colorBad('colors["fur"]', false)
          .map((one) => ({ ...one, value: () => ({ fur: one.value() }) })),
      ),
    ],
  },
  {
    call: 'remapFlats',
    run: underink.remapFlats,
    sound: () => [sound.flats(), { scarf: 'fur' }, { out: sound.outBytes() }],
    takes: ['out'],
    args: [
      ...flatsArgs(),
      arg(
        'table',
        [1],
        kind('nothing', () => undefined, 'table must be an object { name: name }'),
        kind(
          'a Map',
          () => new Map(),
          'table must be an object { name: name }',
          /Object\.fromEntries/,
        ),
        range(
          'a near name',
          () => ({ furr: 'scarf' }),
          'a name of table must be the name of a swatch of the palette',
          /did you mean "fur"/,
        ),
        bad
          .swatchNameBad('table["scarf"]')
          .map((one) => ({ ...one, value: () => ({ scarf: one.value() }) })),
      ),
      arg('out', [2, 'out'], bad.outBad(Uint8Array, Int32Array)),
    ],
  },
  {
    call: 'renameSwatch',
    run: underink.renameSwatch,
    sound: () => [sound.flats(), 'fur', 'pelt'],
    args: [
      ...flatsArgs('flats', 0, false),
      arg(
        'from',
        [1],
        bad.swatchNameBad('from'),
        range('the reserved name', () => 'bare', 'from must be a swatch other than "bare"'),
      ),
      arg(
        'to',
        [2],
        bad.stringBad('to', 'a string', false),
        range('empty', () => '', 'to must be a string that is not empty'),
        range(
          'the reserved name',
          () => 'bare',
          'to must be a name other than the reserved "bare"',
        ),
        range(
          'the name of another',
          () => 'scarf',
          'to must be a name that no other swatch has',
          /got "scarf"/,
        ),
      ),
    ],
  },
  {
    call: 'selectSwatch',
    run: underink.selectSwatch,
    sound: () => [sound.flats(), 'fur'],
    args: [...flatsArgs(), arg('name', [1], bad.swatchNameBad('name'))],
  },
  {
    call: 'suggestColors',
    run: underink.suggestColors,
    sound: () => [2, { apartFrom: ['#ffffff'] }],
    takes: ['apartFrom'],
    args: [
      arg(
        'count',
        [0],
        bad.numberBad('count', { max: 1024, integer: true, unit: 'colors', optional: false }),
      ),
      arg(
        'apartFrom',
        [1, 'apartFrom'],
        kind('null', () => null, 'apartFrom must be an array of colors or swatches'),
        kind('one color', () => '#ffffff', 'apartFrom must be an array of colors or swatches'),
        bad
          .colorBad('apartFrom[0]')
          .filter(({ what }) => what !== 'samples')
          .map((one) => ({ ...one, value: () => [one.value()] })),
        kind(
          'a swatch without a color',
          () => [{ name: 'fur' }],
          "apartFrom[0].color must be a color '#rrggbb'",
        ),
      ),
    ],
  },
  {
    call: 'swatchSheet',
    run: underink.swatchSheet,
    sound: () => [sound.flats(), { columns: 2, title: 'heron' }],
    takes: ['columns', 'title'],
    args: [
      ...flatsArgs(),
      arg(
        'columns',
        [1, 'columns'],
        bad.numberBad('columns', { min: 1, max: 1000, integer: true }),
      ),
      arg('title', [1, 'title'], bad.stringBad('title')),
    ],
  },
];
