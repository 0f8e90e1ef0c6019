import fc from 'fast-check';
import { describe, it } from 'vitest';
import { bridgesIn, follow, sequenceIn } from './page-law.ts';

/** Sequences of corrections; `UNDERINK_RUNS` asks for more. */
const RUNS = Number(process.env.UNDERINK_RUNS ?? 150);

describe('a page that is corrected step by step is what is laid at once', () => {
  it('on small drawings', () => {
    fc.assert(fc.property(sequenceIn([24, 20]), follow), { numRuns: RUNS });
  });

  it('on larger drawings', () => {
    fc.assert(fc.property(sequenceIn([70, 45]), follow), { numRuns: RUNS });
  });

  it.each([[[24, 20] as const], [[60, 41] as const]])(
    'as bridges come and go on %j pixels',
    (size) => {
      fc.assert(fc.property(bridgesIn(size), follow), { numRuns: RUNS });
    },
  );
});
