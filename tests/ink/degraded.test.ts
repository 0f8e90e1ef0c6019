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
  sparsePage(page: Page): Page;
}

const DEGRADE: string = '../../bench/ink/degrade.mjs';
const PAGES: string = '../../bench/ink/pages.mjs';
const { DEGRADATIONS, degrade } = (await import(DEGRADE)) as Degrade;
const { WIDTH, HEIGHT, inkPages, sparsePage } = (await import(PAGES)) as Pages;

// Line groups of openmoji 17 (CC BY-SA 4.0), as `bench/ink` degrades them.
const full = inkPages(1)[0]!;
const sparse = sparsePage(full);

/** F1 of the pixels of ink. */
function score(way: string, step: number, options?: ThresholdOptions): number {
  const page = way.endsWith('sparse page') ? sparse : full;
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

  it.each(['fall-off of light on pencil', 'fall-off of light on a sparse page'])(
    'finds the ink under a %s of 30 where no one level does',
    (way) => {
      expect(score(way, 30)).toBeGreaterThan(score(way, 30, { method: 'otsu' }) + 0.05);
    },
  );
});
