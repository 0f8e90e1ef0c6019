import { expect } from 'vitest';
import type { Tick } from '../../src/raster/progress.ts';

/**
 * What a kernel tells of its progress never falls, begins near 0 and ends near 1, in even steps of at
 * most `step`; at least `least` times, at most four times that and two more.
 */
export function expectTicks(
  kernel: (tick: Tick) => void,
  { least, step = 0.1 }: { least: number; step?: number },
): void {
  const told: number[] = [];
  kernel((done) => void told.push(done));
  const steps = [...told, 1].map((done, i) => done - (told[i - 1] ?? 0));
  expect(Math.min(...steps)).toBeGreaterThanOrEqual(0);
  expect(Math.max(...steps)).toBeLessThanOrEqual(step);
  expect(told.length).toBeGreaterThanOrEqual(Math.floor(least));
  expect(told.length).toBeLessThanOrEqual(4 * least + 2);
}
