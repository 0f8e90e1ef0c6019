import fc from 'fast-check';
import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import type { Swatch } from '../../src/palette/types.ts';
import { makeChunk, readChunks } from '../../src/png/chunks.ts';
import { PngError } from '../../src/png/png-error.ts';
import { readFlats } from '../../src/png/read-flats.ts';
import { readPng } from '../../src/png/read-png.ts';
import { writeFlats } from '../../src/png/write-flats.ts';
import { raster } from '../../src/raster/raster.ts';
import { seeded } from '../support/random.ts';
import { CHANNELS, encodeRaw, idat, iend, ihdr, png } from './build-png.ts';

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

function shades(count: number): Swatch[] {
  return Array.from({ length: count }, (_, i) => ({
    name: i === 0 ? 'bare' : `s${i}`,
    color: `#0000${i.toString(16).padStart(2, '0')}`,
  }));
}

describe('readPng', () => {
  it('undoes every filter in any order', () => {
    const shape = fc.record({
      width: fc.integer({ min: 1, max: 20 }),
      height: fc.integer({ min: 1, max: 9 }),
      colorType: fc.constantFrom(0, 2, 4, 6),
      seed: fc.nat(),
    });
    fc.assert(
      fc.property(shape, ({ width, height, colorType, seed }) => {
        const channels = CHANNELS[colorType]!;
        const random = seeded(seed);
        const samples = Uint8Array.from(
          { length: width * height * channels },
          () => random() * 256,
        );
        const filters = Array.from({ length: height }, () => Math.floor(random() * 5));
        const header = { width, height, colorType };
        const raw = encodeRaw(header, samples, (at) => filters[at / (width * channels + 1)]!);
        const { pixels } = readPng(png(ihdr(header), idat(raw), iend));
        expect(pixels.data).toEqual(samples);
      }),
      { seed: 2, numRuns: 500 },
    );
  });

  it('refuses a filter that there is not', () => {
    const file = png(ihdr({ width: 1, height: 2 }), idat(Uint8Array.of(0, 1, 5, 1)), iend);
    expect(() => readPng(file)).toThrow(
      new PngError('the rows of the picture cannot be decoded', {
        cause: new Error('Unsupported filter: 5'),
      }),
    );
  });
});

describe('readFlats', () => {
  it('reads flats whose rows are filtered by the row above', () => {
    const data = flatSamples(37, 29, 4);
    const palette = shades(256);
    const { bytes } = writeFlats({ indices: raster(data, [37, 29]), palette });
    const rows = encodeRaw({ width: 37, height: 29 }, data, (at) => (at > 0 ? 2 : 0));
    const chunks = [...readChunks(bytes)].map(({ type, data: own }) =>
      type === 'IDAT' ? idat(rows) : makeChunk(type, own),
    );
    expect(readFlats(png(...chunks)).flats).toEqual(readFlats(bytes).flats);
    expect(readFlats(bytes).flats.indices.data).toEqual(data);
  });
});

describe('writeFlats', () => {
  it('writes what fast-png 8.0.0 reads', () => {
    const palette = shades(256);
    const data = flatSamples(37, 29, 4);
    const file = decode(writeFlats({ indices: raster(data, [37, 29]), palette }).bytes, {
      checkCrc: true,
    });
    expect(Array.from(file.data)).toEqual([...data]);
    expect(file.palette).toHaveLength(256);
  });
});
