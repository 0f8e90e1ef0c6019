import * as underink from '../../../src/index.ts';
import {
  arg,
  type Bad,
  type BadArgument,
  type CallCases,
  kind,
  ofKind,
  type Path,
  range,
} from './case.ts';
import { dropHueArgs } from './ink-and-gaps.ts';
import * as bad from './kinds.ts';
import { PAGE_PARTS } from './saved.ts';
import * as sound from './sound.ts';

const nothing = () => undefined;
const FLATS = [arg('flats', [0], bad.flatsBad('flats')), ...bad.flatsPartsBad('flats', [0])];
const OUTSIDE = bad.oneOfBad('outside', ['error', 'report']);
const SETTINGS = ['coverage', 'threshold', 'maxGap', 'caution', 'absorb', 'ground', 'unnamed'];
const KINDS = ['point', 'polygon', 'fill', 'cut', 'join', 'bridge', 'open'];
const watched = () => ({ onProgress: nothing, signal: new AbortController().signal });

const watchArgs = (at: number): BadArgument[] => [
  arg('onProgress', [at, 'onProgress'], bad.callbackBad('onProgress')),
  arg('signal', [at, 'signal'], bad.signalBad()),
];

/** The ground, a swatch or its name. */
function groundArg(name: string, at: Path): BadArgument {
  const must = `${name} must be the name of a swatch, or a swatch { name, color }`;
  const names = `${name} must be a name that is neither empty nor the reserved "bare"`;
  return arg(
    name,
    at,
    kind('null', () => null, must),
    kind('a number', () => 7, must),
    kind('a list', () => ['ground'], must),
    range('empty', () => '', names),
    range('the reserved name', () => 'bare', names),
    range(
      'a color that is none',
      () => ({ name: 'sea', color: 'blue' }),
      `${name}.color must be a color '#rrggbb'`,
    ),
  );
}

/** The settings of how a sheet is laid; those of a plan have a prefix. */
function settingsArgs(at: Path, prefix = ''): BadArgument[] {
  const named = (own: string) => `${prefix}${own}`;
  const nonObject = (own: string): Bad[] => [
    kind('null', () => null, `options of ${named(own)} must be an object`),
    kind('a text', () => 'auto', `options of ${named(own)} must be an object`),
  ];
  return [
    arg(
      named('coverage'),
      [...at, 'coverage'],
      nonObject('coverage'),
      bad.namesBad(named('coverage'), 'option', ['paper', 'dropHue']),
    ),
    ...dropHueArgs([...at, 'coverage', 'dropHue'], named('coverage.')).slice(0, 2),
    arg(
      named('threshold'),
      [...at, 'threshold'],
      nonObject('threshold'),
      kind(
        'an unknown option',
        () => ({ methods: 'otsu' }),
        `${named('threshold')} has no option "methods"`,
        /did you mean "method"/,
      ),
      range(
        'a level to a method without one',
        () => ({ method: 'sauvola', level: 7 }),
        'level must be left out with method "sauvola"',
      ),
    ),
    arg(named('maxGap'), [...at, 'maxGap'], bad.numberBad(named('maxGap'), { unit: 'pixels' })),
    arg(named('caution'), [...at, 'caution'], bad.numberBad(named('caution'), { max: 1 })),
    arg(named('absorb'), [...at, 'absorb'], bad.numberBad(named('absorb'), { unit: 'pixels' })),
    groundArg(named('ground'), [...at, 'ground']),
    arg(
      named('unnamed'),
      [...at, 'unnamed'],
      bad.oneOfBad(named('unnamed'), ['each', 'shared', 'claim']),
    ),
  ];
}

