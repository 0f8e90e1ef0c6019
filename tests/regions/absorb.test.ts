import { describe, expect, it } from 'vitest';
import { packMask } from '../../src/raster/pack.ts';
import { raster } from '../../src/raster/raster.ts';
import { absorbInPlace, areasOf } from '../../src/regions/absorb.ts';
import { adjacencyOf } from '../../src/regions/adjacency.ts';
import { absorbRegions, growUnderInk } from '../../src/regions/index.ts';
import { inscribedDiscs } from '../../src/regions/inscribed.ts';
import { labelPacked } from '../../src/regions/label.ts';
import { labelValues } from '../../src/regions/label-equal.ts';
import { measureSpans } from '../../src/regions/measure.ts';
import { floodRidges } from '../../src/regions/ridge.ts';
import { grid, labels, mask } from '../support/grids.ts';
import { seeded } from '../support/random.ts';
import { expectTicks } from '../support/ticks.ts';

/** Absorbing one region after the other, all borders counted anew each time. */
function absorbed(ids: readonly number[], w: number, maxArea: number, areas: Map<number, number>) {
  const now = [...ids];
  for (;;) {
    const borders = new Map<number, Map<number, number>>();
    const count = (a: number, b: number) => {
      if (a === b || a === 0 || b === 0) return;
      const own = borders.get(a) ?? new Map<number, number>();
      borders.set(a, own.set(b, (own.get(b) ?? 0) + 1));
    };
    now.forEach((id, p) => {
      for (const q of [...(p % w > 0 ? [p - 1] : []), ...(p >= w ? [p - w] : [])]) {
        count(id, now[q]!);
        count(now[q]!, id);
      }
    });
    const small = [...borders.keys()]
      .filter((id) => areas.get(id)! <= maxArea)
      .sort((a, b) => areas.get(a)! - areas.get(b)! || a - b)[0];
    if (small === undefined) return now;
    const [to] = [...borders.get(small)!].sort((a, b) => b[1] - a[1] || a[0] - b[0])[0]!;
    areas.set(to, areas.get(to)! + areas.get(small)!);
    now.forEach((id, p) => {
      if (id === small) now[p] = to;
    });
  }
}

describe('absorbRegions', () => {
  it('equals absorbing one region after the other', () => {
    const random = seeded(31);
    for (let n = 0; n < 200; n++) {
      const [w, h] = [1 + Math.floor(9 * random()), 1 + Math.floor(9 * random())];
      const few = 2 + Math.floor(12 * random());
      const ids = Array.from({ length: w * h }, () => Math.floor(few * random()));
      const counted = new Map<number, number>();
      for (const id of ids) counted.set(id, (counted.get(id) ?? 0) + 1);
      const maxArea = Math.floor(12 * random());
      const from = raster(Int32Array.from(ids), [w, h]);
      const plain = absorbed(ids, w, maxArea, new Map(counted));
      expect([...absorbRegions(from, { maxArea }).data]).toEqual(plain);
      const areas = Array.from({ length: few }, () => 1 + Math.floor(9 * random()));
      const told = absorbed(ids, w, maxArea, new Map(areas.entries()));
      expect([...absorbRegions(from, { maxArea, areas }).data]).toEqual(told);
      if (maxArea === 8) expect([...absorbRegions(from).data]).toEqual(plain);
    }
  });

  it('asks for an area of each id that occurs', () => {
    const from = labels('1 1 3');
    const call = (areas: unknown) => () => absorbRegions(from, { areas: areas as number[] });
    expect(grid(absorbRegions(from, { areas: [0, 9, 0, 8] }))).toBe('1 1 1');
    expect(grid(absorbRegions(from, { areas: [0, 9, 0, 9] }))).toBe('1 1 3');
    expect(call([0, 9])).toThrow(/^areas\[3\] must be a finite number of pixels >= 1/);
    expect(call([0, 0, 0, 8])).toThrow(/^areas\[1\] must be/);
    for (const wrong of [3, null, {}, 'areas']) expect(call(wrong)).toThrow(TypeError);
  });
});

