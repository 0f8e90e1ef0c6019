import * as underink from '../../../src/index.ts';
import { arg, type BadArgument, type CallCases, kind, range } from './case.ts';
import * as bad from './kinds.ts';
import { studyParts } from './saved.ts';
import * as sound from './sound.ts';

const COVERAGE = arg('coverage', [0], bad.coverageBad('coverage'));
const PIXELS = arg('pixels', [0], bad.pixelsBad('pixels'));
const MASK = arg('mask', [0], bad.maskBad('mask'));
const INK = arg('ink', [0], bad.maskBad('ink'));

function paperArg(at: readonly (string | number)[], prefix = ''): BadArgument {
  const must = 'paper must be one of "auto", "white", "transparent", "#rrggbb"';
  return arg(
    `${prefix}paper`,
    at,
    kind('null', () => null, must),
    kind('samples', () => [255, 255, 255], must),
    range('a near word', () => 'whit', must, /did you mean "white"/),
    range('three digits', () => '#fff', "paper must be a color '#rrggbb'", /write #ffffff/),
  );
}

export function dropHueArgs(at: readonly (string | number)[], prefix = ''): BadArgument[] {
  const must = 'dropHue must be true, false, "blue" or { hue, tolerance, minChroma }';
  return [
    arg(
      `${prefix}dropHue`,
      at,
      kind('null', () => null, must),
      kind('degrees', () => 210, must),
      kind('a list', () => [210], must),
      range('another word', () => 'red', must),
      bad.namesBad('dropHue', 'option', ['hue', 'tolerance', 'minChroma']),
    ),
    arg(
      `${prefix}dropHue.hue`,
      [...at, 'hue'],
      bad.numberBad('dropHue.hue', { max: 360, unit: 'degrees' }),
    ),
    arg(
      `${prefix}dropHue.tolerance`,
      [...at, 'tolerance'],
      bad.numberBad('dropHue.tolerance', { max: 180, unit: 'degrees' }),
    ),
    arg(
      `${prefix}dropHue.minChroma`,
      [...at, 'minChroma'],
      bad.numberBad('dropHue.minChroma', { min: 1, max: 255, unit: 'levels' }),
    ),
  ];
}

const HUE = { hue: 210, tolerance: 35, minChroma: 24 };

function smallParts(call: string, run: CallCases['run']): CallCases {
  return {
    call,
    run,
    sound: () => [sound.ink(), { maxArea: 4, connectivity: 8, out: sound.outBytes() }],
    takes: ['maxArea', 'connectivity', 'out'],
    args: [
      MASK,
      arg('maxArea', [1, 'maxArea'], bad.numberBad('maxArea', { integer: true, unit: 'pixels' })),
      arg('connectivity', [1, 'connectivity'], bad.oneOfBad('connectivity', [4, 8])),
      arg('out', [1, 'out'], bad.outBad(Uint8Array, Int32Array)),
    ],
  };
}

function thresholdCase(
  method: string,
  fields: Record<string, number>,
  args: BadArgument[],
  stray: BadArgument[] = [],
): CallCases {
  return {
    call: 'thresholdInk',
    run: underink.thresholdInk,
    sound: () => [sound.coverage(), { method, ...fields, normalize: false, out: sound.outBytes() }],
    args: [...args, ...stray],
  };
}

const level = (name: string, most = 254) =>
  arg(name, [1, name], bad.numberBad(name, { max: most, unit: 'coverage' }));

/** Points of groups, or ends of gaps, that `sealGaps` takes. */
function pointsArg(name: string, isGap: boolean, at: readonly (string | number)[]): BadArgument {
  const inside = 'inside the picture of 6 × 5';
  const group = (point: unknown) => () => [[[1, 1], point]];
  return arg(
    name,
    at,
    kind('null', () => null, `${name} must be`),
    kind('a number', () => 7, `${name} must be`),
    kind('a group of null', () => [null], `${name}[0] must be a list of points`),
    ...bad.pointBad('p', inside).map((one) => ({
      ...one,
      value: group(one.value()),
      says: `${name}[0][1]${one.says.slice(1)}`,
    })),
    ...(isGap
      ? [
          range(
            'three points',
            () => [
              [
                [1, 1],
                [2, 2],
                [3, 3],
              ],
            ],
            `${name}[0] must be two points [[x, y], [x, y]]`,
          ),
        ]
      : []),
  );
}

function sealArgs(at: number): BadArgument[] {
  return [
    arg('maxGap', [at, 'maxGap'], bad.numberBad('maxGap', { unit: 'pixels' })),
    arg('caution', [at, 'caution'], bad.numberBad('caution', { max: 1 })),
    pointsArg('apart', false, [at, 'apart']),
    pointsArg('together', false, [at, 'together']),
    pointsArg('bridge', true, [at, 'bridge']),
    pointsArg('open', true, [at, 'open']),
  ];
}

const SEAL = ['maxGap', 'caution', 'apart', 'together', 'bridge', 'open'];
const sealOptions = () => ({
  maxGap: 3,
  caution: 0.5,
  apart: [[[0.5, 0.5]]],
  together: [[[0.5, 0.5]]],
  bridge: [],
  open: [],
});

export const INK_AND_GAPS: readonly CallCases[] = [
  {
    call: 'inkCoverage',
    run: underink.inkCoverage,
    sound: () => [sound.rgb(), { paper: 'white', dropHue: HUE, out: sound.outBytes() }],
    takes: ['paper', 'dropHue', 'out'],
    args: [
      PIXELS,
      paperArg([1, 'paper']),
      ...dropHueArgs([1, 'dropHue']),
      arg('out', [1, 'out'], bad.outBad(Uint8Array, Int32Array)),
    ],
  },
  {
    call: 'clearPaper',
    run: underink.clearPaper,
    sound: () => [sound.rgb(), { paper: 'white', clear: 3, dropHue: HUE }],
    takes: ['paper', 'clear', 'dropHue'],
    args: [
      PIXELS,
      paperArg([1, 'paper']),
      arg(
        'clear',
        [1, 'clear'],
        bad.numberBad('clear', { max: 254, integer: true, unit: 'levels' }),
      ),
      ...dropHueArgs([1, 'dropHue']),
    ],
  },
  {
    call: 'normalizePaper',
    run: underink.normalizePaper,
    sound: () => [sound.rgb()],
    args: [PIXELS],
  },
  {
    call: 'chooseThreshold',
    run: underink.chooseThreshold,
    sound: () => [sound.coverage()],
    args: [COVERAGE],
  },
  { call: 'otsuLevel', run: underink.otsuLevel, sound: () => [sound.coverage()], args: [COVERAGE] },
  {
    ...thresholdCase('fixed', { level: 127 }, [
      COVERAGE,
      arg(
        'method',
        [1, 'method'],
        bad.oneOfBad('method', ['auto', 'fixed', 'hysteresis', 'otsu', 'sauvola']),
      ),
      arg('normalize', [1, 'normalize'], bad.trueOrFalseBad('normalize')),
      level('level'),
      arg(
        'window',
        [1, 'window'],
        range('given to another method', () => 15, 'window must be left out with method "fixed"'),
      ),
      arg('out', [1, 'out'], bad.outBad(Uint8Array, Int32Array)),
    ]),
    takes: ['method', 'level', 'weak', 'window', 'k', 'normalize', 'out'],
  },
  thresholdCase('hysteresis', { level: 127, weak: 50 }, [level('weak', 127)]),
  thresholdCase('sauvola', { window: 15, k: 0.3 }, [
    arg(
      'window',
      [1, 'window'],
      bad.numberBad('window', { min: 3, max: 32_767, integer: true, unit: 'pixels' }),
      range('even', () => 16, 'window must be an odd number of pixels', /got 16/),
    ),
    arg('k', [1, 'k'], bad.numberBad('k', { min: 0.01, max: 1 })),
  ]),
  smallParts('removeSpecks', underink.removeSpecks),
  smallParts('fillPinholes', underink.fillPinholes),
  { call: 'strokeEnds', run: underink.strokeEnds, sound: () => [sound.ink()], args: [MASK] },
  { call: 'strokeWidth', run: underink.strokeWidth, sound: () => [sound.ink()], args: [MASK] },
  { call: 'thinInk', run: underink.thinInk, sound: () => [sound.ink()], args: [MASK] },
  { call: 'passageTree', run: underink.passageTree, sound: () => [sound.ink()], args: [INK] },
  {
    call: 'passageTree().partition',
    run: (tree: underink.PassageTree, gap: number, options: object) => tree.partition(gap, options),
    sound: () => [underink.passageTree(sound.ink()), 3, { ratio: 3, out: sound.outIds() }],
    takes: ['ratio', 'out'],
    args: [
      arg('maxGap', [1], bad.numberBad('maxGap', { unit: 'pixels', optional: false })),
      arg('ratio', [2, 'ratio'], bad.numberBad('ratio', { min: 1.25 })),
      arg('out', [2, 'out'], bad.outBad(Int32Array, Uint8Array)),
    ],
  },
  {
    call: 'studyGaps',
    run: underink.studyGaps,
    sound: () => [sound.ink(), { coverage: sound.coverage() }],
    takes: ['coverage'],
    args: [
      INK,
      arg(
        'coverage',
        [1, 'coverage'],
        bad.coverageBad('coverage', true),
        bad.otherSize('coverage', Uint8Array, 'ink'),
      ),
    ],
  },
  {
    call: 'studyGaps().seal',
    run: (study: underink.GapStudy, options: object, tick: () => void) => study.seal(options, tick),
    sound: () => [underink.studyGaps(sound.ink()), sealOptions(), () => undefined],
    takes: SEAL,
    args: [...sealArgs(1), arg('tick', [2], bad.callbackBad('tick'))],
  },
  {
    call: 'sealGaps',
    run: underink.sealGaps,
    sound: () => [sound.ink(), sealOptions()],
    takes: SEAL,
    args: [INK, ...sealArgs(1)],
  },
  {
    call: 'restoreStudy',
    run: underink.restoreStudy,
    sound: () => [underink.studyGaps(sound.ink()).save()],
    args: [
      arg(
        'data',
        [0],
        kind('nothing', () => undefined, 'data must be what save() of a study gives'),
        kind('null', () => null, 'data must be what save() of a study gives'),
        kind('an empty object', () => ({}), 'data must be what save() of a study gives'),
        kind(
          'a text',
          () => JSON.stringify({ kind: 'underink gap study' }),
          'data must be what save()',
        ),
        kind('a mask', sound.ink, 'data must be what save() of a study gives'),
      ),
      arg(
        'data.version',
        [0, 'version'],
        range('another release', () => 99, 'data.version must be', /got 99/),
      ),
      arg('data.size', [0, 'size'], bad.sizeBad('data.size')),
      arg(
        'data.ink',
        [0, 'ink'],
        kind('nothing', () => undefined, 'data.ink must be a Uint32Array of 5 words'),
        kind('bytes', () => new Uint8Array(20), 'data.ink must be a Uint32Array of 5 words'),
        kind(
          'too few words',
          () => new Uint32Array(4),
          'data.ink must be a Uint32Array of 5 words',
        ),
        kind(
          'a detached buffer',
          () => bad.detached(new Uint32Array(5)),
          'data.ink must be a Uint32Array of 5 words',
        ),
        range(
          'bits past the width',
          () => Uint32Array.of(0, 0, 64, 0, 0),
          'data.ink[2] must be without bits past the width of 6',
        ),
      ),
      ...studyParts('data'),
    ],
  },
  {
    call: 'leaksBetween',
    run: underink.leaksBetween,
    sound: () => [sound.ink(), [0.5, 0.5], [5.5, 4.5], { coverage: sound.coverage() }],
    takes: ['coverage'],
    args: [
      INK,
      arg('a', [1], bad.pointBad('a', 'inside the picture of 6 × 5')),
      arg('b', [2], bad.pointBad('b', 'inside the picture of 6 × 5')),
      arg(
        'coverage',
        [3, 'coverage'],
        bad.coverageBad('coverage', true),
        bad.otherSize('coverage', Uint8Array, 'ink'),
      ),
    ],
  },
];
