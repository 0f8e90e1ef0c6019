import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { oddsOf, type PackedTrees, unpackTrees } from '../../src/gaps/trees.ts';

interface Plain {
  readonly columns: readonly string[];
  readonly base: number;
  readonly column: readonly number[];
  readonly limit: readonly number[];
}
const PACK: string = new URL('../../bench/gaps/train/pack.mjs', import.meta.url).href;
const { packTrees } = (await import(PACK)) as { packTrees(trees: Plain): PackedTrees };

describe('oddsOf', () => {
  it('walks every tree to a leaf, by the names of the columns', () => {
    const trees = packTrees({
      base: 0.5,
      columns: ['height', 'width'],
      column: [1, -1, -1, -1],
      limit: [2, 10, 20, 100],
    });
    const rows = Float64Array.of(9, 9, 0, 2, 0, 2.5);
    const odds = (names: readonly string[], at: number) =>
      oddsOf(unpackTrees(trees, names), rows, at);
    expect([2, 4].map((at) => odds(['height', 'width'], at))).toEqual([110.5, 120.5]);
    expect([2, 4].map((at) => odds(['width', 'depth', 'height'], at))).toEqual([110.5, 110.5]);
    expect(() => odds(['width'], 0)).toThrow('a column height');
  });

  it('finds the branches of any tree again, and numbers of four digits to the bit', () => {
    type Node = number | { column: number; limit: number; yes: Node; no: Node };
    const value = fc
      .tuple(fc.integer({ min: -9999, max: 9999 }), fc.integer({ min: -9, max: 4 }))
      .map(([digits, power]) => Number(`${digits}e${power}`));
    const { tree } = fc.letrec<{ tree: Node }>((tie) => ({
      tree: fc.oneof(
        { depthSize: 'small' },
        value,
        fc.record({ column: fc.nat(4), limit: value, yes: tie('tree'), no: tie('tree') }),
      ),
    }));
    const walk = (node: Node, row: readonly number[]): number => {
      if (typeof node === 'number') return node;
      return walk(row[node.column]! <= node.limit ? node.yes : node.no, row);
    };
    const columns = ['a', 'b', 'c', 'd', 'e'];
    fc.assert(
      fc.property(
        fc.array(tree, { maxLength: 4 }),
        fc.array(value, { minLength: 5, maxLength: 5 }),
        (trees, row) => {
          const column: number[] = [];
          const limit: number[] = [];
          const write = (node: Node): void => {
            column.push(typeof node === 'number' ? -1 : node.column);
            limit.push(typeof node === 'number' ? node : node.limit);
            if (typeof node === 'number') return;
            write(node.yes);
            write(node.no);
          };
          for (const one of trees) write(one);
          const unpacked = unpackTrees(packTrees({ base: 1, columns, column, limit }), columns);
          const expected = trees.reduce<number>((sum, one) => sum + walk(one, row), 1);
          expect(oddsOf(unpacked, Float64Array.from(row), 0)).toBe(expected);
        },
      ),
    );
  });
});
