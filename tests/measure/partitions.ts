import fc from 'fast-check';
import type { NdArray } from 'ndarray';
import { raster } from '../../src/raster/index.ts';

/** Ids in one row. */
export function row(ids: readonly number[]): NdArray<Int32Array> {
  return raster(Int32Array.from(ids), [ids.length, 1]);
}

/** Two or three lists of ids of one length, some of them 0. */
export function lists(count: number, least = 0): fc.Arbitrary<number[][]> {
  const list = (length: number) =>
    fc.array(fc.integer({ min: least, max: 5 }), { minLength: length, maxLength: length });
  return fc
    .integer({ min: 1, max: 40 })
    .chain((length) => fc.tuple(...Array.from({ length: count }, () => list(length))));
}

/** Areas by id and by pair of ids, over the pixels that truth labels. */
export function plainCounts(
  truth: readonly number[],
  found: readonly number[],
): {
  trueAreas: Map<number, number>;
  foundAreas: Map<number, number>;
  cells: { t: number; f: number; n: number }[];
} {
  const trueAreas = new Map<number, number>();
  const foundAreas = new Map<number, number>();
  const shared = new Map<string, number>();
  const count = <K>(map: Map<K, number>, key: K) => map.set(key, (map.get(key) ?? 0) + 1);
  truth.forEach((t, i) => {
    if (t === 0) return;
    count(trueAreas, t);
    count(foundAreas, found[i]!);
    count(shared, `${t} ${found[i]}`);
  });
  const cells = [...shared].map(([key, n]) => {
    const [t, f] = key.split(' ').map(Number) as [number, number];
    return { t, f, n };
  });
  return { trueAreas, foundAreas, cells };
}

/** Other ids for the same parts; 0 stays. */
export function renamed(ids: readonly number[]): number[] {
  return ids.map((id) => (id === 0 ? 0 : 2_000_000_000 - 7 * id));
}