/** A plan as an argument at a path: its fields, and a mark of each type. */
function planArgs(at: Path, optional = false, size = true, inside = size): BadArgument[] {
  const marks = (mark: unknown) => () => [{ point: [1, 1], swatch: 'fur' }, mark];
  const one = 'plan.marks[1]';
  const must = `${one} must be a mark with one of ${KINDS.join(', ')}`;
  const laying = (over: object) => marks({ point: [2, 2], swatch: 'fur', ...over });
  const pointed = (key: string, of: (point: unknown) => unknown, path: string) =>
    bad.pointBad('p').map((point) => ({
      ...point,
      value: marks({
        [key]: of(point.value()),
        ...(key === 'point' || key === 'fill' || key === 'polygon' ? { swatch: 'fur' } : {}),
      }),
      says: `${one}.${path}${point.says.slice(1)}`,
    }));
  const parts = [
    arg(
      'plan',
      at,
      ...(optional ? [] : [kind('nothing', nothing, 'plan must be an object')]),
      kind('null', () => null, 'plan must be an object'),
      kind('a number', () => 7, 'plan must be an object'),
      kind(
        'JSON',
        () => JSON.stringify(sound.plan()),
        'plan must be an object, got a string',
        /JSON\.parse/,
      ),
      kind('a list', () => [], 'options of plan must be an object'),
      bad.namesBad('plan', 'option', ['version', 'size', 'palette', 'marks', 'settings']),
    ),
    arg(
      'plan.version',
      [...at, 'version'],
      kind('nothing', nothing, 'plan.version must be 1'),
      kind('a text', () => '1', 'plan.version must be 1', /got "1"/),
      range('another', () => 2, 'plan.version must be 1', /got 2/),
    ),
    arg(
      'plan.size',
      [...at, 'size'],
      bad.sizeBad('plan.size'),
      ...(size
        ? [
            range(
              'that of another picture',
              () => [12, 10],
              'plan.size must be that of the picture, 6 × 5',
              /scalePlan\(plan, \[6, 5\]\)/,
            ),
          ]
        : []),
    ),
    arg('plan.palette', [...at, 'palette'], bad.paletteBad('plan.palette', 'never')),
    arg(
      'plan.marks',
      [...at, 'marks'],
      kind('nothing', nothing, 'plan.marks must be an array of marks'),
      kind('null', () => null, 'plan.marks must be an array of marks'),
      kind('an object', () => ({}), 'plan.marks must be an array of marks'),
      kind('a hole', marks(undefined), must),
      kind('null as a mark', marks(null), must),
      kind('a text as a mark', marks('fur'), must),
      kind('a mark of no type', marks({ swatch: 'fur' }), must),
      kind('a mark of two types', marks({ point: [1, 1], fill: [1, 1], swatch: 'fur' }), must),
      kind(
        'an unknown field',
        laying({ overs: true }),
        `${one} has no field "overs"`,
        /did you mean "over"/,
      ),
      kind(
        'a swatch where none is laid',
        marks({
          cut: [
            [0, 0],
            [1, 1],
          ],
          swatch: 'fur',
        }),
        `${one} has no field "swatch"`,
      ),
      kind(
        'no swatch',
        laying({ swatch: undefined }),
        `${one}.swatch must be the name of a swatch`,
      ),
      kind(
        'a swatch by number',
        laying({ swatch: 2 }),
        `${one}.swatch must be the name of a swatch`,
      ),
      range(
        'a swatch that the palette has not',
        laying({ swatch: 'furr' }),
        `${one}.swatch must be the name of a swatch of the palette`,
        /did you mean "fur"/,
      ),
      kind('over as a number', laying({ over: 1 }), `${one}.over must be true or false`),
      kind('a note that is no text', laying({ note: 7 }), `${one}.note must be a string`),
      pointed('point', (p) => p, 'point'),
      pointed('fill', (p) => p, 'fill'),
      pointed('cut', (p) => [[0, 0], p], 'cut[1]'),
      pointed('join', (p) => [[0, 0], p], 'join[1]'),
      pointed('bridge', (p) => [[0, 0], p], 'bridge[1]'),
      pointed('open', (p) => [[0, 0], p], 'open[1]'),
      pointed('polygon', (p) => [[[0, 0], p]], 'polygon[0][1]'),
      range(
        'a cut of one point',
        marks({ cut: [[1, 1]] }),
        `${one}.cut must be a list of at least 2 points [x, y]`,
      ),
      range(
        'a join of one point',
        marks({ join: [[1, 1]] }),
        `${one}.join must be a list of at least 2 points [x, y]`,
      ),
      kind(
        'a bridge of three points',
        marks({
          bridge: [
            [1, 1],
            [2, 2],
            [3, 3],
          ],
        }),
        `${one}.bridge must be two points [[x, y], [x, y]]`,
      ),
      kind(
        'an open of one point',
        marks({ open: [[1, 1]] }),
        `${one}.open must be two points [[x, y], [x, y]]`,
      ),
      kind(
        'a polygon that is one ring',
        marks({
          polygon: [
            [0, 0],
            [1, 1],
          ],
          swatch: 'fur',
        }),
        `${one}.polygon[0] must be a ring`,
      ),
      ...(inside
        ? [
            range(
              'a point outside the picture',
              marks({ point: [6, 1], swatch: 'fur' }),
              `${one}.point must be inside the picture of 6 × 5`,
              /got \[6, 1\]/,
            ),
          ]
        : []),
    ),
    arg(
      'plan.settings',
      [...at, 'settings'],
      kind('null', () => null, 'options of plan.settings must be an object'),
      bad.namesBad('plan.settings', 'option', [...SETTINGS, 'exceptions']),
    ),
    ...settingsArgs([...at, 'settings'], 'plan.settings.'),
    exceptionsArg('plan.settings.exceptions', [...at, 'settings', 'exceptions']),
  ];
  return parts.map((part) => ({ ...part, bad: ofKind('a plan', '', part.bad) }));
}

