import { expect, it } from 'vitest';
import { PairIndex } from '../../src/runs/pair-index.ts';
import { seeded } from '../support/random.ts';

it('PairIndex numbers pairs as they come and adds up their counts, while it grows', () => {
  const random = seeded(8);
  const index = new PairIndex();
  const known = new Map<string, { number: number; count: number }>();
  const id = () =>
    random() < 0.1 ? 2 ** 31 - 1 - Math.floor(9 * random()) : Math.floor(60 * random());
  for (let i = 0; i < 2500; i++) {
    const [a, b, n] = [id(), id(), 1 + Math.floor(9 * random())];
    const key = `${a} ${b}`;
    expect(index.numberOf(a, b)).toBe(known.get(key)?.number ?? -1);
    const pair = known.get(key) ?? { number: known.size, count: 0 };
    pair.count += n;
    known.set(key, pair);
    expect(index.add(a, b, n)).toBe(pair.number);
    expect(index.numberOf(a, b)).toBe(pair.number);
  }
  expect(index.size).toBe(known.size);
  for (const [key, { number, count }] of known) {
    expect(`${index.first[number]} ${index.second[number]}`).toBe(key);
    expect(index.counts[number]).toBe(count);
  }
});
