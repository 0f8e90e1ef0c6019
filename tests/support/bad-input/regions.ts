import * as underink from '../../../src/index.ts';
import { arg, type BadArgument, type CallCases, kind, range } from './case.ts';
import * as bad from './kinds.ts';
import * as sound from './sound.ts';

const LABELS = arg('labels', [0], bad.labelsBad('labels'));
const TARGET = arg('target', [0], bad.anyRasterBad('target'));
const RASTER = arg('raster', [0], bad.anyRasterBad('raster'));
const INSIDE = 'inside the raster of 6 × 5';

const truthAndFound = (): BadArgument[] => [
  arg('truth', [0], bad.labelsBad('truth')),
  arg('found', [1], bad.labelsBad('found'), bad.otherSize('found', Int32Array, 'truth')),
];

function valueArg(name: string, at: number): BadArgument {
  const whole = `${name} must be a whole number from 0 to 255, as Uint8Array holds`;
  const must = `${name} must be a number`;
  return arg(
    name,
    [at],
    kind('nothing', () => undefined, must),
    kind('null', () => null, must),
    kind('a color', () => '#d2603a', must),
    range('more numbers than channels', () => [1, 2], must),
    range('negative', () => -1, whole, /got -1/),
    range('more than a byte holds', () => 256, whole, /got 256/),
    range('half a level', () => 1.5, whole),
    range('NaN', () => Number.NaN, whole),
    range('infinite', () => 1 / 0, whole),
  );
}

function matchArgs(at: number): BadArgument[] {
  const tolerance = 'tolerance must be a number >= 0';
  return [
    arg(
      'tolerance',
      [at, 'tolerance'],
      kind('null', () => null, tolerance),
      kind('a text', () => '3', tolerance),
      range('negative', () => -1, tolerance),
      range('NaN', () => Number.NaN, tolerance),
      range('more numbers than channels', () => [1, 2], tolerance),
    ),
    arg('barrier', [at, 'barrier'], bad.maskBad('barrier', true)),
    onlyArg(at),
  ];
}

function onlyArg(at: number): BadArgument {
  return arg(
    'only',
    [at, 'only'],
    kind('null', () => null, 'only must be a number or a list of values'),
    kind('a text', () => '3', 'only must be a number or a list of values'),
    range('negative', () => -1, 'only must be a whole number from 0 to 255'),
    range('NaN in a list', () => [Number.NaN], 'only[0] must be a whole number from 0 to 255'),
    kind('a hole', () => [undefined], 'only[0] must be a number'),
  );
}

const MATCH = ['tolerance', 'barrier', 'only'];
const none = () => underink.raster(new Uint8Array(30), [6, 5]);
const match = () => ({ tolerance: 1, barrier: none(), only: [0, 1] });
const RULE = bad.oneOfBad('rule', ['evenodd', 'nonzero']);
const RING = [
  [
    [1, 1],
    [4, 1],
    [4, 3],
  ],
];
const line = [
  [1, 1],
  [2, 2],
];

function lineArg(name: string, at: number): BadArgument {
  return arg(
    name,
    [at],
    kind('nothing', () => undefined, `${name} must be`),
    kind('null', () => null, `${name} must be`),
    range('empty', () => [], `${name} must be`),
    range('one point', () => [[1, 1]], `${name} must be`),
    ...bad.pointBad('p').map((one) => ({
      ...one,
      value: () => [[0, 0], one.value()],
      says: `${name}[1]${one.says.slice(1)}`,
    })),
  );
}

