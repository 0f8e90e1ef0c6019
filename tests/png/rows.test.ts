import fc from 'fast-check';
import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { filterRows } from '../../src/png/filter-rows.ts';
import { unfilterRows } from '../../src/png/unfilter-rows.ts';
import { writeFlats } from '../../src/png/write-flats.ts';
import { raster } from '../../src/raster/raster.ts';
import { seeded } from '../support/random.ts';
import { encodeRaw } from './build-png.ts';

/** Samples with long runs and rows that repeat, as flats have them. */
function flatSamples(width: number, height: number, seed: number): Uint8Array {
  const random = seeded(seed);
  const data = new Uint8Array(width * height);
  let value = 0;
  for (let i = 0; i < data.length; i++) {
    if (random() < 0.2) value = Math.floor(random() * 256);
    data[i] = i >= width && random() < 0.7 ? data[i - width]! : value;
  }
  return data;
}

describe('filterRows', () => {
  it('stores what differs from the row above', () => {
    const data = Uint8Array.of(1, 2, 3, 4, 5, 1, 2, 3, 4, 9, 0, 2, 3, 4, 9);
    const image = { width: 5, height: 3, channels: 1, data };
    expect([...filterRows(image, 'up')]).toEqual(
      [
        [0, 1, 2, 3, 4, 5],
        [2, 0, 0, 0, 0, 4],
        [2, 255, 0, 0, 0, 0],
      ].flat(),
    );
    expect([...filterRows(image, 'none')].slice(6, 12)).toEqual([0, 1, 2, 3, 4, 9]);
  });

  it('is undone, in any width, and gives what filters sample by sample give', () => {
    for (const width of [1, 2, 3, 4, 5, 7, 8, 31, 64, 65]) {
      const data = flatSamples(width, 9, width);
      for (const filter of ['none', 'up'] as const) {
        const rows = filterRows({ width, height: 9, channels: 1, data }, filter);
        const plain = encodeRaw({ width, height: 9 }, data, (at) =>
          filter === 'up' && at > 0 ? 2 : 0,
        );
        expect(rows).toEqual(plain);
        unfilterRows(rows, 0, 9, width, 1);
        expect(rows.subarray(0, data.length)).toEqual(data);
      }
    }
  });
});

describe('unfilterRows', () => {
  it('undoes every filter in any order, in place and behind other bytes', () => {
    const shape = fc.record({
      width: fc.integer({ min: 1, max: 20 }),
      height: fc.integer({ min: 1, max: 9 }),
      colorType: fc.constantFrom(0, 2, 4, 6),
      start: fc.integer({ min: 0, max: 9 }),
      seed: fc.nat(),
    });
    fc.assert(
      fc.property(shape, ({ width, height, colorType, start, seed }) => {
        const channels = [1, 0, 3, 0, 2, 0, 4][colorType]!;
        const random = seeded(seed);
        const samples = Uint8Array.from(
          { length: width * height * channels },
          () => random() * 256,
        );
        const filters = Array.from({ length: height }, () => Math.floor(random() * 5));
        const raw = encodeRaw(
          { width, height, colorType },
          samples,
          (at) => filters[at / (width * channels + 1)]!,
        );
        const bytes = new Uint8Array(start + raw.length + 3).fill(77);
        bytes.set(raw, start);
        unfilterRows(bytes, start, height, width * channels, channels);
        expect(bytes.subarray(start, start + samples.length)).toEqual(samples);
        expect([...bytes.subarray(0, start), ...bytes.subarray(-3)]).toEqual(
          Array(start + 3).fill(77),
        );
      }),
      { seed: 2, numRuns: 500 },
    );
  });

  it('refuses a filter that there is not, naming the row', () => {
    expect(() => unfilterRows(Uint8Array.of(0, 1, 5, 1), 0, 2, 1, 1)).toThrow(
      new RangeError('a row must have a filter from 0 to 4, got 5 in row 1'),
    );
  });
});

describe('writeFlats', () => {
  it('writes what fast-png 8.0.0 reads', () => {
    const palette = Array.from({ length: 256 }, (_, i) => ({
      name: i === 0 ? 'bare' : `s${i}`,
      color: `#0000${i.toString(16).padStart(2, '0')}`,
    }));
    const data = flatSamples(37, 29, 4);
    const file = decode(writeFlats({ indices: raster(data, [37, 29]), palette }).bytes, {
      checkCrc: true,
    });
    expect(Array.from(file.data)).toEqual([...data]);
    expect(file.palette).toHaveLength(256);
  });
});
