import { describe, expect, it } from 'vitest';
import { inkCoverage } from '../../src/ink/coverage.ts';
import { type ThresholdOptions, thresholdInk } from '../../src/ink/threshold.ts';
import { raster } from '../../src/raster/raster.ts';

interface Page {
  ink: Uint8Array;
}
interface Degrade {
  DEGRADATIONS: { name: string; steps: number[] }[];
  degrade(page: Page, way: string, step: number): Uint8Array;
}
interface Pages {
  WIDTH: number;
  HEIGHT: number;
  inkPages(count: number): Page[];
}

const DEGRADE: string = '../../bench/ink/degrade.mjs';
const PAGES: string = '../../bench/ink/pages.mjs';
const { DEGRADATIONS, degrade } = (await import(DEGRADE)) as Degrade;
const { WIDTH, HEIGHT, inkPages } = (await import(PAGES)) as Pages;

// Line groups of openmoji 17 (CC BY-SA 4.0), as `bench/ink` degrades them.
const page = inkPages(1)[0]!;

/** F1 of the pixels of ink. */
function score(way: string, step: number, options?: ThresholdOptions): number {
  const pixels = raster(degrade(page, way, step), [WIDTH, HEIGHT, 3]);
  const found = thresholdInk(inkCoverage(pixels), options).data;
  let [both, all] = [0, 0];
  for (let i = 0; i < found.length; i++) {
    both += found[i]! & page.ink[i]!;
    all += found[i]! + page.ink[i]!;
  }
  return (2 * both) / all;
}

describe('thresholdInk on degraded pages', () => {
  const steps: [string, number][] = DEGRADATIONS.flatMap(({ name, steps }) =>
    steps.slice(0, -1).map((step): [string, number] => [name, step]),
  );

  it.each(steps)('finds the ink under %s of %d by default', (way: string, step: number) => {
    expect(score(way, step)).toBeGreaterThanOrEqual(0.97);
  });

  it('finds pencil under falling light where no one level does', () => {
    const [way, step] = ['fall-off of light on pencil', 30] as const;
    expect(score(way, step)).toBeGreaterThan(score(way, step, { method: 'otsu' }) + 0.05);
  });
});
