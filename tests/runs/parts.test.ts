import { describe, expect, it } from 'vitest';
import { checkMaskValues } from '../../src/raster/mask-values.ts';
import { packMask, unpackMask } from '../../src/raster/pack.ts';
import { changeParts, withoutCommon } from '../../src/runs/change-parts.ts';
import { findParts, isInRun, isSameWithin, partAt } from '../../src/runs/parts.ts';
import { findRuns, runAt } from '../../src/runs/runs.ts';
import { componentAreas, connectRuns } from '../../src/runs/union.ts';
import { seeded } from '../support/random.ts';
import { expectTicks } from '../support/ticks.ts';

const dense = (data: Uint8Array, width: number) => ({
  data,
  width,
  height: data.length / width,
  channels: 1,
});
const packed = (data: Uint8Array, width: number) => packMask(dense(data, width), 'data');
const noise = (length: number, share: number, random: () => number) =>
  Uint8Array.from({ length }, () => (random() < share ? 1 : 0));
const NONE = new Int32Array(0);

describe('packed masks and their runs', () => {
  it('are unpacked to what was packed', () => {
    const random = seeded(3);
    for (const width of [1, 2, 31, 32, 33, 63, 64, 65, 100]) {
      for (const share of [0, 0.1, 0.5, 0.9, 1]) {
        const data = noise(width * 5, share, random);
        expect(unpackMask(packed(data, width))).toEqual(data);
      }
    }
  });

  it('tell of each pixel whether it lies in a run, and in which', () => {
    const random = seeded(4);
    for (const width of [1, 7, 33, 80]) {
      const data = noise(width * 9, 0.4, random);
      const runs = findRuns(packed(data, width), 1);
      const parts = findParts(packed(data, width));
      for (let p = 0; p < data.length; p++) {
        const [x, y] = [p % width, Math.floor(p / width)];
        const run = runAt(runs, x, y);
        expect(run >= 0).toBe(data[p] === 1);
        if (run >= 0) expect(runs.start[run]! <= x && x < runs.end[run]!).toBe(true);
        // Parts are those of the paper.
        expect(isInRun(parts.runs, x, y)).toBe(data[p] === 0);
        expect(partAt(parts, x, y) > 0).toBe(data[p] === 0);
      }
    }
  });

  it('have components with as many pixels as a count finds', () => {
    const data = Uint8Array.from('1100111 1000010 0011100 1010000'.replaceAll(' ', ''), Number);
    const runs = findRuns(packed(data, 7), 1);
    expect([...componentAreas(runs, connectRuns(runs, 4))]).toEqual([0, 3, 4, 4, 1]);
    expect([...componentAreas(runs, connectRuns(runs, 8))]).toEqual([0, 3, 8, 1]);
  });

  it('tell how far packing and checking have come', () => {
    const data = new Uint8Array(4 * 1000);
    expectTicks((tick) => void packMask(dense(data, 4), 'data', tick), { least: 1000 / 64 });
    const long = new Uint8Array(2 ** 22);
    expectTicks((tick) => checkMaskValues(dense(long, 2 ** 11), 'data', tick), {
      least: 8,
      step: 0.125,
    });
  });
});

describe('isSameWithin', () => {
  it('is true of equal pixels within the bounds, whatever lies outside', () => {
    const random = seeded(6);
    const [width, height] = [24, 10];
    let same = 0;
    for (let n = 0; n < 500; n++) {
      const data = noise(width * height, 0.3, random);
      const before = findParts(packed(data, width));
      const p = Math.floor(random() * data.length);
      const changed = Int32Array.of(p);
      const [closed, opened] = data[p] === 0 ? [changed, NONE] : [NONE, changed];
      const now = changeParts(before, closed, opened).parts;
      const other = data.slice();
      other[p] = 1 - data[p]!;
      const fresh = findParts(packed(other, width));
      const at = (side: number) => Math.floor(side * random());
      const [x0, y0] = [at(width), at(height)];
      const bounds = [x0, y0, x0 + 1 + at(width - x0), y0 + 1 + at(height - y0)] as const;
      const [x, y] = [p % width, Math.floor(p / width)];
      const isIn = x >= bounds[0] && y >= bounds[1] && x < bounds[2] && y < bounds[3];
      for (const after of [now, fresh]) {
        expect(isSameWithin(before, after, bounds)).toBe(!isIn);
        expect(isSameWithin(after, before, bounds)).toBe(!isIn);
      }
      expect(isSameWithin(now, fresh, [0, 0, width, height])).toBe(true);
      if (!isIn) same++;
    }
    expect(same).toBeGreaterThan(100);
  });
});

describe('changeParts, again and again', () => {
  it('keeps its parts right and its store small', () => {
    const random = seeded(12);
    const [width, height] = [150, 40];
    const data = noise(width * height, 0.2, random);
    let parts = findParts(packed(data, width));
    for (let step = 0; step < 400; step++) {
      const pixels = new Set(Array.from({ length: 12 }, () => Math.floor(random() * data.length)));
      const changed = Int32Array.from(pixels).sort();
      const closed = changed.filter((p) => data[p] === 0);
      const opened = changed.filter((p) => data[p] === 1);
      for (const p of changed) data[p] = 1 - data[p]!;
      parts = changeParts(parts, closed, opened).parts;
      const live = findRuns(packed(data, width), 0).start.length;
      expect(parts.store.used).toBeLessThanOrEqual(4 * live + 4096);
      expect(parts.idOf.length).toBeLessThanOrEqual(4 * parts.count + 4096);
      if (step % 40 > 0) continue;
      const fresh = findParts(packed(data, width));
      for (const key of ['count', 'area', 'perimeter', 'rim', 'first'] as const) {
        expect(parts[key]).toEqual(fresh[key]);
      }
      for (let p = 0; p < data.length; p++) {
        const [x, y] = [p % width, Math.floor(p / width)];
        if (partAt(parts, x, y) !== partAt(fresh, x, y)) expect([step, x, y]).toEqual([]);
      }
    }
  });
});

describe('withoutCommon', () => {
  it('is what of one list is not in the other', () => {
    const random = seeded(7);
    const list = () => Int32Array.from([...Array(20).keys()].filter(() => random() < 0.4));
    for (let n = 0; n < 200; n++) {
      const [one, other] = [list(), list()];
      expect([...withoutCommon(one, other)]).toEqual([...one].filter((p) => !other.includes(p)));
    }
  });
});