export function exceptionsArg(name: string, at: Path): BadArgument {
  const with_ = (over: object) => () => [{ check: 'bare', ...over }];
  return arg(
    name,
    at,
    kind('an object', () => ({}), `${name} must be an array of exceptions`),
    kind('null in the list', () => [null], `${name}[0] must be an exception { check }`),
    kind(
      'an unknown field',
      with_({ notes: 'x' }),
      `${name}[0] has no option "notes"`,
      /did you mean "note"/,
    ),
    kind('no check', with_({ check: undefined }), `${name}[0].check must be the name of a check`),
    kind(
      'a swatch by number',
      with_({ swatch: 2 }),
      `${name}[0].swatch must be the name of a swatch`,
    ),
    kind('a note that is no text', with_({ note: 2 }), `${name}[0].note must be a string`),
    kind(
      'bounds that are no list',
      with_({ bounds: {} }),
      `${name}[0].bounds must be four numbers [x0, y0, x1, y1]`,
    ),
    range(
      'bounds of three numbers',
      with_({ bounds: [1, 2, 3] }),
      `${name}[0].bounds must be four numbers [x0, y0, x1, y1]`,
    ),
    range(
      'bounds of NaN',
      with_({ bounds: [Number.NaN, 0, 1, 1] }),
      `${name}[0].bounds must be four numbers [x0, y0, x1, y1]`,
    ),
    bad
      .pointBad(`${name}[0].at`)
      .filter(({ what }) => what !== 'nothing')
      .map((one) => ({ ...one, value: with_({ at: one.value() }) })),
  );
}

const inputArgs: BadArgument[] = [
  arg('ink', [0, 'ink'], bad.maskBad('ink')),
  arg(
    'coverage',
    [0, 'coverage'],
    bad.coverageBad('coverage', true),
    bad.otherSize('coverage', Uint8Array, 'ink'),
  ),
  arg(
    'input',
    [0],
    kind(
      'an unknown field',
      () => ({ ink: sound.ink(), cover: 1 }),
      'an input of layFlats has no option "cover"',
      /It takes: ink, coverage/,
    ),
  ),
];

const pixelsArg = arg(
  'pixels',
  [0],
  bad.pixelsBad('pixels'),
  kind(
    'a plan',
    sound.plan,
    'pixels must be line art, got a plan',
    /layFlats\(pixels, \{ plan \}\)/,
  ),
  kind(
    'what layFlats gave',
    sound.laid,
    'pixels must be line art, got what layFlats gives',
    /\{ ink \}/,
  ),
);

const otherStudy = (width: number, height: number) => () =>
  underink.studyGaps(underink.raster(new Uint8Array(width * height), [width, height]));

