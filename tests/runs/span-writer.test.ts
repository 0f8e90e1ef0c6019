import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { differing } from '../../src/raster/quads.ts';
import type { Bounds, RasterData } from '../../src/raster/types.ts';
import { spanWriter } from '../../src/runs/span-writer.ts';
import { KINDS } from '../support/kinds.ts';
import { seeded } from '../support/random.ts';

/** The spans of a row in which a list of choices is true. */
function spansOf(chosen: readonly boolean[]): number[] {
  return chosen.flatMap((here, x) => {
    const [before, after] = [chosen[x - 1] ?? false, chosen[x + 1] ?? false];
    return [...(here && !before ? [x] : []), ...(here && !after ? [x + 1] : [])];
  });
}

/** The pixels that are chosen, may be changed and differ, with their bounds, one by one. */
function plain(
  data: RasterData,
  [width, height, channels]: readonly [number, number, number],
  value: readonly number[],
  chosen: (x: number, y: number) => boolean,
  mayChange: (pixel: number) => boolean,
) {
  const result = [...data];
  let changed = 0;
  let bounds: Bounds | null = null;
  for (let p = 0; p < width * height; p++) {
    const [x, y] = [p % width, Math.floor(p / width)];
    if (!chosen(x, y) || !mayChange(p)) continue;
    if (value.every((v, c) => result[p * channels + c] === v)) continue;
    value.forEach((v, c) => void (result[p * channels + c] = v));
    changed++;
    const [x0, y0, x1, y1]: Bounds = bounds ?? [x, y, x + 1, y + 1];
    bounds = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x + 1), Math.max(y1, y + 1)];
  }
  return { result, changed, bounds };
}

describe('spanWriter', () => {
  it('writes, counts and bounds as pixel by pixel: kinds, channels, offsets, choices', () => {
    const scene = fc.record({
      kind: fc.constantFrom(...KINDS, ...Array(9).fill(Uint8Array), Uint8ClampedArray),
      width: fc.integer({ min: 1, max: 90 }),
      height: fc.integer({ min: 1, max: 4 }),
      channels: fc.constantFrom(1, 1, 1, 2, 3),
      offset: fc.nat(5),
      behind: fc.nat(5),
      levels: fc.constantFrom(1, 2, 3),
      density: fc.constantFrom(0.1, 0.5, 0.9, 0.99, 1),
      guarded: fc.constantFrom(false, false, true),
      upward: fc.boolean(),
      seed: fc.integer(),
    });
    fc.assert(
      fc.property(scene, (s) => {
        const { kind: Kind, width, height, channels, offset, levels } = s;
        const random = seeded(s.seed);
        const size = width * height * channels;
        const whole = new Kind(
          Array.from({ length: offset + size + s.behind }, () => Math.floor(random() * levels)),
        );
        // A patch that is alike, as flats are.
        whole.fill(1, offset + Math.floor(size * random()));
        const data = whole.subarray(offset, offset + size);
        const value = Array.from({ length: channels }, () => Math.floor(random() * 2));
        const picks = Array.from({ length: width * height }, () => random() < s.density);
        const allowed = Array.from({ length: width * height }, () => random() < 0.7);
        const mayChange = s.guarded ? (p: number) => allowed[p]! : undefined;
        const outside = [...whole.subarray(0, offset), ...whole.subarray(offset + size)];
        const chosen = (x: number, y: number) => picks[y * width + x]!;
        const may = mayChange ?? (() => true);
        const expected = plain(data, [width, height, channels], value, chosen, may);
        const writer = spanWriter({ data, width, height, channels }, value, mayChange);
        const rows = [...Array(height).keys()];
        for (const y of s.upward ? rows.reverse() : rows) {
          const spans = spansOf(picks.slice(y * width, (y + 1) * width));
          if (spans.length > 0) writer.row(y, Int32Array.from([...spans, -9, -9]), spans.length);
        }
        expect([...data]).toEqual(expected.result);
        expect([writer.changed, writer.bounds]).toEqual([expected.changed, expected.bounds]);
        expect([...whole.subarray(0, offset), ...whole.subarray(offset + size)]).toEqual(outside);
      }),
      { numRuns: 600 },
    );
  });

  it('bounds nothing by a row that had the value before, at once and after other rows', () => {
    for (const Kind of [Uint8Array, Uint16Array]) {
      const data = new Kind(50 * 4).fill(7, 0, 50).fill(7, 150);
      const writer = spanWriter({ data, width: 50, height: 4, channels: 1 }, [7]);
      const span = Int32Array.of(1, 49);
      writer.row(0, span, 2);
      expect([writer.changed, writer.bounds]).toEqual([0, null]);
      for (const y of [2, 3, 0]) writer.row(y, span, 2);
      expect([writer.changed, writer.bounds]).toEqual([48, [1, 2, 49, 3]]);
      writer.row(2, Int32Array.of(0, 50), 2);
      expect([writer.changed, writer.bounds]).toEqual([50, [0, 2, 50, 3]]);
      writer.row(1, Int32Array.of(3, 4, 8, 45), 4);
      expect([writer.changed, writer.bounds]).toEqual([88, [0, 1, 50, 3]]);
    }
  });

  it('differing is 1 in each byte that is not 0', () => {
    const bytes = [0, 1, 0x7f, 0x80, 0xff];
    for (const a of bytes)
      for (const b of bytes)
        for (const c of bytes)
          for (const d of bytes) {
            const word = a | (b << 8) | (c << 16) | (d << 24);
            const ones = [d, c, b, a].map((byte) => (byte === 0 ? '00' : '01')).join('');
            expect(differing(word).toString(16).padStart(8, '0')).toBe(ones);
          }
  });
});