describe('growUnderInk along the coverage', () => {
  it('floods what was taken off the ink in the order of the coverage', () => {
    const random = seeded(32);
    for (let n = 0; n < 60; n++) {
      const [w, h] = [3 + Math.floor(20 * random()), 3 + Math.floor(12 * random())];
      const size = w * h;
      const ink = Uint8Array.from({ length: size }, () => (random() < 0.7 ? 1 : 0));
      const tones = Uint8Array.from(ink, (is) => (is === 1 ? 1 + Math.floor(255 * random()) : 0));
      const ids = Int32Array.from({ length: size }, () => Math.floor(5 * random()));
      const paper = new Set([...ids.keys()].filter((p) => ink[p] === 0).map((p) => ids[p]!));
      const expected = ids.map((id, p) => (ink[p] === 1 && paper.has(id) ? 0 : id));
      floodRidges(expected, tones, w, h);
      const given = { coverage: raster(tones, [w, h]) };
      const found = growUnderInk(raster(ids, [w, h]), raster(ink, [w, h]), given);
      expect(found.data).toEqual(expected);
    }
    const ink = mask('. 1 1 1 1 1 .');
    const coverage = raster(Uint8Array.of(0, 90, 255, 80, 60, 40, 0), [7, 1]);
    expect(grid(growUnderInk(labels('1 . . . . . 2'), ink, { coverage }))).toBe('1 1 2 2 2 2 2');
  });

  it('asks for coverage of the same size, in memory of its own', () => {
    const [from, ink] = [labels('1 . 2'), mask('. 1 .')];
    const coverage = raster(Uint8Array.of(0, 9), [2, 1]);
    expect(() => growUnderInk(from, ink, { coverage })).toThrow(
      'coverage must have the size of labels, 3 × 1, got 2 × 1',
    );
    const memory = new ArrayBuffer(12);
    const own = { coverage: raster(new Uint8Array(memory, 0, 3), [3, 1]) };
    const out = raster(new Int32Array(memory), [3, 1]);
    expect(() => growUnderInk(from, ink, { ...own, out })).toThrow(/share no memory/);
  });
});

describe('kernels of regions', () => {
  const [width, height] = [7, 2000];
  const random = seeded(33);
  const ids = Int32Array.from({ length: width * height }, () => Math.floor(3 * random()));
  const dense = { data: ids, width, height, channels: 1 };
  const rows = height / 64;

  it.each<[string, number, (tick: (done: number) => void) => unknown]>([
    ['adjacency', rows, (tick) => adjacencyOf(ids, width, height, tick)],
    ['inscribed discs', 3 * rows, (tick) => inscribedDiscs(ids, width, height, 3, ids2ink(), tick)],
    ['labels of equal values', 3 * rows, (tick) => labelValues(dense, 4, 0, tick)],
    ['spans', rows, (tick) => measureSpans(ids, width, height, 3, tick)],
    [
      'labels of a mask',
      3 * rows,
      (tick) => labelPacked(packed(), 1, 4, new Int32Array(ids.length), tick),
    ],
    ['absorbing', rows, (tick) => absorbInPlace(ids.slice(), width, height, 1, [0, 5, 5], tick)],
  ])('tell their share of the work every 64 rows: %s', (_, least, kernel) => {
    expectTicks((tick) => void kernel(tick), { least, step: 0.21 });
  });

  const ids2ink = () => Uint8Array.from(ids, (id) => (id === 2 ? 1 : 0));
  const packed = () => packMask({ ...dense, data: ids2ink() }, 'mask');

  it('areas are counted over several ticks', () => {
    const long = new Int32Array(2 ** 21 + 5).fill(1);
    long.fill(2, 2 ** 19 - 3, 2 ** 20 + 4);
    const told: number[] = [];
    const areas = areasOf(long, 3, (done) => void told.push(done));
    expect([...areas]).toEqual([0, long.length - 2 ** 19 - 7, 2 ** 19 + 7]);
    expect(told).toEqual([0, 1, 2, 3, 4].map((k) => (k * 2 ** 19) / long.length));
  });
});
