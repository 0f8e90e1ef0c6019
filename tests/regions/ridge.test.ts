import { describe, expect, it } from 'vitest';
import { LevelQueue } from '../../src/regions/level-queue.ts';
import { floodRidges } from '../../src/regions/ridge.ts';
import { seeded } from '../support/random.ts';
import { expectTicks } from '../support/ticks.ts';

/** Meyer's flooding with a list for each level; neighbors in row order. */
function plain(ids: readonly number[], coverage: readonly number[], w: number): number[] {
  const labels = [...ids];
  const h = ids.length / w;
  const queues = Array.from({ length: 256 }, (): number[] => []);
  const near = (p: number) => [
    ...(p >= w ? [p - w] : []),
    ...(p % w > 0 ? [p - 1] : []),
    ...(p % w < w - 1 ? [p + 1] : []),
    ...(p < w * (h - 1) ? [p + w] : []),
  ];
  labels.forEach((id, p) => {
    if (id !== 0 && near(p).some((q) => ids[q] === 0)) queues[coverage[p]!]!.push(p);
  });
  for (let level = 0; level < 256; level++) {
    for (const p of queues[level]!) {
      for (const q of near(p)) {
        if (labels[q] !== 0) continue;
        labels[q] = labels[p]!;
        queues[Math.max(level, coverage[q]!)]!.push(q);
      }
    }
  }
  return labels;
}

describe('floodRidges', () => {
  it('equals flooding with a list for each level', () => {
    const random = seeded(9);
    const widths = [1, 2, 7, 31, 32, 33, 64, 65, 97];
    for (let n = 0; n < 180; n++) {
      const w = widths[n % widths.length]!;
      const h = 1 + Math.floor(12 * random());
      const [share, tones] = [random() ** 2, [1, 3, 256][n % 3]!];
      const ids = Array.from({ length: w * h }, () =>
        random() < share ? 1 + Math.floor(4 * random()) : 0,
      );
      const tone = () =>
        (tones === 3 ? 127 : 255 / Math.max(1, tones - 1)) * Math.floor(tones * random());
      const coverage = ids.map(() => Math.floor(tone()));
      const found = Int32Array.from(ids);
      floodRidges(found, Uint8Array.from(coverage), w, h);
      expect([...found], `case ${n}, ${w} × ${h}`).toEqual(plain(ids, coverage, w));
    }
  });

  it('tells how far it has come', () => {
    const [w, h] = [900, 900];
    const labels = new Int32Array(w * h);
    labels[0] = 1;
    expectTicks((tick) => floodRidges(labels, new Uint8Array(w * h), w, h, tick), {
      least: h / 64 + (w * h) / 65_536 - 1,
    });
  });
});

describe('LevelQueue', () => {
  it('is a list for each level, first in, first out, however long they grow', () => {
    const random = seeded(21);
    const queue = new LevelQueue();
    const lists = new Map<number, number[]>();
    let wrong = 0;
    for (let n = 0; n < 150_000; n++) {
      const level = random() < 0.3 ? 255 : Math.floor(5 * random());
      const list = lists.get(level) ?? [];
      lists.set(level, list);
      // First it grows, then it shrinks, so that chunks are taken, left and taken over.
      const growing = (n / 30_000) % 2 < 1 ? 0.8 : 0.2;
      if (random() < growing) {
        queue.put(level, n);
        list.push(n);
      } else if (queue.take(level) !== (list.shift() ?? -1)) wrong++;
    }
    for (const [level, list] of lists) {
      for (const value of [...list, -1]) if (queue.take(level) !== value) wrong++;
    }
    expect(wrong).toBe(0);
  });
});
