import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KeyHeap } from '../../src/runs/key-heap.ts';

describe('KeyHeap', () => {
  it('gives what a sorted list would, whatever is pushed between', () => {
    const push = fc.record({ key: fc.integer({ min: -3, max: 3 }), id: fc.nat(200) });
    const steps = fc.array(fc.option(push, { nil: undefined }), { maxLength: 400 });
    fc.assert(
      fc.property(steps, (list) => {
        const heap = new KeyHeap();
        const sorted: { key: number; id: number }[] = [];
        for (const step of list) {
          if (step !== undefined) {
            heap.push(step.key, step.id);
            sorted.push(step);
            sorted.sort((p, q) => p.key - q.key || p.id - q.id);
          } else {
            const least = sorted.shift();
            if (least !== undefined) expect(heap.leastKey).toBe(least.key);
            expect(heap.pop()).toBe(least?.id ?? -1);
          }
          expect(heap.size).toBe(sorted.length);
        }
      }),
      { seed: 17 },
    );
  });

  it('sorts more numbers than it had room for', () => {
    const heap = new KeyHeap();
    const numbers = Array.from({ length: 1000 }, (_, i) => (i * 7919) % 1009);
    for (const [id, key] of numbers.entries()) heap.push(key, id);
    const sorted = [...numbers.keys()].sort((a, b) => numbers[a]! - numbers[b]!);
    expect(Array.from(numbers, () => heap.pop())).toEqual(sorted);
    expect(heap.pop()).toBe(-1);
  });
});
