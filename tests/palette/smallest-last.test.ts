import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Neighbors, smallestLast } from '../../src/palette/smallest-last.ts';

function neighborsOf(nodes: number, pairs: readonly (readonly [number, number])[]): Neighbors {
  const lists = Array.from({ length: nodes }, () => new Set<number>());
  for (const [a, b] of pairs) {
    if (a === b) continue;
    lists[a]!.add(b);
    lists[b]!.add(a);
  }
  const offsets = new Int32Array(nodes + 1);
  for (const [i, list] of lists.entries()) offsets[i + 1] = offsets[i]! + list.size;
  return { offsets, items: Int32Array.from(lists.flatMap((list) => [...list])) };
}

const graph = fc.integer({ min: 1, max: 12 }).chain((nodes) => {
  const node = fc.integer({ min: 0, max: nodes - 1 });
  return fc.tuple(
    fc.constant(nodes),
    fc.array(fc.tuple(node, node), { maxLength: 30 }),
    fc.array(fc.constantFrom(0, 1), { minLength: nodes, maxLength: nodes }),
  );
});

describe('smallestLast', () => {
  it('puts each node of the smallest degree among those before it and itself', () => {
    fc.assert(
      fc.property(graph, ([nodes, pairs, chosen]) => {
        const { offsets, items } = neighborsOf(nodes, pairs);
        const order = [...smallestLast({ offsets, items }, Uint8Array.from(chosen))];
        const wanted = chosen.flatMap((c, node) => (c === 1 ? [node] : []));
        expect([...order].sort((a, b) => a - b)).toEqual(wanted);
        for (let k = order.length - 1; k > 0; k--) {
          const left = new Set(order.slice(0, k + 1));
          const degree = (node: number) =>
            items.subarray(offsets[node]!, offsets[node + 1]!).filter((o) => left.has(o)).length;
          expect(degree(order[k]!)).toBe(Math.min(...[...left].map(degree)));
        }
      }),
      { seed: 11, numRuns: 500 },
    );
  });
});
