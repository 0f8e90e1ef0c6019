import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findPaperRegions, growAll } from '../../src/flats/page/grown-paper.ts';
import { regrow } from '../../src/flats/page/regrow.ts';
import { packMask } from '../../src/runs/pack.ts';

const [WIDTH, HEIGHT] = [13, 9];
const pixels = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T[]> =>
  fc.array(value, { minLength: WIDTH * HEIGHT, maxLength: WIDTH * HEIGHT });

function paperOf(mask: readonly number[]) {
  const dense = { data: Uint8Array.from(mask), width: WIDTH, height: HEIGHT, channels: 1 };
  return findPaperRegions(packMask(dense, 'mask'));
}

/** Masks that differ in a few pixels, or in many. */
const masks = fc
  .record({
    ink: pixels(fc.integer({ min: 0, max: 5 })),
    share: fc.integer({ min: 0, max: 5 }),
    flips: fc.array(fc.nat({ max: WIDTH * HEIGHT - 1 }), { maxLength: 6 }),
  })
  .map(({ ink, share, flips }) => {
    const before = ink.map((v): number => (v < share ? 1 : 0));
    const now = [...before];
    for (const p of flips) now[p] = 1 - now[p]!;
    return [before, now] as const;
  });

describe('regions that are grown anew near what has changed', () => {
  it('are those that are grown from nothing, at equal distances with ties to the lower', () => {
    fc.assert(
      fc.property(masks, ([before, now]) => {
        const grown = regrow(
          growAll(paperOf(before), undefined, undefined),
          paperOf(now),
          undefined,
          undefined,
        );
        expect(grown.rows).toEqual(growAll(paperOf(now), undefined, undefined).rows);
      }),
      { numRuns: 1500 },
    );
  });

  it('are those that are grown from nothing, by tones', () => {
    const tones = pixels(fc.integer({ min: 0, max: 3 }));
    fc.assert(
      fc.property(masks, tones, ([before, now], tone) => {
        const coverage = Uint8Array.from(tone, (v) => 80 * v);
        const grown = regrow(
          growAll(paperOf(before), coverage, undefined),
          paperOf(now),
          coverage,
          undefined,
        );
        expect(grown.rows).toEqual(growAll(paperOf(now), coverage, undefined).rows);
      }),
      { numRuns: 1500 },
    );
  });
});
