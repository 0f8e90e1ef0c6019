/**
 * Every call whose work grows with the page on the worst of pages, small, and past the sides where 16
 * bits end. `npm run bench:scale` does it with 100 megapixels and measures time and memory.
 */
import { describe, expect, it } from 'vitest';

interface Pages {
  readonly PATTERNS: readonly string[];
  drawPattern(name: string, width: number, height: number): Uint8Array<ArrayBuffer>;
}
type Of = (name: string) => unknown;
interface Calls {
  readonly CALLS: Record<
    string,
    { needs: readonly string[]; run: (of: Of, size: readonly [number, number]) => unknown }
  >;
  inputsOf(data: Uint8Array<ArrayBuffer>, width: number, height: number): Of;
}
const module = (name: string) => import(new URL(`../../bench/scale/${name}`, import.meta.url).href);
const { PATTERNS, drawPattern } = (await module('patterns.mjs')) as Pages;
const { CALLS, inputsOf } = (await module('calls.mjs')) as Calls;

/** Regions of paper and of ink, connected by 4 and 8 neighbors, by counting on paper; no source. */
const COUNTS: Record<string, (w: number, h: number) => [paper: number, ink: number]> = {
  'blank paper': () => [1, 0],
  'all ink': () => [0, 1],
  checkerboard: (w, h) => [Math.ceil((w * h) / 2), 1],
  comb: (w) => [Math.ceil(w / 2), 1],
  cells: (w, h) => [Math.ceil((w - 1) / 10) * Math.ceil((h - 1) / 10), 1],
  spiral: () => [1, 1],
};

/** What every call found, by name; what has no answer here is told by its error. */
function results(pattern: string, width: number, height: number): Record<string, unknown> {
  const of = inputsOf(drawPattern(pattern, width, height), width, height);
  return Object.fromEntries(
    Object.entries(CALLS).map(([name, { run }]) => {
      try {
        return [name, run(of, [width, height])];
      } catch (error) {
        expect(error).toBeInstanceOf(RangeError);
        return [name, (error as RangeError).message];
      }
    }),
  );
}

describe('every call on a page of', () => {
  it.each(PATTERNS)('%s', (pattern) => {
    const [width, height] = [321, 203];
    const found = results(pattern, width, height);
    for (const value of Object.values(found)) expect(value).not.toBe(undefined);
    const counts = COUNTS[pattern]?.(width, height);
    if (counts === undefined) return;
    expect([found['labelRegions 4'], found['labelRegions 8']]).toEqual(counts);
  });
});

describe('sides beyond 65,535', () => {
  it.each(['cells', 'checkerboard', 'noise', 'spiral'])('hold %s', (pattern) => {
    const sides: [number, number][] = [
      [70_001, 4],
      [4, 70_001],
    ];
    for (const [width, height] of sides) {
      const found = results(pattern, width, height);
      const counts = COUNTS[pattern]?.(width, height);
      if (counts === undefined) continue;
      expect([found['labelRegions 4'], found['labelRegions 8']]).toEqual(counts);
    }
  });
});
