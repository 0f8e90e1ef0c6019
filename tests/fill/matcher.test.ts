import fc from 'fast-check';
import { expect, it } from 'vitest';
import { matcherFor } from '../../src/fill/matcher.ts';
import { packMask } from '../../src/raster/pack.ts';
import { KINDS } from '../support/kinds.ts';
import { seeded } from '../support/random.ts';

it('a matcher takes the pixels within the tolerance, off the barrier, that may be taken', () => {
  const scene = fc.record({
    kind: fc.constantFrom(Uint8Array, Uint8Array, Uint8ClampedArray, ...KINDS),
    width: fc.integer({ min: 1, max: 140 }),
    height: fc.integer({ min: 1, max: 4 }),
    channels: fc.constantFrom(1, 1, 1, 3),
    offset: fc.nat(5),
    tolerance: fc.constantFrom(0, 0, 0, 1),
    share: fc.constantFrom(0.02, 0.5, 0.98, 1),
    barred: fc.boolean(),
    guarded: fc.constantFrom(false, false, true),
    seed: fc.integer(),
  });
  fc.assert(
    fc.property(scene, (s) => {
      const { kind: Kind, width, height, channels, offset, share } = s;
      const random = seeded(s.seed);
      const size = width * height * channels;
      const other = () => Math.floor(4 * random());
      const samples = Array.from({ length: offset + size }, () => (random() < share ? 1 : other()));
      const whole = new Kind(samples);
      const data = whole.subarray(offset);
      const pixels = Array.from({ length: width * height }, (_, p) => p);
      const [walls, allowed] = [pixels.map(() => random() < 0.1), pixels.map(() => random() < 0.8)];
      const bars = { data: Uint8Array.from(walls, Number), width, height, channels: 1 };
      const value = Array.from({ length: channels }, () => 1);
      const tolerance = value.map(() => s.tolerance);
      const matcher = matcherFor(
        { data, width, height, channels },
        {
          value,
          tolerance,
          barrier: s.barred ? packMask(bars, 'barrier') : undefined,
          mayTake: s.guarded ? (p) => allowed[p]! : undefined,
        },
      );
      const isTaken = (p: number) =>
        value.every((v, c) => Math.abs(data[p * channels + c]! - v) <= s.tolerance) &&
        !(s.barred && walls[p]) &&
        (!s.guarded || allowed[p]!);
      for (let y = 0; y < height; y++) {
        for (let k = 0; 32 * k < width; k++) {
          const count = Math.min(32, width - 32 * k);
          const bits = Array.from({ length: 32 }, (_, b) =>
            b < count && isTaken(y * width + 32 * k + b) ? '1' : '0',
          );
          const word = (matcher.word(y, k) >>> 0).toString(2).padStart(32, '0');
          expect(word).toBe(bits.reverse().join(''));
        }
      }
    }),
    { numRuns: 500 },
  );
});
