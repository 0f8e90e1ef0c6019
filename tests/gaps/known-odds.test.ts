import { describe, expect, it } from 'vitest';
import { KnownOdds } from '../../src/gaps/known-odds.ts';
import { CLOSURE } from '../../src/gaps/model.ts';
import { SEPARATION } from '../../src/gaps/separation.ts';
import { oddsOf, unpackTrees } from '../../src/gaps/trees.ts';
import { seeded } from '../support/random.ts';

describe('KnownOdds', () => {
  it('gives what the trees give, for rows at limits and beside those that came before', () => {
    const random = seeded(3);
    const trees = unpackTrees(CLOSURE, SEPARATION);
    const limits = SEPARATION.map((_, c) =>
      [...trees.limit].filter((_, n) => trees.column[n] === c),
    );
    const known = new KnownOdds(trees, SEPARATION.length, [0, 1]);
    const answers = new Set<number>();
    const row = new Float64Array(SEPARATION.length);
    for (let n = 0; n < 20000; n++) {
      // Two columns of few values, so that rows meet in one slot; the others change one at a time.
      const c = Math.floor(random() * row.length);
      const own = limits[c]!;
      const at = own[Math.floor(random() * own.length)] ?? 0;
      row[c] = c < 2 ? Math.floor(2 * random()) : at + Math.floor(3 * random() - 1) / 1024;
      const odds = known.of(row);
      answers.add(odds);
      expect(odds).toBe(oddsOf(trees, row, 0));
    }
    expect(answers.size).toBeGreaterThan(1000);
  });
});
