import { describe, expect, it } from 'vitest';
import { partOf } from '../../src/raster/progress.ts';
import { checkSignal, ticksOf } from '../../src/raster/stages.ts';

describe('ticksOf', () => {
  it('gives no tick where nobody asks', () => {
    expect(ticksOf<'grow'>({})('grow')).toBeUndefined();
    expect(ticksOf<'grow'>({})('grow', 0.5)).toBeUndefined();
  });

  it('tells the stage and its share, of a part of a stage as that of the whole', () => {
    const told: unknown[] = [];
    const ticks = ticksOf<'ink' | 'grow'>({ onProgress: (progress) => void told.push(progress) });
    ticks('ink')!(0.25);
    ticks('grow', 0.5)!(0.5);
    ticks('grow', 0.25, 0.75)!(1);
    expect(told).toEqual([
      { stage: 'ink', done: 0.25 },
      { stage: 'grow', done: 0.75 },
      { stage: 'grow', done: 0.75 },
    ]);
  });

  it('looks at the signal first, and throws its reason', () => {
    const control = new AbortController();
    const told: unknown[] = [];
    const tick = ticksOf<'ink'>({
      signal: control.signal,
      onProgress: (progress) => void told.push(progress),
    })('ink')!;
    tick(0.5);
    control.abort(new Error('enough'));
    expect(() => tick(0.75)).toThrow('enough');
    expect(told).toEqual([{ stage: 'ink', done: 0.5 }]);
    expect(() => ticksOf<'ink'>({ signal: control.signal })('ink')!(0)).toThrow('enough');
  });

  it('refuses what is no function and no signal', () => {
    expect(() => ticksOf({ onProgress: 3 as never })).toThrow(/^onProgress must be a function/);
    for (const wrong of [3, null, {}, { throwIfAborted: true }]) {
      expect(() => ticksOf({ signal: wrong as never })).toThrow(/^signal must be an AbortSignal/);
    }
    expect(checkSignal(undefined)).toBeUndefined();
    const signal = { throwIfAborted: () => {} };
    expect(checkSignal(signal)).toBe(signal);
  });
});

it('a tick for a part of the work tells the share of the whole', () => {
  const told: number[] = [];
  const part = partOf((done) => void told.push(done), 0.5, 0.75)!;
  for (const done of [0, 0.5, 1]) part(done);
  expect(told).toEqual([0.5, 0.625, 0.75]);
  expect(partOf(undefined, 0.5, 0.75)).toBeUndefined();
});
