/**
 * PngSuite by Willem van Schaik, against pngjs. The files come with the Debian package
 * `libsixel-examples`; without it these tests are skipped.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { PngError } from '../../src/png/png-error.ts';
import { type PngPicture, readPng } from '../../src/png/read-png.ts';
import { writePng } from '../../src/png/write-png.ts';

const SUITE = '/usr/share/doc/libsixel-examples/examples/images/pngsuite';
const present = existsSync(SUITE);
const files = present
  ? readdirSync(SUITE)
      .sort()
      .flatMap((folder) =>
        readdirSync(join(SUITE, folder))
          .sort()
          .map((name) => `${folder}/${name}`),
      )
  : [];
const corrupted = files.filter((file) => file.startsWith('corrupted/'));
const sound = files.filter((file) => !file.startsWith('corrupted/'));
const read = (name: string): PngPicture => {
  const file = sound.find((path) => path.endsWith(`/${name}.png`))!;
  return readPng(readFileSync(join(SUITE, file)));
};

if (!present)
  console.warn('PngSuite tests are skipped: install the Debian package libsixel-examples');

describe.skipIf(!present)('PngSuite', () => {
  it('is whole', () => {
    expect([sound.length, corrupted.length]).toEqual([160, 14]);
  });

  it.each(sound)('%s has the pixels that pngjs reads', (file) => {
    const bytes = readFileSync(join(SUITE, file));
    const picture = readPng(bytes);
    // 16 bit samples are rescaled to 8 by pngjs unless it is told not to; then it gives a Uint16Array.
    const expected = PNG.sync.read(bytes, { skipRescale: picture.depth === 16 });
    expect(picture.pixels.shape.slice(0, 2)).toEqual([expected.width, expected.height]);
    const colorType = bytes[25]!;
    const samples: ArrayLike<number> = expected.data;
    expect(Array.from(rgba(picture, colorType < 3))).toEqual(Array.from(samples));
  });

  it.each(sound)('%s reads the same after it is written', (file) => {
    const { pixels, resolution } = readPng(readFileSync(join(SUITE, file)));
    const again = readPng(writePng(pixels, resolution && { resolution }));
    expect(again.pixels.shape).toEqual(pixels.shape);
    expect(again.pixels.data).toEqual(pixels.data);
    expect(again.resolution).toEqual(resolution);
  });

  it.each(corrupted)('%s is refused', (file) => {
    expect(() => readPng(readFileSync(join(SUITE, file)))).toThrow(PngError);
  });

  // What these files hold is in the description of the suite (PngSuite.README).
  it('reads resolutions', () => {
    expect(read('cdfn2c08').resolution).toEqual({ x: 1, y: 4, unit: 'unknown' });
    expect(read('cdhn2c08').resolution).toEqual({ x: 4, y: 1, unit: 'unknown' });
    expect(read('cdsn2c08').resolution).toEqual({ x: 1, y: 1, unit: 'unknown' });
    expect(read('cdun2c08').resolution).toEqual({ x: 1000, y: 1000, unit: 'meter' });
    expect(read('basn2c08').resolution).toBeUndefined();
  });

  it('reads texts, compressed and international ones too', () => {
    expect(read('ct0n0g04').text).toEqual({});
    expect(Object.keys(read('ct1n0g04').text)).toEqual([
      'Title',
      'Author',
      'Copyright',
      'Description',
      'Software',
      'Disclaimer',
    ]);
    const author = { Author: 'Willem A.J. van Schaik\n(willem@schaik.com)' };
    expect(read('ct1n0g04').text).toMatchObject(author);
    expect(read('ctzn0g04').text).toMatchObject(author);
    const described = (script: RegExp): object => ({
      Title: expect.stringMatching(/^\S/),
      Description: expect.stringMatching(script),
    });
    expect(read('cten0g04').text).toMatchObject(described(/^A compilation of a set of images/));
    expect(read('ctfn0g04').text).toMatchObject(described(/\p{Script=Latin}/u));
    expect(read('ctgn0g04').text).toMatchObject(described(/\p{Script=Greek}/u));
    expect(read('cthn0g04').text).toMatchObject(described(/\p{Script=Devanagari}/u));
    expect(read('ctjn0g04').text).toMatchObject(described(/\p{Script=Hiragana}/u));
  });

  it('reports a color space other than sRGB', () => {
    expect(read('g03n2c08').profile).toBe('gamma 0.35');
    expect(read('g25n0g16').profile).toBe('gamma 2.5');
    expect(read('ccwn2c08').profile).toBe('gamma 1');
    expect(read('ps1n0g08').profile).toBe('gamma 1');
  });
});

/**
 * RGBA samples as pngjs gives them. Where alpha comes from one transparent color it blackens the
 * transparent pixels: `black` does so here.
 */
function rgba({ pixels: { data, shape } }: PngPicture, black: boolean): ArrayLike<number> {
  const channels = shape[2]!;
  const full = data instanceof Uint16Array ? 65_535 : 255;
  const wide = new Uint16Array((data.length / channels) * 4);
  for (let from = 0, to = 0; from < data.length; from += channels, to += 4) {
    for (let c = 0; c < 3; c++) wide[to + c] = data[from + (channels >= 3 ? c : 0)]!;
    wide[to + 3] = channels % 2 === 0 ? data[from + channels - 1]! : full;
    if (black && wide[to + 3] === 0) wide.fill(0, to, to + 3);
  }
  return wide;
}
