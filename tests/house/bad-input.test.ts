import { readFileSync, writeFileSync } from 'node:fs';
import ndarray from 'ndarray';
import { describe, expect, it } from 'vitest';
import { Page } from '../../src/flats/page/page.ts';
import * as underink from '../../src/index.ts';
import type { RasterData } from '../../src/raster/index.ts';
import { errorsPage } from '../support/bad-input/errors-page.ts';
import { hardened } from '../support/bad-input/hardened.ts';
import { refusal, thrownBy } from '../support/bad-input/refusal.ts';
import { relaid } from '../support/bad-input/relaid.ts';
import { CALLS } from '../support/bad-input/table.ts';
import { LAYOUTS } from '../support/grids.ts';

const PAGE = new URL('../../docs/errors.md', import.meta.url);

describe.each(CALLS)('$call', (cases) => {
  // Node has no ImageData, which is what sound pixels end with
  const never = cases.call === 'toImageData';

  it.skipIf(never)('takes what is sound', () => {
    expect(thrownBy(cases, cases.sound())).toBe(undefined);
  });

  it.skipIf(never)('takes frozen arguments on shared memory like any other', () => {
    const given = cases.sound();
    // what is written into is not frozen, and what is a class stays itself
    expect(plain(cases.run(...(hardened(given) as never[])))).toEqual(
      plain(cases.run(...(cases.sound() as never[]))),
    );
  });

  it.skipIf(never).each(LAYOUTS)('takes rasters that lie otherwise in memory (%s)', (layout) => {
    const [given, dense] = [relaid(cases.sound(), layout) as unknown[], cases.sound()];
    const before = plain(given);
    const result = plain(cases.run(...(given as never[])));
    expect(result).toEqual(plain(cases.run(...(dense as never[]))));
    if (WRITES.has(cases.call)) expect(plain(given)).toEqual(plain(dense));
    else expect(withoutOut(plain(given))).toEqual(withoutOut(before));
  });

  it.each(cases.args)('refuses a wrong $name', ({ at, bad }) => {
    const faults = bad.flatMap((one) => {
      const { fault } = refusal(cases, at, one);
      return fault === undefined ? [] : [`${one.what}: ${fault}`];
    });
    expect(faults).toEqual([]);
  });
});

/** A result as plain data: rasters by their samples, generators as lists. */
function plain(value: unknown): unknown {
  if (typeof value === 'function') return 'a function';
  if (typeof value !== 'object' || value === null) return value;
  if (ArrayBuffer.isView(value)) return [value.constructor.name, ...new Uint8Array(value.buffer)];
  // A study keeps what it has once found.
  if ('seal' in value) return 'a study';
  if (value instanceof Page) return plain([value.flats, value.labels, value.report]);
  if ('data' in value && 'shape' in value && 'stride' in value) {
    const { data, shape, stride, offset } = value as ndarray.NdArray<RasterData>;
    const samples = ndarray(data, [...shape], [...stride], offset);
    const [width, height, channels] = shape as [number, number, number?];
    const row = Array.from({ length: width * height * (channels ?? 1) }, (_, i) => {
      const [p, c] = [Math.floor(i / (channels ?? 1)), i % (channels ?? 1)];
      const [x, y] = [p % width, Math.floor(p / width)];
      return channels === undefined ? samples.get(x, y) : samples.get(x, y, c);
    });
    return [data.constructor.name, row, [...shape]];
  }
  if (Symbol.iterator in value && 'next' in value) return plain([...(value as Generator)]);
  if (Array.isArray(value)) return value.map(plain);
  return Object.fromEntries(Object.entries(value).map(([key, own]) => [key, plain(own)]));
}

/** Calls that write into their first argument. */
const WRITES = new Set(['fillPolygon', 'floodFill', 'replaceValue', 'openPage().update']);

/** Plain arguments but for what is written into. */
function withoutOut(args: unknown): unknown {
  if (!Array.isArray(args)) return args;
  return args.map((own: unknown) => {
    if (typeof own !== 'object' || own === null || !('out' in own)) return own;
    const { out: _, ...others } = own;
    return others;
  });
}

describe('the table of bad input', () => {
  const named = new Set(CALLS.map(({ call }) => call.replace(/,.*|\(.*/, '')));

  it('has every public call', () => {
    const errors = ['PngError', 'LayersError'];
    const calls = Object.keys(underink).filter((name) => !errors.includes(name));
    expect(calls.filter((name) => !named.has(name))).toEqual([]);
    expect([...named].filter((name) => !calls.includes(name))).toEqual([]);
  });

  it('has every argument', () => {
    const plainCalls = CALLS.filter(({ call }) => !/[(,]/.test(call));
    const missing = plainCalls.flatMap(({ call, run }) => {
      const own = CALLS.filter((other) => other.call === call).flatMap(({ args }) => args);
      const places = new Set(own.map(({ at }) => at[0]));
      return Array.from({ length: run.length }, (_, i) => i)
        .filter((i) => !places.has(i))
        .map((i) => `${call}, argument ${i}`);
    });
    expect(missing).toEqual([]);
  });

  it('has every option', () => {
    const missing = CALLS.flatMap(({ call, takes = [] }) => {
      const own = CALLS.filter(
        (other) => other.call.replace(/,.*/, '') === call.replace(/,.*/, ''),
      );
      const known = own.flatMap(({ args }) => args.flatMap(({ at }) => at));
      return takes.filter((name) => !known.includes(name)).map((name) => `${call}, ${name}`);
    });
    expect(missing).toEqual([]);
  });

  it('has at least 500 cases', () => {
    const all = CALLS.flatMap(({ args }) => args.flatMap(({ bad }) => bad));
    expect(all.length).toBeGreaterThan(500);
  });

  it('is what docs/errors.md tells', () => {
    const page = errorsPage(CALLS);
    if (process.env.UNDERINK_ERRORS_PAGE === 'write') writeFileSync(PAGE, page);
    expect(readFileSync(PAGE, 'utf8')).toBe(page);
  });
});