export const REGIONS: readonly CallCases[] = [
  {
    call: 'labelRegions',
    run: underink.labelRegions,
    sound: () => [sound.ink(), { of: 0, connectivity: 4, out: sound.outIds() }],
    takes: ['of', 'connectivity', 'out'],
    args: [
      arg('mask', [0], bad.maskBad('mask')),
      arg('of', [1, 'of'], bad.oneOfBad('of', [0, 1])),
      arg('connectivity', [1, 'connectivity'], bad.oneOfBad('connectivity', [4, 8])),
      arg('out', [1, 'out'], bad.outBad(Int32Array, Uint8Array)),
    ],
  },
  {
    call: 'labelEqual',
    run: underink.labelEqual,
    sound: () => [sound.rgb(), { connectivity: 4, background: 0 }],
    takes: ['connectivity', 'background'],
    args: [
      RASTER,
      arg('connectivity', [1, 'connectivity'], bad.oneOfBad('connectivity', [4, 8])),
      arg(
        'background',
        [1, 'background'],
        bad.numberBad('background', { min: Number.NEGATIVE_INFINITY }),
      ),
    ],
  },
  {
    call: 'measureRegions',
    run: underink.measureRegions,
    sound: () => [sound.labels()],
    args: [LABELS],
  },
  {
    call: 'regionAdjacency',
    run: underink.regionAdjacency,
    sound: () => [sound.labels()],
    args: [LABELS],
  },
  { call: 'relabel', run: underink.relabel, sound: () => [sound.labels()], args: [LABELS] },
  {
    call: 'regionAt',
    run: underink.regionAt,
    sound: () => [sound.labels(), [1, 1]],
    args: [
      arg(
        'labels',
        [0],
        bad.labelsBad('labels').filter(({ what }) => what !== 'a negative id'),
      ),
      arg('point', [1], bad.pointBad('point')),
    ],
  },
  {
    call: 'growUnderInk',
    run: underink.growUnderInk,
    sound: () => [sound.labels(), sound.ink(), { coverage: sound.coverage(), out: sound.outIds() }],
    takes: ['coverage', 'out'],
    args: [
      LABELS,
      arg('ink', [1], bad.maskBad('ink'), bad.otherSize('ink', Uint8Array, 'labels')),
      arg(
        'coverage',
        [2, 'coverage'],
        bad.coverageBad('coverage', true),
        bad.otherSize('coverage', Uint8Array, 'labels'),
      ),
      arg('out', [2, 'out'], bad.outBad(Int32Array, Uint8Array)),
    ],
  },
  {
    call: 'absorbRegions',
    run: underink.absorbRegions,
    sound: () => [sound.labels(), { maxArea: 1, areas: [0, 28, 2] }],
    takes: ['maxArea', 'areas'],
    args: [
      LABELS,
      arg('maxArea', [1, 'maxArea'], bad.numberBad('maxArea', { unit: 'pixels' })),
      arg(
        'areas',
        [1, 'areas'],
        kind('null', () => null, 'areas must be areas by id'),
        kind('a number', () => 7, 'areas must be areas by id'),
        kind('an object', () => ({}), 'areas must be areas by id'),
        kind('too few', () => [0, 28], 'areas[2] must be a finite number of pixels >= 1'),
        range('an area of 0', () => [0, 0, 2], 'areas[1] must be a finite number of pixels >= 1'),
        range('NaN', () => [0, 28, Number.NaN], 'areas[2] must be a finite number of pixels >= 1'),
        kind(
          'a detached buffer',
          () => bad.detached(new Int32Array(3)),
          'areas[1] must be a finite number',
        ),
      ),
    ],
  },
  {
    call: 'outlineRegions',
    run: underink.outlineRegions,
    sound: () => [sound.labels(), { simplify: 1 }],
    takes: ['simplify'],
    args: [LABELS, arg('simplify', [1, 'simplify'], bad.numberBad('simplify', { unit: 'pixels' }))],
  },
  {
    call: 'splitRegion',
    run: underink.splitRegion,
    sound: () => [sound.grown(), 2, line, { ink: sound.ink() }],
    takes: ['ink'],
    args: [
      LABELS,
      arg(
        'id',
        [1],
        bad.numberBad('id', { min: 1, integer: true, optional: false }),
        range('an id of no region', () => 77, 'id must occur in labels', /got 77/),
      ),
      lineArg('polyline', 2),
      arg('ink', [3, 'ink'], bad.maskBad('ink', true), bad.otherSize('ink', Uint8Array, 'labels')),
    ],
  },
  {
    call: 'mergeRegions',
    run: underink.mergeRegions,
    sound: () => [sound.labels(), [1, 2]],
    args: [
      LABELS,
      arg(
        'ids',
        [1],
        kind('nothing', () => undefined, 'ids must be a list of region ids'),
        kind('one id', () => 1, 'ids must be a list of region ids'),
        kind('typed ids', () => new Int32Array([1, 2]), 'ids must be a list of region ids'),
        range('empty', () => [], 'ids must be a list of at least one region id'),
        kind('a text', () => [1, '2'], 'ids[1] must be a whole number >= 1'),
        kind('a hole', () => [1, undefined], 'ids[1] must be a whole number >= 1'),
        range('the id of no region', () => [1, 0], 'ids[1] must be a whole number >= 1'),
        range('NaN', () => [Number.NaN], 'ids[0] must be a whole number >= 1'),
        range('an id that does not occur', () => [1, 77], 'ids[1] must occur in labels', /got 77/),
      ),
    ],
  },
  {
    call: 'adjustedRandIndex',
    run: underink.adjustedRandIndex,
    sound: () => [sound.labels(), sound.grown()],
    args: truthAndFound(),
  },
  {
    call: 'variationOfInformation',
    run: underink.variationOfInformation,
    sound: () => [sound.labels(), sound.grown()],
    args: truthAndFound(),
  },
  {
    call: 'regionScores',
    run: underink.regionScores,
    sound: () => [sound.labels(), sound.grown(), { iou: 0.8 }],
    takes: ['iou'],
    args: [
      ...truthAndFound(),
      arg(
        'iou',
        [2, 'iou'],
        bad.numberBad('iou', { max: 1 }),
        range('a share of half', () => 0.5, 'iou must be a share above 0.5, up to 1', /got 0.5/),
      ),
    ],
  },
  {
    call: 'correctionsNeeded',
    run: underink.correctionsNeeded,
    sound: () => [sound.labels(), sound.grown(), { minArea: 1, minShare: 0.1 }],
    takes: ['minArea', 'minShare'],
    args: [
      ...truthAndFound(),
      arg('minArea', [2, 'minArea'], bad.numberBad('minArea', { unit: 'pixels' })),
      arg('minShare', [2, 'minShare'], bad.numberBad('minShare', { max: 1 })),
    ],
  },
  {
    call: 'rasterizePolygon',
    run: underink.rasterizePolygon,
    sound: () => [RING, [6, 5], { rule: 'nonzero', out: sound.outBytes() }],
    takes: ['rule', 'out'],
    args: [
      arg('rings', [0], bad.ringsBad('rings')),
      arg('size', [1], bad.sizeBad('size')),
      arg('rule', [2, 'rule'], RULE),
      arg('out', [2, 'out'], bad.outBad(Uint8Array, Int32Array)),
    ],
  },
  {
    call: 'fillPolygon',
    run: underink.fillPolygon,
    sound: () => [sound.ink(), RING, 3, { rule: 'evenodd', only: [0], barrier: none() }],
    takes: ['rule', 'only', 'barrier'],
    args: [
      TARGET,
      arg('rings', [1], bad.ringsBad('rings')),
      valueArg('value', 2),
      arg('rule', [3, 'rule'], RULE),
      onlyArg(3),
      arg(
        'barrier',
        [3, 'barrier'],
        bad.maskBad('barrier', true),
        bad.otherSize('barrier', Uint8Array, 'the raster'),
      ),
    ],
  },
  {
    call: 'floodFill',
    run: underink.floodFill,
    sound: () => [sound.ink(), [0, 0], 3, { connectivity: 4, ...match() }],
    takes: ['connectivity', ...MATCH],
    args: [
      TARGET,
      arg('seed', [1], bad.pointBad('seed', INSIDE)),
      valueArg('value', 2),
      arg('connectivity', [3, 'connectivity'], bad.oneOfBad('connectivity', [4, 8])),
      ...matchArgs(3),
    ],
  },
  {
    call: 'floodRegion',
    run: underink.floodRegion,
    sound: () => [sound.ink(), [0, 0], { connectivity: 4, ...match() }],
    takes: ['connectivity', ...MATCH],
    args: [
      RASTER,
      arg('seed', [1], bad.pointBad('seed', INSIDE)),
      arg('connectivity', [2, 'connectivity'], bad.oneOfBad('connectivity', [4, 8])),
      ...matchArgs(2),
    ],
  },
  {
    call: 'replaceValue',
    run: underink.replaceValue,
    sound: () => [sound.ink(), 0, 3, match()],
    takes: MATCH,
    args: [TARGET, valueArg('value', 1), valueArg('replacement', 2), ...matchArgs(3)],
  },
  {
    call: 'selectValue',
    run: underink.selectValue,
    sound: () => [sound.ink(), 0, match()],
    takes: MATCH,
    args: [RASTER, valueArg('value', 1), ...matchArgs(2)],
  },
];
