/**
 * Damaged files, saved data, plans, tables and hostile polygons, ten thousand of them, the same in every
 * run: each gives a sound result or a documented error. `npm run bench:fuzz` runs a million, with a guard
 * on time and memory.
 */
import { describe, expect, it } from 'vitest';
import { dataSum } from '../../src/raster/data-sum.ts';

interface Subject {
  make(number: number): { kind: string; run: () => unknown };
}
interface Subjects {
  ownFiles(): Uint8Array[];
  subjects(given: {
    files: readonly Uint8Array[];
    resealed: (saved: { sum: number }) => object;
  }): Record<string, Subject>;
}
interface Trying {
  tryCase(name: string, subject: Subject, number: number): { end: 'taken' | 'refused' };
}
const module = (name: string) => import(new URL(`../../bench/fuzz/${name}`, import.meta.url).href);

const CASES = 10_000;

const { ownFiles, subjects } = (await module('subjects.mjs')) as Subjects;
const { tryCase } = (await module('try-case.mjs')) as Trying;
const all = subjects({
  files: ownFiles(),
  resealed: ({ sum: _, ...saved }) => ({ ...saved, sum: dataSum(saved) }),
});

describe('fuzzing', () => {
  it.each(Object.keys(all))('of a %s', (name) => {
    const ends = { taken: 0, refused: 0 };
    const count = Math.ceil(CASES / Object.keys(all).length);
    for (let number = 0; number < count; number++) ends[tryCase(name, all[name]!, number).end]++;
    // neither are all sound, nor is all refused
    expect(ends.taken).toBeGreaterThan(count / 20);
    expect(ends.refused).toBeGreaterThan(count / 200);
  });
});
