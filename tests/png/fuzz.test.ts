/**
 * Damaged PNGs: a picture or a PngError, never another exception. `npm run bench:fuzz` reads many more
 * of them, of more files; these are every fortieth of 100,000.
 */
import { describe, expect, it } from 'vitest';
import { makeChunk } from '../../src/png/chunks.ts';
import { PngError } from '../../src/png/png-error.ts';
import { readFlats } from '../../src/png/read-flats.ts';
import { readPng } from '../../src/png/read-png.ts';
import { writeFlats } from '../../src/png/write-flats.ts';
import { writePng } from '../../src/png/write-png.ts';
import { raster } from '../../src/raster/raster.ts';
import { type BuildHeader, CHANNELS, encodeRaw, idat, iend, ihdr, png } from './build-png.ts';

interface Mutations {
  readonly KINDS: readonly string[];
  mutate(files: readonly Uint8Array[], number: number): { kind: string; bytes: Uint8Array };
}
const MODULE = new URL('../../bench/fuzz/mutate.mjs', import.meta.url).href;
const STEP = 40;

/** Every color type and depth, interlaced and not, with all filters. */
function builtFiles(): Uint8Array[] {
  const kinds: [colorType: number, depth: number][] = [
    [0, 1],
    [0, 2],
    [0, 4],
    [0, 8],
    [0, 16],
    [2, 8],
    [2, 16],
    [3, 1],
    [3, 4],
    [3, 8],
    [4, 8],
    [6, 16],
  ];
  return kinds.flatMap(([colorType, depth]) =>
    [0, 1].map((interlace) => {
      const fields: BuildHeader = { width: 9, height: 7, depth, colorType, interlace };
      const samples = Array.from(
        { length: 63 * CHANNELS[colorType]! },
        (_, i) => (i * 37) % 2 ** Math.min(depth, 8),
      );
      const plte = colorType === 3 ? [makeChunk('PLTE', new Uint8Array(3 * 2 ** depth))] : [];
      return png(ihdr(fields), ...plte, idat(encodeRaw(fields, samples, (row) => row % 5)), iend);
    }),
  );
}

function ownFiles(): Uint8Array[] {
  const pixels = raster(
    Uint8Array.from({ length: 105 }, (_, i) => i * i),
    [7, 5, 3],
  );
  const palette = ['bare', 'fur', 'æ 🦊'].map((name, i) => ({ name, color: `#00000${i}` }));
  const indices = raster(
    Uint8Array.from({ length: 35 }, (_, i) => i % 3),
    [7, 5],
  );
  return [
    writePng(pixels, { resolution: { x: 1, y: 2, unit: 'unknown' } }),
    writeFlats({ indices, palette, ground: 'fur' }).bytes,
  ];
}

describe('a mutated PNG', () => {
  it('gives a picture or a PngError', async () => {
    const { KINDS, mutate } = (await import(MODULE)) as Mutations;
    const files = [...builtFiles(), ...ownFiles()];
    for (const file of files) expect(readPng(file).pixels.size).toBeGreaterThan(0);
    const kinds = new Set<string>();
    const tally = { pictures: 0, errors: 0 };
    // A step that shares no factor with the number of kinds meets them all.
    for (let number = 0; number < 100_000; number += STEP + 1) {
      const { kind, bytes } = mutate(files, number);
      kinds.add(kind.split(',')[0]!);
      try {
        (number % 2 === 0 ? readPng : readFlats)(bytes, { maxPixels: 2 ** 20 });
        tally.pictures++;
      } catch (error) {
        // readFlats of a sound picture that is not in solid colors
        const solid = error instanceof RangeError && /^pixels must/.test(error.message);
        if (!(error instanceof PngError) && !solid) throw error;
        tally.errors++;
      }
    }
    expect(kinds.size).toBe(KINDS.length);
    expect(tally.pictures).toBeGreaterThan(100);
    expect(tally.errors).toBeGreaterThan(1000);
  });
});
