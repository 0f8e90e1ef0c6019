import { describe, expect, it } from 'vitest';
import { dataSum } from '../../src/raster/data-sum.ts';

const data = () => ({
  kind: 'harbour',
  size: [3, 2],
  drawn: true,
  none: null,
  ids: Int32Array.of(0, -1, 7),
  ink: Uint8Array.of(1, 2, 3, 4, 5, 6),
  wide: Uint16Array.of(1, 65_535),
  words: Uint32Array.of(2 ** 32 - 1),
  swatches: [{ name: 'fur', odds: 0.25 }, { name: 'shell' }],
});

describe('the sum of plain data', () => {
  it('is kept by structured clone, by the order of keys and by a field left undefined', () => {
    const sum = dataSum(data());
    expect(dataSum(structuredClone(data()))).toBe(sum);
    expect(dataSum(Object.fromEntries(Object.entries(data()).reverse()))).toBe(sum);
    expect(dataSum({ ...data(), more: undefined })).toBe(sum);
  });

  it.each<[string, (own: ReturnType<typeof data>) => object]>([
    ['a text', (own) => ({ ...own, kind: 'harbor' })],
    ['a number', (own) => ({ ...own, size: [3, 2 + 2 ** -50] })],
    ['the order of a list', (own) => ({ ...own, size: [2, 3] })],
    ['the length of a list', (own) => ({ ...own, size: [3, 2, undefined] })],
    ['a truth', (own) => ({ ...own, drawn: false })],
    ['a field more', (own) => ({ ...own, more: null })],
    ['the name of a field', ({ none, ...own }) => ({ ...own, nun: none })],
    ['a number as text', (own) => ({ ...own, drawn: '1' })],
    ['the kind of samples', (own) => ({ ...own, ids: Uint32Array.from(own.ids) })],
    ['the width of samples', (own) => ({ ...own, wide: Int32Array.from(own.wide) })],
    ['samples past whole words', (own) => ({ ...own, ink: Uint8Array.of(1, 2, 3, 4, 6, 5) })],
    ['what lies deep', (own) => ({ ...own, swatches: [{ name: 'fur', odds: 0.5 }] })],
    ['things that change places', ({ swatches: [a, b], ...own }) => ({ ...own, swatches: [b, a] })],
  ])('is another one for %s', (_, change) => {
    expect(dataSum(change(data()))).not.toBe(dataSum(data()));
  });

  it('tells each bit of samples', () => {
    const sums = new Set([dataSum(data().ink)]);
    for (let bit = 0; bit < 48; bit++) {
      const ink = data().ink;
      ink[bit >> 3]! ^= 1 << (bit & 7);
      sums.add(dataSum(ink));
    }
    expect(sums.size).toBe(49);
  });

  it('is none of what is not plain, or refers to itself', () => {
    const own: Record<string, unknown> = data();
    own.own = own;
    const odd = [own, new Map(), new Date(0), () => 1, 1n, Symbol('a'), Float32Array.of(1)];
    for (const value of odd) expect(dataSum([value])).toBe(Number.NaN);
  });
});
