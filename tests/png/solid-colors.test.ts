import { describe, expect, it } from 'vitest';
import { indexFlats } from '../../src/palette/index-flats.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import { makeChunk } from '../../src/png/chunks.ts';
import { readFlats } from '../../src/png/read-flats.ts';
import { readPng } from '../../src/png/read-png.ts';
import { writeFlats } from '../../src/png/write-flats.ts';
import { writePng } from '../../src/png/write-png.ts';
import { raster } from '../../src/raster/raster.ts';
import { type BuildHeader, CHANNELS, encodeRaw, idat, iend, ihdr, png } from './build-png.ts';

const KINDS: [noun: string, colorType: number, depth: number][] = [
  ['gray', 0, 1],
  ['gray', 0, 2],
  ['gray', 0, 4],
  ['gray', 0, 8],
  ['gray', 0, 16],
  ['RGB', 2, 8],
  ['RGB', 2, 16],
  ['indexed', 3, 1],
  ['indexed', 3, 2],
  ['indexed', 3, 4],
  ['indexed', 3, 8],
  ['gray with alpha', 4, 8],
  ['gray with alpha', 4, 16],
  ['RGBA', 6, 8],
  ['RGBA', 6, 16],
];
const WIDTH = 11;
const HEIGHT = 7;

/** A picture of few colors; alpha is all or nothing, and 16 bit samples stand for 8 bit ones. */
function solid(colorType: number, depth: number, interlace: number): Uint8Array {
  const channels = CHANNELS[colorType]!;
  const most = 2 ** depth - 1;
  const samples = Array.from({ length: WIDTH * HEIGHT * channels }, (_, i) => {
    const pixel = Math.floor(i / channels);
    const kind = ((pixel % WIDTH) >> 2) + 3 * (Math.floor(pixel / WIDTH) >> 2);
    if (channels % 2 === 0 && i % channels === channels - 1) return kind === 2 ? 0 : most;
    const value = (kind * 37 + (i % channels) * 11) % Math.min(most + 1, 256);
    return depth === 16 ? value * 257 : value;
  });
  const fields: BuildHeader = { width: WIDTH, height: HEIGHT, depth, colorType, interlace };
  const colors = Uint8Array.from({ length: 3 * (most + 1) }, (_, i) => (i * 29) & 255);
  const plte =
    colorType === 3 ? [makeChunk('PLTE', colors), makeChunk('tRNS', Uint8Array.of(0))] : [];
  return png(ihdr(fields), ...plte, idat(encodeRaw(fields, samples, (row) => row % 5)), iend);
}

describe('readFlats of solid colors', () => {
  it.each(
    KINDS.flatMap(([noun, type, depth]) =>
      [0, 1].map((interlace) => ({ noun, type, depth, interlace })),
    ),
  )('takes $noun of $depth bits, interlaced $interlace', ({ type, depth, interlace }) => {
    const file = solid(type, depth, interlace);
    const { flats } = readFlats(file);
    expect(flats).toEqual(indexFlats(readPng(file).pixels));
    // What is painted from them is the picture, as 8 bit RGBA; transparent pixels hold any color.
    const { pixels } = readPng(file);
    const [, , channels] = pixels.shape as [number, number, number];
    const full = depth === 16 ? 65_535 : 255;
    const painted = paintFlats(flats);
    for (let y = 0; y < HEIGHT; y++) {
      for (let x = 0; x < WIDTH; x++) {
        const alpha = channels % 2 === 0 ? pixels.get(x, y, channels - 1)! : full;
        expect(painted.get(x, y, 3)).toBe(alpha === 0 ? 0 : 255);
        if (alpha === 0) continue;
        for (let c = 0; c < 3; c++) {
          const sample = pixels.get(x, y, channels >= 3 ? c : 0)!;
          expect(painted.get(x, y, c)).toBe(sample / (full / 255));
        }
      }
    }
    // And they come back from a flats file of ours.
    expect(readFlats(writeFlats(flats).bytes).flats).toEqual(flats);
  });
});

describe('the resolution of the line art', () => {
  it('goes on into the flats file', () => {
    const resolution = { x: 23_622, y: 23_622, unit: 'meter' as const };
    const lines = readPng(writePng(raster(new Uint8Array([0, 255]), [2, 1]), { resolution }));
    const flats = {
      indices: raster(new Uint8Array([0, 1]), [2, 1]),
      palette: ['bare', 'fur'].map((name) => ({ name, color: '#000000' })),
    };
    const written = writeFlats(flats, lines.resolution && { resolution: lines.resolution });
    expect(readFlats(written.bytes).resolution).toEqual(resolution);
    // It stays when the file is read and written again.
    const again = readFlats(written.bytes);
    const options = again.resolution && { resolution: again.resolution };
    expect(writeFlats(again.flats, options).bytes).toEqual(written.bytes);
  });
});
