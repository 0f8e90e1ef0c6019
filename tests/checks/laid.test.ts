import { describe, expect, it } from 'vitest';
import { checkFlats } from '../../src/checks/check-flats.ts';
import { layFlats } from '../../src/flats/lay-flats.ts';
import { inkCoverage } from '../../src/ink/coverage.ts';
import { type Drawing, drawings } from '../flats/drawings.ts';

/** Dashes in 72nds of a side, against lines of 2: gaps of half to one stroke width between round ends. */
const DASHES = ['', '17 3', '13 3.5'];

/**
 * A drawing with a finding of one pixel, where coverage does not tell a seam from a pale line: a pocket
 * within the ink has a region, but no clear paper, and the flat beside it reaches the ground through the
 * pinch between them, over coverage 16, 160 and 46.
 */
const UNTOLD = ['1F469-200D-1F393'];

const pages = DASHES.flatMap((dashes) => drawings(30, 320, 197, dashes));

function found({ pixels }: Drawing): { messages: string[]; closed: number } {
  const { flats, sealed, report } = layFlats(pixels);
  const options = { ink: sealed, coverage: inkCoverage(pixels) };
  const findings = checkFlats(flats, { ...options, checks: ['halo', 'bare', 'seams'] });
  const closed = report.bridges.filter(({ drawn }) => drawn).length;
  return { messages: findings.map(({ message }) => message), closed };
}

describe('flats as layFlats lays them', () => {
  it('have no halo, nothing bare and no open seam on antialiased lines whose gaps were closed', () => {
    let gaps = 0;
    for (const page of pages.filter(({ name }) => !UNTOLD.includes(name))) {
      const { messages, closed } = found(page);
      gaps += closed;
      expect(messages, page.name).toEqual([]);
    }
    expect(gaps).toBeGreaterThan(300);
  });

  it.fails('have none on a drawing where a seam looks like the ridge of a pale line', () => {
    for (const page of pages.filter(({ name }) => UNTOLD.includes(name))) {
      expect(found(page).messages, page.name).toEqual([]);
    }
  });
});
