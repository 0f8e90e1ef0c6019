import fc from 'fast-check';
import { describe, it } from 'vitest';
import { expectRegrown } from './regrown.ts';

const [WIDTH, HEIGHT] = [13, 9];
const pixels = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T[]> =>
  fc.array(value, { minLength: WIDTH * HEIGHT, maxLength: WIDTH * HEIGHT });

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
        expectRegrown(Uint8Array.from(before), Uint8Array.from(now), [WIDTH, HEIGHT]);
      }),
      { numRuns: 1500 },
    );
  });

  it('are those that are grown from nothing, by tones', () => {
    const tones = pixels(fc.integer({ min: 0, max: 3 }));
    fc.assert(
      fc.property(masks, tones, ([before, now], tone) => {
        const coverage = Uint8Array.from(tone, (v) => 80 * v);
        expectRegrown(Uint8Array.from(before), Uint8Array.from(now), [WIDTH, HEIGHT], coverage);
      }),
      { numRuns: 1500 },
    );
  });
});
