import * as underink from '../../../src/index.ts';
import { arg, type Bad, type BadArgument, type CallCases, kind, type Path, range } from './case.ts';
import { exceptionsArg } from './flats.ts';
import * as bad from './kinds.ts';
import * as sound from './sound.ts';

const nothing = () => undefined;
const SEVERITY = ['error', 'warning', 'information'];
const rule = () => underink.mustTouch('fur', 'scarf');
const report = () => ({
  bridges: [{ from: [1, 1], to: [2, 2], drawn: true }],
  unnamed: [{ id: 1, inside: [1, 1], area: 1, bounds: [1, 1, 2, 2] }],
});

function reportArg(name: string, at: Path): BadArgument {
  const with_ = (over: object) => () => ({ ...report(), ...over });
  return arg(
    name,
    at,
    kind('null', () => null, `${name} must be the report of layFlats`),
    kind('what layFlats gives', sound.laid, `${name} must be the report of layFlats`),
    kind(
      'a bridge without an end',
      with_({ bridges: [{ from: [1, 1] }] }),
      `${name}.bridges[0].to must be a point`,
    ),
    kind('null as a bridge', with_({ bridges: [null] }), `${name}.bridges[0].from must be a point`),
    kind(
      'no unnamed',
      with_({ unnamed: undefined }),
      `${name}.unnamed must be a list of regions or their number`,
    ),
    range(
      'a region at NaN',
      with_({ unnamed: [{ inside: [Number.NaN, 1] }] }),
      `${name}.unnamed[0].inside must be a point of finite numbers`,
    ),
  );
}

function checksArg(at: Path): BadArgument {
  return arg(
    'checks',
    at,
    kind('null', () => null, 'options of checks must be an object'),
    kind('a name alone', () => 'bare', 'options of checks must be an object'),
    kind('a check of its own alone', rule, 'checks has no option'),
    range('a near name', () => ['bar'], 'checks[0] must be one of', /did you mean "bare"/),
    kind('a number', () => [7], 'checks[0] must be one of'),
    kind(
      'an unknown check',
      () => ({ bares: true }),
      'checks has no option "bares"',
      /did you mean "bare"/,
    ),
    kind(
      'a setting that is none',
      () => ({ bare: 'yes' }),
      'checks.bare must be true, false or settings',
    ),
    kind(
      'an unknown threshold',
      () => ({ specks: { maxAreas: 3 } }),
      'checks.specks has no option "maxAreas"',
      /did you mean "maxArea"/,
    ),
    range(
      'a threshold of NaN',
      () => ({ specks: { maxArea: Number.NaN } }),
      'checks.specks.maxArea must be a finite number >= 0',
    ),
    range(
      'a negative threshold',
      () => ({ specks: { maxArea: -1 } }),
      'checks.specks.maxArea must be a finite number >= 0',
    ),
    range(
      'a severity that is none',
      () => ({ bare: { severity: 'fatal' } }),
      'checks.bare.severity must be one of',
    ),
    kind(
      'own checks that are none',
      () => ({ own: [() => []] }),
      'checks.own must be an array of checks made by defineCheck',
    ),
  );
}

const watchArgs: BadArgument[] = [
  arg('onProgress', [1, 'onProgress'], bad.callbackBad('onProgress')),
  arg('signal', [1, 'signal'], bad.signalBad()),
];
const watched = () => ({ onProgress: nothing, signal: new AbortController().signal });

function findingsArg(): BadArgument[] {
  const with_ = (over: object) => () => [{ ...sound.findings()[0], ...over }];
  return [
    arg(
      'findings',
      [0],
      kind('nothing', nothing, 'findings must be an array of findings'),
      kind('null', () => null, 'findings must be an array of findings'),
      kind('one finding', () => sound.findings()[0], 'findings must be an array of findings'),
      kind('null in the list', () => [null], 'findings[0] must be a finding of checkFlats'),
      kind('no message', with_({ message: 7 }), 'findings[0] must be a finding of checkFlats'),
      kind('no place', with_({ at: undefined }), 'findings[0] must be a finding of checkFlats'),
      kind('no bounds', with_({ bounds: null }), 'findings[0] must be a finding of checkFlats'),
      range(
        'a severity that is none',
        with_({ severity: 'fatal' }),
        'findings[0].severity must be one of',
      ),
    ),
  ];
}

function sheetNames(at: Path): BadArgument {
  return arg(
    'sheets',
    at,
    kind('null', () => null, 'sheets must be an array of names'),
    kind('one name', () => 'heron', 'sheets must be an array of names'),
    kind('a number', () => [7], 'sheets[0] must be a string'),
  );
}

