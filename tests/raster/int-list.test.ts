import { expect, it } from 'vitest';
import { IntList } from '../../src/raster/int-list.ts';

it('IntList keeps what it holds while it grows, one by one and many at once', () => {
  const list = new IntList();
  for (let i = 0; i < 1000; i++) list.push(i);
  list.reserve(5000);
  for (let i = 1000; i < 6000; i++) list.data[list.length++] = i;
  expect(list.trimmed()).toEqual(Int32Array.from({ length: 6000 }, (_, i) => i));
});