const studyArg = (at: Path) =>
  arg(
    'study',
    at,
    kind('null', () => null, 'study must be what studyGaps gives'),
    kind(
      'what it saves',
      () => underink.studyGaps(sound.ink()).save(),
      'study must be what studyGaps gives',
    ),
    range('that of other ink', otherStudy(6, 5), 'study must be of this very ink'),
    range(
      'that of ink of another size',
      otherStudy(3, 3),
      'study must be of ink of 6 × 5',
      /got 3 × 3/,
    ),
  );

/** Labels with the flats and the ink that go with them. */
const LAID: readonly BadArgument[] = [
  arg(
    'laid',
    [0],
    kind('nothing', nothing, 'laid must be what'),
    kind('null', () => null, 'laid must be what'),
    kind('a number', () => 7, 'laid must be what'),
    kind('an empty object', () => ({}), 'laid must be what'),
  ),
  arg('laid.labels', [0, 'labels'], bad.labelsBad('labels')),
];

const laidParts = () => {
  const { labels, flats, ink, report } = sound.laid();
  return { labels, flats, ink, report };
};

const carryTransform = arg(
  'transform',
  [3, 'transform'],
  kind('null', () => null, 'options of transform must be an object'),
  kind('a list', () => [1, 0, 0, 0], 'options of transform must be an object'),
  bad.namesBad('transform', 'option', ['a', 'b', 'dx', 'dy']),
  range(
    'a scale of 0',
    () => ({ a: 0, b: 0, dx: 0, dy: 0 }),
    'transform must have a scale above 0',
  ),
);
const carryFields = ['a', 'b', 'dx', 'dy'].map((key) =>
  arg(
    `transform.${key}`,
    [3, 'transform', key],
    bad.numberBad(`transform.${key}`, { min: Number.NEGATIVE_INFINITY, optional: false }),
  ),
);
const identity = () => ({ a: 1, b: 0, dx: 0, dy: 0 });
const mark = (name: string, at: number) => arg(name, [at], bad.maskBad(name));

const OUT_BYTES = bad.outBad(Uint8Array, Int32Array);

const within = (name: string): Bad[] => {
  const must = `${name} must be bounds [x0, y0, x1, y1] in whole pixels inside 6 × 5`;
  return [
    kind('null', () => null, must),
    kind('a number', () => 7, must),
    kind('texts', () => ['0', '0', '1', '1'], must),
    range('three numbers', () => [0, 0, 1], must),
    range('empty', () => [2, 2, 2, 3], must),
    range('negative', () => [-1, 0, 3, 3], must),
    range('beyond the picture', () => [0, 0, 7, 3], must),
    range('half a pixel', () => [0, 0, 1.5, 3], must),
    range('NaN', () => [0, 0, Number.NaN, 3], must),
  ];
};

