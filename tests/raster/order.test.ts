import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { orderOf } from '../../src/raster/order.ts';

describe('orderOf', () => {
  it('puts keys in order and leaves equal ones as they come, like a sort that is stable', () => {
    const short = fc.array(fc.integer({ min: -9, max: 9 }), { maxLength: 200 });
    fc.assert(
      fc.property(short, (keys) => {
        const expected = [...keys.keys()].sort((a, b) => keys[a]! - keys[b]!);
        expect([...orderOf(Float64Array.from(keys))]).toEqual(expected);
      }),
    );
  });

  it('does so for many, and tells its progress on the way', () => {
    const keys = Float64Array.from({ length: 300_000 }, (_, i) => (i * 7919) % 100_003);
    const told: number[] = [];
    const order = orderOf(keys, (done) => told.push(done));
    for (let i = 1; i < order.length; i++) {
      const [a, b] = [order[i - 1]!, order[i]!];
      if (keys[a]! > keys[b]! || (keys[a] === keys[b] && a > b)) throw new Error(`wrong at ${i}`);
    }
    expect(told.length).toBeGreaterThan(40);
    expect(told.every((done, i) => done <= 1 && done >= (told[i - 1] ?? 0))).toBe(true);
  });
});
