import { describe, expect, it } from 'vitest';
import { packMask } from '../../src/raster/pack.ts';
import { changeParts } from '../../src/runs/change-parts.ts';
import { findParts, isSameRow, type Parts, partAt } from '../../src/runs/parts.ts';
import { seeded } from '../support/random.ts';

const partsOf = (data: Uint8Array, width: number, height: number): Parts =>
  findParts(packMask({ data, width, height, channels: 1 }, 'data'));

/** All that is told of parts, without how they are stored. */
function told(parts: Parts): unknown {
  const { width, height, count, area, perimeter, rim, first } = parts;
  const labels = Array.from({ length: width * height }, (_, p) =>
    partAt(parts, p % width, Math.floor(p / width)),
  );
  return { count, labels, lists: [area, perimeter, rim, first].map((list) => [...list]) };
}

// Checked against the parts that are found from nothing.
describe('changeParts', () => {
  it('gives the parts of the changed mask, whatever was closed and opened before', () => {
    const random = seeded(5);
    let [split, joined, shared] = [0, 0, 0];
    for (let n = 0; n < 60; n++) {
      const [width, height] = [1 + Math.floor(70 * random()), 1 + Math.floor(40 * random())];
      const ink = 0.5 * random();
      const data = Uint8Array.from({ length: width * height }, () => (random() < ink ? 1 : 0));
      let parts = partsOf(data, width, height);
      for (let step = 0; step < 12; step++) {
        const before = parts;
        const toldBefore = told(before);
        const pixels = new Set<number>();
        for (let k = Math.floor(3 * random()); k >= 0; k--) {
          // A line that runs down or across, or single pixels.
          const from = Math.floor(random() * data.length);
          const by = [1, width, width + 1, Math.floor(random() * data.length)][
            Math.floor(4 * random())
          ]!;
          const length = 1 + Math.floor(random() * 40);
          for (let i = 0, p = from; i < length && p < data.length; i++, p += by) pixels.add(p);
        }
        const changed = Int32Array.from(pixels).sort();
        const only = Math.floor(3 * random());
        const closed = changed.filter((p) => data[p] === 0 && only !== 1);
        const opened = changed.filter((p) => data[p] === 1 && only !== 2);
        for (const p of closed) data[p] = 1;
        for (const p of opened) data[p] = 0;
        const now = changeParts(before, closed, opened);
        parts = now.parts;
        expect(told(parts)).toEqual(told(partsOf(data, width, height)));
        expect(told(before)).toEqual(toldBefore);
        for (let y = 0; y < height; y++) {
          if (!isSameRow(before, parts, y)) continue;
          shared++;
          for (let x = 0; x < width; x++) {
            expect(now.nowOf[partAt(before, x, y)]).toBe(partAt(parts, x, y));
          }
        }
        if (parts.count > before.count) split++;
        if (parts.count < before.count) joined++;
      }
    }
    expect(Math.min(split, joined)).toBeGreaterThan(100);
    expect(shared).toBeGreaterThan(1000);
  });

  it('makes two states of one, one after the other', () => {
    const width = 40;
    const data = new Uint8Array(40 * 30);
    const base = partsOf(data, width, 30);
    const across = Int32Array.from({ length: 40 }, (_, x) => 15 * width + x);
    const down = Int32Array.from({ length: 30 }, (_, y) => y * width + 20);
    const one = changeParts(base, across, new Int32Array(0)).parts;
    const other = changeParts(base, down, new Int32Array(0)).parts;
    const again = changeParts(one, new Int32Array(0), across).parts;
    const with_ = (pixels: Int32Array): Uint8Array =>
      Uint8Array.from(data, (_, p) => (pixels.includes(p) ? 1 : 0));
    expect(told(one)).toEqual(told(partsOf(with_(across), width, 30)));
    expect(told(other)).toEqual(told(partsOf(with_(down), width, 30)));
    expect(told(again)).toEqual(told(base));
  });

  it('leaves its place to one of the pieces of a part that is cut in equal ones', () => {
    for (const [width, height] of [
      [5, 1],
      [1, 5],
      [5, 3],
    ] as const) {
      const base = partsOf(new Uint8Array(width * height), width, height);
      const wall = Int32Array.from({ length: width * height }, (_, p) => p).filter((p) =>
        width > 1 ? p % width === 2 : p === 2,
      );
      const { parts, nowOf } = changeParts(base, wall, new Int32Array(0));
      expect(parts.count).toBe(2);
      expect([1, 2]).toContain(nowOf[1]);
    }
  });
});