export const FLATS_CALLS: readonly CallCases[] = [
  {
    call: 'layFlats',
    run: underink.layFlats,
    sound: () => [
      sound.rgb(),
      { plan: sound.plan(), outside: 'error', ...sound.settings(), ...watched() },
    ],
    takes: [...SETTINGS, 'plan', 'outside', 'study', 'onProgress', 'signal'],
    args: [
      pixelsArg,
      ...planArgs([1, 'plan'], true),
      arg('outside', [1, 'outside'], OUTSIDE),
      ...settingsArgs([1]),
      ...watchArgs(1),
      arg(
        'options',
        [1],
        kind(
          'a plan',
          sound.plan,
          'options of layFlats must hold the plan, got a plan',
          /pass \{ plan \}/,
        ),
      ),
    ],
  },
  {
    call: 'layFlats, of ink',
    run: underink.layFlats,
    sound: () => [
      { ink: sound.ink(), coverage: sound.coverage() },
      { study: underink.studyGaps(sound.ink(), { coverage: sound.coverage() }) },
    ],
    args: [
      ...inputArgs,
      studyArg([1, 'study']),
      arg(
        'coverage',
        [1, 'coverage'],
        range(
          'given beside the ink',
          () => ({ paper: 'white' }),
          'coverage must be left out where the ink is given',
        ),
      ),
      arg(
        'threshold',
        [1, 'threshold'],
        range(
          'given beside the ink',
          () => ({ method: 'otsu' }),
          'threshold must be left out where the ink is given',
        ),
      ),
    ],
  },
  {
    call: 'applyPlan',
    run: underink.applyPlan,
    sound: () => [
      sound.labels(),
      sound.plan(),
      { ink: sound.ink(), outside: 'error', unnamed: 'each', ground: 'ground' },
    ],
    takes: ['ink', 'outside', 'unnamed', 'ground'],
    args: [
      arg('labels', [0], bad.labelsBad('labels')),
      ...planArgs([1]),
      arg('ink', [2, 'ink'], bad.maskBad('ink', true), bad.otherSize('ink', Uint8Array, 'labels')),
      arg('outside', [2, 'outside'], OUTSIDE),
      arg('unnamed', [2, 'unnamed'], bad.oneOfBad('unnamed', ['each', 'shared', 'claim'])),
      groundArg('ground', [2, 'ground']),
    ],
  },
  {
    call: 'scalePlan',
    run: underink.scalePlan,
    sound: () => [sound.plan(), [12, 10]],
    args: [...planArgs([0], false, false), arg('size', [1], bad.sizeBad('size'))],
  },
  {
    call: 'draftPlan',
    run: underink.draftPlan,
    sound: () => [laidParts(), { reference: sound.flats() }],
    takes: ['reference'],
    args: [
      ...LAID,
      arg('laid.flats', [0, 'flats'], bad.flatsBad('laid.flats').slice(2)),
      arg(
        'reference',
        [1, 'reference'],
        kind('null', () => null, 'reference must be'),
        kind('a path', () => 'heron.png', 'reference must be'),
        bad.otherSize('reference', Uint8Array, 'labels'),
      ),
    ],
  },
  {
    call: 'compareReference',
    run: underink.compareReference,
    sound: () => [laidParts(), sound.rgb()],
    args: [
      ...LAID,
      arg(
        'reference',
        [1],
        bad.pixelsBad('reference'),
        bad.otherSize('reference', Uint8Array, 'labels'),
      ),
    ],
  },
  {
    call: 'listRegions',
    run: underink.listRegions,
    sound: () => [laidParts()],
    args: [
      ...LAID,
      arg('laid.ink', [0, 'ink'], bad.maskBad('ink', true)),
      arg('laid.flats', [0, 'flats'], bad.flatsBad('flats').slice(1)),
    ],
  },
  {
    call: 'regionSheet',
    run: underink.regionSheet,
    sound: () => [laidParts(), { line: sound.gray() }],
    takes: ['line'],
    args: [
      ...LAID,
      arg(
        'line',
        [1, 'line'],
        bad.pixelsBad('line', true),
        bad.otherSize('line', Uint8Array, 'labels'),
      ),
    ],
  },
  {
    call: 'composeSheet',
    run: underink.composeSheet,
    sound: () => [sound.flats(), { line: sound.gray(), backdrop: '#808080', within: [0, 0, 3, 3] }],
    takes: ['line', 'backdrop', 'within'],
    args: [
      ...FLATS,
      arg(
        'line',
        [1, 'line'],
        bad.pixelsBad('line', true),
        bad.otherSize('line', Uint8Array, 'flats'),
      ),
      arg('backdrop', [1, 'backdrop'], bad.colorBad('backdrop')),
      arg('within', [1, 'within'], within('within')),
    ],
  },
  {
    call: 'outlinesToSvg',
    run: underink.outlinesToSvg,
    sound: () => [
      underink.outlineRegions(sound.labels()),
      [6, 5],
      {
        fill: () => '#ffffff',
        title: nothing,
        flats: sound.flats(),
        resolution: sound.resolution(),
      },
    ],
    takes: ['fill', 'title', 'flats', 'resolution'],
    args: [
      arg(
        'outlines',
        [0],
        kind('nothing', nothing, 'outlines must be what outlineRegions gives'),
        kind('null', () => null, 'outlines must be what outlineRegions gives'),
        kind('labels', sound.labels, 'outlines must be what outlineRegions gives'),
        kind('null in the list', () => [null], 'outlines[0] must be an outline { label, rings }'),
        kind(
          'rings alone',
          () => [
            [
              [
                [0, 0],
                [1, 0],
                [1, 1],
              ],
            ],
          ],
          'outlines[0] must be an outline { label, rings }',
        ),
      ),
      arg(
        'outlines[0].label',
        [0, 0, 'label'],
        bad.numberBad('outlines[0].label', { integer: true, optional: false }),
      ),
      arg('outlines[0].rings', [0, 0, 'rings'], bad.ringsBad('outlines[0].rings')),
      arg(
        'size',
        [1],
        bad.sizeBad('size'),
        range('not that of flats', () => [5, 6], 'size must be that of flats, 6 × 5'),
      ),
      arg(
        'fill',
        [2, 'fill'],
        bad.callbackBad('fill'),
        range('one that gives no color', () => () => 'coral', 'fill(1) must be a color'),
      ),
      arg(
        'title',
        [2, 'title'],
        bad.callbackBad('title'),
        kind('one that gives no text', () => () => 7, 'title(1) must be a string or undefined'),
      ),
      arg('flats', [2, 'flats'], bad.flatsBad('flats').slice(1)),
      arg(
        'resolution',
        [2, 'resolution'],
        bad.resolutionBad(),
        range(
          'an unknown unit',
          () => ({ x: 1, y: 1, unit: 'unknown' }),
          'resolution.unit must be "meter"',
        ),
      ),
    ],
  },
  {
    call: 'carryFlats',
    run: underink.carryFlats,
    sound: () => [
      sound.flats(),
      sound.ink(),
      sound.ink(),
      { transform: identity(), maxGap: 3, caution: 0.5, ...watched() },
    ],
    takes: ['transform', 'onProgress', 'signal', 'maxGap', 'caution'],
    args: [
      ...FLATS,
      mark('fromInk', 1),
      mark('toInk', 2),
      carryTransform,
      ...carryFields,
      arg('maxGap', [3, 'maxGap'], bad.numberBad('maxGap', { unit: 'pixels' })),
      arg('caution', [3, 'caution'], bad.numberBad('caution', { max: 1 })),
      ...watchArgs(3),
    ],
  },
  {
    call: 'carryPlan',
    run: underink.carryPlan,
    sound: () => [sound.plan(), sound.ink(), sound.ink(), { transform: identity(), ...watched() }],
    takes: ['transform', 'onProgress', 'signal'],
    args: [
      ...planArgs([0], false, true, false),
      mark('fromInk', 1),
      mark('toInk', 2),
      carryTransform,
      ...carryFields,
      ...watchArgs(3),
    ],
  },
  {
    call: 'drawChanges',
    run: underink.drawChanges,
    sound: () => [
      underink.carryFlats(sound.flats(), sound.ink(), sound.ink(), { transform: identity() }),
      sound.ink(),
      sound.ink(),
    ],
    args: [
      arg(
        'carried',
        [0],
        kind('nothing', nothing, 'carried must be what carryFlats or carryPlan gives'),
        kind('null', () => null, 'carried must be what carryFlats or carryPlan gives'),
        kind('an empty object', () => ({}), 'carried must be what carryFlats or carryPlan gives'),
      ),
      mark('fromInk', 1),
      mark('toInk', 2),
    ],
  },
  {
    call: 'openPage',
    run: underink.openPage,
    sound: () => [sound.rgb(), { plan: sound.plan(), outside: 'error', ...watched() }],
    takes: ['plan', 'outside', 'study', 'onProgress', 'signal'],
    args: [
      pixelsArg,
      ...planArgs([1, 'plan'], true),
      arg('outside', [1, 'outside'], OUTSIDE),
      ...watchArgs(1),
    ],
  },
  {
    call: 'openPage, of ink',
    run: underink.openPage,
    sound: () => [
      { ink: sound.ink(), coverage: sound.coverage() },
      { study: underink.studyGaps(sound.ink(), { coverage: sound.coverage() }) },
    ],
    args: [...inputArgs, studyArg([1, 'study'])],
  },
  {
    call: 'openPage, of a saved page',
    run: underink.openPage,
    sound: () => [sound.inkPage().save()],
    args: [
      arg(
        'saved',
        [0],
        kind(
          'a saved study',
          () => underink.studyGaps(sound.ink()).save(),
          'saved must be what save() of a page gives',
        ),
      ),
      arg(
        'saved.version',
        [0, 'version'],
        range('another release', () => 99, 'saved.version must be', /got 99/),
      ),
      ...PAGE_PARTS,
    ],
  },
  {
    call: 'openPage().update',
    run: (page: underink.Page, plan: underink.Plan, options: object) => page.update(plan, options),
    sound: () => [
      sound.inkPage(),
      sound.plan(),
      {
        ...watched(),
        out: {
          labels: sound.outIds(),
          indices: sound.outBytes(),
          picture: underink.raster(new Uint8Array(120), [6, 5, 4]),
        },
      },
    ],
    takes: ['onProgress', 'signal', 'out'],
    args: [
      ...planArgs([1]),
      ...watchArgs(2),
      arg(
        'out',
        [2, 'out'],
        kind('null', () => null, 'options of out must be an object'),
        bad.namesBad('out', 'option', ['labels', 'indices', 'picture']),
      ),
      arg(
        'out.labels',
        [2, 'out', 'labels'],
        bad.outBad(Int32Array, Uint8Array).filter(({ what }) => what !== 'null'),
      ),
      arg(
        'out.indices',
        [2, 'out', 'indices'],
        OUT_BYTES.filter(({ what }) => what !== 'null'),
      ),
      arg(
        'out.picture',
        [2, 'out', 'picture'],
        kind(
          'samples of another type',
          () => ({ data: new Uint16Array(120), shape: [6, 5, 4], stride: [4, 24, 1], offset: 0 }),
          'out.picture must be a raster over a Uint8Array or a Uint8ClampedArray',
        ),
        range(
          'another shape',
          () => underink.raster(new Uint8Array(90), [6, 5, 3]),
          'out.picture must be of shape [6, 5, 4]',
        ),
        range(
          'by planes',
          () => ({ data: new Uint8Array(120), shape: [6, 5, 4], stride: [1, 6, 30], offset: 0 }),
          'out.picture must be dense and row-major',
        ),
      ),
    ],
  },
  {
    call: 'openPage().regionAt',
    run: (page: underink.Page, point: underink.Point) => page.regionAt(point),
    sound: () => [sound.inkPage(), [1, 1]],
    args: [arg('point', [1], bad.pointBad('point'))],
  },
  ...(['regionMask', 'regionOutline'] as const).map((method) => ({
    call: `openPage().${method}`,
    run: (page: underink.Page, id: number) => page[method](id),
    sound: () => [sound.inkPage(), 1],
    args: [
      arg(
        'id',
        [1],
        bad.numberBad('id', { integer: true, optional: false }),
        range('no region', () => 0, 'id must be the id of a region of the page'),
        range(
          'an id of no region',
          () => 77,
          'id must be the id of a region of the page',
          /got 77/,
        ),
      ),
    ],
  })),
  {
    call: 'openPage().leaksBetween',
    run: (page: underink.Page, a: underink.Point, b: underink.Point) => page.leaksBetween(a, b),
    sound: () => [sound.inkPage(), [0.5, 0.5], [5.5, 4.5]],
    args: [
      arg('a', [1], bad.pointBad('a', 'inside the picture of 6 × 5')),
      arg('b', [2], bad.pointBad('b', 'inside the picture of 6 × 5')),
    ],
  },
  {
    call: 'openPage().composeWithin',
    run: (page: underink.Page, bounds: underink.Bounds, options: object) =>
      page.composeWithin(bounds, options),
    sound: () => [sound.inkPage(), [0, 0, 3, 3], { backdrop: '#808080' }],
    takes: ['backdrop'],
    args: [
      arg('bounds', [1], within('bounds')),
      arg('backdrop', [2, 'backdrop'], bad.colorBad('backdrop')),
    ],
  },
];
