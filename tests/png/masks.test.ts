import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { maskToPixels } from '../../src/png/mask-to-pixels.ts';
import { readPng } from '../../src/png/read-png.ts';
import { safeFileNames } from '../../src/png/safe-file-names.ts';
import { writeMasks } from '../../src/png/write-masks.ts';
import { writePng } from '../../src/png/write-png.ts';
import { raster } from '../../src/raster/raster.ts';
import { HOSTILE_NAMES, hostileFlats } from '../support/hostile-names.ts';

describe('maskToPixels', () => {
  it('makes black and white of any view', () => {
    const mask = raster(new Uint8Array([1, 0, 0, 1, 1, 0]), [3, 2]);
    expect([...maskToPixels(mask).data]).toEqual([255, 0, 0, 255, 255, 0]);
    expect(maskToPixels(mask).shape).toEqual([3, 2, 1]);
    expect([...maskToPixels(mask.transpose(1, 0)).data]).toEqual([255, 255, 0, 255, 0, 0]);
  });

  it('refuses what is no mask', () => {
    expect(() => maskToPixels(raster(new Uint8Array([0, 255]), [2, 1]))).toThrow(
      'mask must hold 0 or 1, got 255 at [1, 0]; this looks like a mask of 0 and 255: divide it by 255',
    );
    expect(() => maskToPixels(raster(new Int32Array(2), [2, 1]) as never)).toThrow(TypeError);
  });
});

describe('writePng', () => {
  it('says of a mask what it is and what to do', () => {
    expect(() => writePng(raster(new Uint8Array([0, 0, 1, 0]), [2, 2]))).toThrow(
      new RangeError(
        'pixels must be a picture of samples up to 255, got a mask of 0 and 1 (1 at [0, 1]); write maskToPixels(mask), or a raster of shape [w, h, 1] to keep its samples',
      ),
    );
  });

  it('takes pictures of dark samples', () => {
    const samples = new Uint8Array([0, 1]);
    for (const picture of [
      raster(samples, [2, 1, 1]),
      raster(new Uint8Array(2), [2, 1]),
      raster(new Uint8Array([2, 1]), [2, 1]),
      { data: samples, width: 2, height: 1 },
    ]) {
      expect(readPng(writePng(picture)).pixels.shape).toEqual([2, 1, 1]);
    }
  });
});

describe('writeMasks', () => {
  it('gives a black and white file for each swatch, empty ones and the ground too', () => {
    const palette = ['bare', 'fur', 'shell', 'paper'].map((name) => ({ name, color: '#c86400' }));
    const indices = raster(new Uint8Array([0, 1, 3, 1]), [2, 2]);
    const resolution = { x: 11811, y: 11811, unit: 'meter' } as const;
    const files = [...writeMasks({ indices, palette, ground: 'paper' }, { resolution })];
    expect(files.map(({ name, file }) => [name, file])).toEqual([
      ['fur', 'fur.png'],
      ['shell', 'shell.png'],
      ['paper', 'paper.png'],
    ]);
    const gray = files.map(({ bytes }) =>
      [...PNG.sync.read(Buffer.from(bytes)).data].filter((_, k) => k % 4 === 0),
    );
    expect(gray).toEqual([
      [0, 255, 0, 255],
      [0, 0, 0, 0],
      [0, 0, 255, 0],
    ]);
    for (const { bytes } of files) expect(readPng(bytes).resolution).toEqual(resolution);
  });

  it('refuses wrong arguments at the call', () => {
    expect(() => writeMasks({} as never)).toThrow(TypeError);
    expect(() => writeMasks(hostileFlats(), { dpi: 1 } as never)).toThrow(/no option "dpi"/);
  });

  it('has a file of its own for each hostile name', () => {
    const files = [...writeMasks(hostileFlats())];
    expect(files.map(({ name }) => name)).toEqual(HOSTILE_NAMES);
    expect(new Set(files.map(({ file }) => file.toLowerCase())).size).toBe(HOSTILE_NAMES.length);
  });
});

describe('safe file names', () => {
  it.each([
    ['scarf', 'scarf'],
    ['heron/scarf', 'heron_scarf'],
    ['狐の毛 é 🦊', '狐の毛 é 🦊'],
    ['../../etc/passwd', '_._.._etc_passwd'],
    ['a:b*c?d"e<f>g|h\\i', 'a_b_c_d_e_f_g_h_i'],
    ['line\nfeed\u0000', 'line_feed_'],
    ['\u202egnp.exe', '_gnp.exe'],
    ['\ud800', '_'],
    ['CON', '_CON'],
    ['con.tar', '_con.tar'],
    ['lpt9', '_lpt9'],
    ['com¹', '_com¹'],
    ['console', 'console'],
    ['scarf. .', 'scarf_'],
    ['.hidden', '_hidden'],
    ['-rf', '_rf'],
    ['   ', '_'],
  ])('makes of %j %j', (name, safe) => {
    expect(safeFileNames([name])).toEqual([safe]);
  });

  it('tells names apart that a file system takes for one', () => {
    expect(safeFileNames(['fur', 'Fur', 'FUR', 'fur (2)', 'f:r', 'f?r'])).toEqual([
      'fur',
      'Fur (2)',
      'FUR (3)',
      'fur (2) (2)',
      'f_r',
      'f_r (2)',
    ]);
    expect(safeFileNames(['é', 'e\u0301', 'straße', 'STRASSE'])).toEqual([
      'é',
      'é (2)',
      'straße',
      'STRASSE (2)',
    ]);
  });

  it('keeps names within 255 bytes, whole characters', () => {
    const [latin, wide] = safeFileNames(['x'.repeat(300), '🦊'.repeat(99)]);
    expect(latin).toBe('x'.repeat(200));
    expect(wide).toBe('🦊'.repeat(50));
  });

  it('takes no quadratic time for many of one name', () => {
    const names = Array.from({ length: 20_000 }, () => 'fur');
    expect(new Set(safeFileNames(names)).size).toBe(20_000);
  });
});