function namesOfTwo(call: string, run: CallCases['run']): CallCases {
  const wrong = (name: string): Bad[] => [
    kind('nothing', nothing, `${name} must be the name of a swatch`),
    kind('null', () => null, `${name} must be the name of a swatch`),
    kind('a number', () => 7, `${name} must be the name of a swatch`),
    range('empty', () => '', `${name} must be the name of a swatch`),
  ];
  return {
    call,
    run,
    sound: () => ['fur', 'scarf'],
    args: [
      arg('a', [0], wrong('a')),
      arg(
        'b',
        [1],
        wrong('b'),
        range('the same as a', () => 'fur', 'b must be another swatch than a', /got "fur"/),
      ),
    ],
  };
}

export const CHECKS: readonly CallCases[] = [
  {
    call: 'checkFlats',
    run: underink.checkFlats,
    sound: () => [
      sound.flats(),
      {
        ink: sound.ink(),
        coverage: sound.coverage(),
        palette: sound.swatches(),
        report: report(),
        checks: ['bare', rule()],
        exceptions: [],
        ...watched(),
      },
    ],
    takes: ['ink', 'coverage', 'palette', 'report', 'checks', 'exceptions', 'onProgress', 'signal'],
    args: [
      arg(
        'flats',
        [0],
        kind('nothing', nothing, 'flats must be'),
        kind('null', () => null, 'flats must be'),
        kind('a number', () => 7, 'flats must be'),
        kind('the bytes of a file', () => new Uint8Array(8), 'flats must be'),
        kind('an empty object', () => ({}), 'flats must be'),
      ),
      ...bad.flatsPartsBad('flats', [0]),
      arg('ink', [1, 'ink'], bad.maskBad('ink', true), bad.otherSize('ink', Uint8Array, 'flats')),
      arg(
        'coverage',
        [1, 'coverage'],
        bad.coverageBad('coverage', true),
        bad.otherSize('coverage', Uint8Array, 'flats'),
      ),
      arg('palette', [1, 'palette'], bad.paletteBad('palette', 'either', true)),
      reportArg('report', [1, 'report']),
      checksArg([1, 'checks']),
      exceptionsArg('exceptions', [1, 'exceptions']),
      ...watchArgs,
    ],
  },
  {
    call: 'checkFlats, without ink',
    run: underink.checkFlats,
    sound: () => [sound.flats(), {}],
    args: [
      arg(
        'ink',
        [1],
        range(
          'left out where a check needs it',
          () => ({ checks: ['seams'] }),
          'ink must be given for the check "seams"',
        ),
      ),
      arg(
        'coverage',
        [1],
        range(
          'left out where a check needs it',
          () => ({ checks: ['halo'] }),
          'coverage must be given for the check "halo"',
        ),
      ),
    ],
  },
  {
    call: 'checkSheets',
    run: underink.checkSheets,
    sound: () => [
      [
        {
          name: 'heron',
          flats: sound.flats(),
          ink: sound.ink(),
          coverage: sound.coverage(),
          report: report(),
        },
      ],
      {
        palette: sound.swatches(),
        checks: { bare: true },
        exceptions: [{ check: 'bare', sheet: 'heron' }],
        ...watched(),
      },
    ],
    takes: ['palette', 'checks', 'exceptions', 'onProgress', 'signal'],
    args: [
      arg(
        'sheets',
        [0],
        kind('nothing', nothing, 'sheets must be an array of { name, flats }'),
        kind(
          'an object by name',
          () => ({ heron: sound.flats() }),
          'sheets must be an array of { name, flats }',
        ),
        kind('null as a sheet', () => [null], 'options of sheets[0] must be an object'),
        kind(
          'an unknown field',
          () => [{ name: 'heron', flat: sound.flats() }],
          'sheets[0] has no option "flat"',
          /did you mean "flats"/,
        ),
        kind('no name', () => [{ flats: sound.flats() }], 'sheets[0].name must be a string'),
        range(
          'a name twice',
          () => [...sound.sheets(), ...sound.sheets()],
          'sheets[1].name must be unique among the sheets',
        ),
        kind('no flats', () => [{ name: 'heron' }], 'sheets[0].flats must be'),
      ),
      arg('sheets[0].ink', [0, 0, 'ink'], bad.maskBad('sheets[0].ink', true)),
      arg('sheets[0].coverage', [0, 0, 'coverage'], bad.coverageBad('sheets[0].coverage', true)),
      reportArg('sheets[0].report', [0, 0, 'report']),
      arg('palette', [1, 'palette'], bad.paletteBad('palette', 'either', true)),
      checksArg([1, 'checks']),
      exceptionsArg('exceptions', [1, 'exceptions']),
      arg(
        'exceptions[0].sheet',
        [1, 'exceptions', 0, 'sheet'],
        range(
          'a near name',
          () => 'herron',
          'exceptions[0].sheet must be one of "heron"',
          /did you mean "heron"/,
        ),
        kind('a number', () => 7, 'exceptions[0].sheet must be one of "heron"'),
      ),
      ...watchArgs,
    ],
  },
  {
    call: 'defineCheck',
    run: underink.defineCheck,
    sound: () => [
      'fur',
      () => [],
      { severity: 'error', needs: ['ink'], onRequest: false, thresholds: { most: 3 } },
    ],
    takes: ['severity', 'needs', 'onRequest', 'thresholds'],
    args: [
      arg(
        'name',
        [0],
        bad.stringBad('name', 'a string', false),
        range('empty', () => '', 'name must be a string that is not empty'),
      ),
      arg('fn', [1], kind('nothing', nothing, 'fn must be a function'), bad.callbackBad('fn')),
      arg('severity', [2, 'severity'], bad.oneOfBad('severity', SEVERITY)),
      arg(
        'needs',
        [2, 'needs'],
        kind('null', () => null, 'needs must be an array of option names'),
        kind('one name', () => 'ink', 'needs must be an array of option names'),
        range('a near name', () => ['inks'], 'needs[0] must be one of', /did you mean "ink"/),
      ),
      arg('onRequest', [2, 'onRequest'], bad.trueOrFalseBad('onRequest')),
      arg(
        'thresholds',
        [2, 'thresholds'],
        kind('null', () => null, 'thresholds must be an object'),
        kind('a text', () => 'most', 'thresholds must be an object'),
        kind(
          'a threshold that is a text',
          () => ({ most: '3' }),
          'thresholds.most must be a finite number >= 0',
        ),
        range(
          'a threshold of NaN',
          () => ({ most: Number.NaN }),
          'thresholds.most must be a finite number >= 0',
        ),
      ),
    ],
  },
  {
    call: 'findingMask',
    run: underink.findingMask,
    sound: () => [sound.findings()[0], [6, 5]],
    args: [
      arg(
        'finding',
        [0],
        kind('nothing', nothing, 'finding must be a finding of checkFlats'),
        kind('null', () => null, 'finding must be a finding of checkFlats'),
        kind('a list of findings', sound.findings, 'finding must be a finding of checkFlats'),
        range(
          'one that lies outside',
          () => ({ ...sound.findings()[0], bounds: [0, 0, 9, 2] }),
          'finding must lie in the picture of 6 × 5',
        ),
      ),
      arg('size', [1], bad.sizeBad('size')),
    ],
  },
  {
    call: 'drawFindings',
    run: underink.drawFindings,
    sound: () => [sound.findings(), [6, 5], { over: sound.gray() }],
    takes: ['over'],
    args: [
      ...findingsArg(),
      arg('size', [1], bad.sizeBad('size')),
      arg('over', [2, 'over'], bad.pixelsBad('over', true)),
    ],
  },
  {
    call: 'findingsToHtml',
    run: underink.findingsToHtml,
    sound: () => [
      sound.findings(),
      { title: 'Findings', sheets: [], picture: sound.gray(), crops: 3 },
    ],
    takes: ['title', 'sheets', 'picture', 'crops'],
    args: [
      ...findingsArg(),
      arg('title', [1, 'title'], bad.stringBad('title')),
      sheetNames([1, 'sheets']),
      arg('picture', [1, 'picture'], bad.pixelsBad('picture', true)),
      arg('crops', [1, 'crops'], bad.numberBad('crops')),
    ],
  },
  {
    call: 'findingsToText',
    run: underink.findingsToText,
    sound: () => [sound.findings(), { sheets: ['heron'] }],
    takes: ['sheets'],
    args: [...findingsArg(), sheetNames([1, 'sheets'])],
  },
  {
    call: 'summarizeFindings',
    run: underink.summarizeFindings,
    sound: () => [sound.findings()],
    args: findingsArg(),
  },
  {
    call: 'areaBetween',
    run: underink.areaBetween,
    sound: () => ['fur', 1, 9],
    args: [
      arg(
        'swatch',
        [0],
        kind('nothing', nothing, 'swatch must be the name of a swatch'),
        kind('a number', () => 7, 'swatch must be the name of a swatch'),
        range('empty', () => '', 'swatch must be the name of a swatch'),
      ),
      arg('min', [1], bad.numberBad('min', { unit: 'pixels', optional: false })),
      arg(
        'max',
        [2],
        bad
          .numberBad('max', { unit: 'pixels', min: 1, optional: false })
          .filter(({ what }) => what !== 'infinite'),
      ),
    ],
  },
  namesOfTwo('mustTouch', underink.mustTouch),
  namesOfTwo('neverTouches', underink.neverTouches),
  namesOfTwo('staysWithin', underink.staysWithin),
];
