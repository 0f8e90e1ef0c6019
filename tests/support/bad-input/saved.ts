import type * as underink from '../../../src/index.ts';
import { arg, type Bad, type BadArgument, kind, range } from './case.ts';
import * as bad from './kinds.ts';
import * as sound from './sound.ts';

/** What is wrong with parts of saved data, `data` or `saved`, found at the first place of all arguments. */
function part(
  owner: string,
  path: readonly (string | number)[],
  allowed: string,
  ...more: Bad[]
): BadArgument {
  const name = path.reduce<string>(
    (own, key) => (typeof key === 'number' ? `${own}[${key}]` : `${own}.${key}`),
    owner,
  );
  const must = `${name} must be ${allowed}`;
  return arg(
    name,
    [0, ...path],
    kind('null', () => null, must),
    kind('a text', () => 'shell', must),
    more,
  );
}

const SUM = 'the data was changed since it was saved';

/** What a saved study holds beside its size and its ink, under a name that leads to it. */
export function studyParts(owner: string): BadArgument[] {
  const own = (path: readonly (string | number)[], allowed: string, ...more: Bad[]) =>
    part(owner, path, allowed, ...more);
  const at = (key: string) => `${owner}.${key}`;
  return [
    own(['stroke'], 'an object { median, p10, p90 }'),
    own(['stroke', 'median'], 'a finite number >= 0'),
    own(
      ['ends'],
      'an array of ends of strokes',
      kind('a hole', () => [undefined], `${at('ends[0]')} must be an end`),
    ),
    own(
      ['candidates'],
      'an array of candidates',
      kind('a hole', () => [undefined], `${at('candidates[0]')} must be a candidate`),
      range(
        'one that lies outside',
        () => [{ ...CANDIDATE, toX: 7 }],
        `${at('candidates[0].toX')} must be a whole number from 0 to 5`,
      ),
      range(
        'one through pixels that are none',
        () => [{ ...CANDIDATE, pixels: Int32Array.of(30) }],
        `${at('candidates[0].pixels[0]')} must be a finite number from 0 to 29`,
      ),
      range(
        'one of an end that is none',
        () => [{ ...CANDIDATE, a: 400 }],
        `${at('candidates[0].a')} must be a whole number from -1 to`,
      ),
    ),
    own(
      ['texture'],
      'an array of bounds',
      range(
        'three edges',
        () => [[0, 0, 1]],
        `${at('texture[0]')} must be bounds [x0, y0, x1, y1]`,
        /got \[0, 0, 1\]/,
      ),
    ),
    arg(
      at('sum'),
      [0, 'sum'],
      range(
        'another number',
        () => 1,
        `${at('sum')} must be the sum of what it holds`,
        new RegExp(SUM),
      ),
      range(
        'nothing',
        () => undefined,
        `${at('sum')} must be the sum of what it holds`,
        new RegExp(SUM),
      ),
    ),
  ];
}

const CANDIDATE = {
  ...{ fromX: 0, fromY: 0, toX: 1, toY: 1, length: 1, width: 1, odds: 0, seen: '', a: -1, b: -1 },
  pixels: new Int32Array(0),
};

const own = (path: readonly (string | number)[], allowed: string, ...more: Bad[]) =>
  part('saved', path, allowed, ...more);

/** What a saved page holds beside its version. */
export const PAGE_PARTS: readonly BadArgument[] = [
  arg('saved.size', [0, 'size'], bad.sizeBad('saved.size')),
  arg(
    'saved.plan',
    [0, 'plan'],
    kind('null', () => null, 'plan must be an object'),
    range('another plan', otherPlan, 'saved.sum must be the sum of what it holds', new RegExp(SUM)),
  ),
  arg('saved.outside', [0, 'outside'], bad.oneOfBad('saved.outside', ['error', 'report'])),
  own(
    ['coverage'],
    'a Uint8Array of 30 bytes',
    kind('too few bytes', () => new Uint8Array(29), 'saved.coverage must be a Uint8Array of 30'),
    range(
      'another coverage',
      () => new Uint8Array(30),
      'saved.sum must be the sum of what it holds',
      new RegExp(SUM),
    ),
  ),
  own(['study'], 'what save() of a study gives'),
  own(['found'], 'an object'),
  own(['found', 'inkPixels'], 'a whole number from 0 to 30'),
  own(['found', 'notes'], 'an array of notes'),
  arg('saved.asked', [0, 'asked'], bad.stringBad('saved.asked', 'a string', false)),
  own(['decided'], 'an object'),
  own(
    ['decided', 'closed'],
    'an Int32Array',
    range(
      'a pixel outside',
      () => Int32Array.of(30),
      'saved.decided.closed[0] must be a finite number from 0 to 29',
    ),
    range(
      'pixels out of order',
      () => Int32Array.of(14, 1),
      'saved.decided.closed[1] must be a finite number from 15 to 29',
    ),
    range(
      'a pixel of ink',
      () => Int32Array.of(7),
      'saved.decided.closed[0] must be a pixel of paper',
    ),
  ),
  own(['decided', 'bridges'], 'an array of bridges'),
  own(['decided', 'claims'], 'an array of claims'),
  own(['decided', 'unmet'], 'an array of places of marks'),
  ...(['grown', 'rows'] as const).flatMap((rows) => [
    own([rows], 'an object { lengths, data }'),
    own([rows, 'lengths'], 'an Int32Array of 5 numbers'),
    own([rows, 'data'], 'an Int32Array of'),
  ]),
  own(['nextId'], 'a whole number from 1 to 2147483647'),
  own(['ids'], 'an Int32Array'),
  own(['measured'], 'an object'),
  own(['measured', 'areas'], 'an Int32Array of'),
  own(['measured', 'bounds'], 'an Int32Array of'),
  own(['discs'], 'an array of [id, value]'),
  own(['placeholders'], 'an array of [id, value]'),
  own(['assigned'], 'an object'),
  own(['assigned', 'palette'], 'an array of swatches { name, color }'),
  own(['assigned', 'indexOf'], 'an Int32Array of'),
  own(['report'], 'an object'),
  own(
    ['report', 'conflicts'],
    'an array of conflicts',
    kind('a hole', () => [undefined], 'saved.report.conflicts[0] must be a conflict'),
    range(
      'one that lies outside',
      () => [{ point: [0, 6], by: 0 }],
      'saved.report.conflicts[0].point must be a finite number from 0 to 5',
    ),
  ),
];

function otherPlan(): underink.Plan {
  return { ...sound.plan(), marks: [] };
}
