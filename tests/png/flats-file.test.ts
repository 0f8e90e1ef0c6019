import fc from 'fast-check';
import ndarray from 'ndarray';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { formatColor } from '../../src/color/hex.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import { recolor } from '../../src/palette/recolor.ts';
import type { Flats, Swatch } from '../../src/palette/types.ts';
import { makeChunk, readChunks } from '../../src/png/chunks.ts';
import { PngError } from '../../src/png/png-error.ts';
import { readFlats } from '../../src/png/read-flats.ts';
import { readPng } from '../../src/png/read-png.ts';
import { writeFlats } from '../../src/png/write-flats.ts';
import { writePng } from '../../src/png/write-png.ts';
import { raster } from '../../src/raster/raster.ts';
import { insertBeforeData, latin1 } from './build-png.ts';

const palette: Swatch[] = [
  { name: 'bare', color: '#000000' },
  { name: 'paper', color: '#f0f0e0' },
  { name: 'scarf', color: '#c86400' },
  { name: 'boots', color: '#000000' },
  { name: 'cape', color: '#c86400' },
];
const flats: Flats = {
  indices: raster(Uint8Array.of(1, 1, 1, 0, 2, 1, 4, 3, 1), [3, 3]),
  palette,
  ground: 'paper',
};
/** `count` swatches of as many colors, `bare` among them. */
const manySwatches = (count: number): Swatch[] =>
  Array.from({ length: count }, (_, i) => ({
    name: i === 0 ? 'bare' : `swatch ${i}`,
    color: formatColor(i >> 8, i & 255, 7),
  }));
const many = (count: number): Flats => ({
  indices: raster(
    Uint16Array.from({ length: 40 * 30 }, (_, i) => (i * 7) % count),
    [40, 30],
  ),
  palette: manySwatches(count),
  ground: 'swatch 9',
});
/** Whole equality: samples, shape, palette, ground. */
const expectSame = (found: Flats, expected: Flats): void => {
  expect(found.indices.data).toEqual(expected.indices.data);
  expect(found.indices.shape).toEqual(expected.indices.shape);
  expect({ ...found, indices: 0 }).toStrictEqual({ ...expected, indices: 0 });
};

describe('writeFlats', () => {
  it('writes indexed color with the indices as they are', () => {
    const { bytes, mode } = writeFlats(flats);
    expect(mode).toBe('indexed');
    const chunks = [...readChunks(bytes)];
    expect(chunks.map(({ type }) => type)).toEqual([
      'IHDR',
      'sRGB',
      'PLTE',
      'tRNS',
      'iTXt',
      'IDAT',
      'IEND',
    ]);
    expect([...chunks[0]!.data]).toEqual([0, 0, 0, 3, 0, 0, 0, 3, 8, 3, 0, 0, 0]);
    expect([...chunks[2]!.data]).toEqual([
      ...[0, 0, 0],
      ...[0xf0, 0xf0, 0xe0],
      ...[0xc8, 0x64, 0],
      ...[0, 0, 0],
      ...[0xc8, 0x64, 0],
    ]);
    expect([...chunks[3]!.data]).toEqual([0]);
    const [keyword, table] = Buffer.from(chunks[4]!.data).toString('utf8').split('\0\0\0\0\0');
    expect(keyword).toBe('underink palette');
    expect(JSON.parse(table!)).toEqual({ version: 1, palette, ground: 'paper' });
  });

  it.each([false, true])('shows the colors of paintFlats (transparentGround: %s)', (clear) => {
    for (const one of [flats, many(300)]) {
      const { bytes } = writeFlats(one, { transparentGround: clear });
      const painted = [...paintFlats(one, { transparentGround: clear }).data];
      expect([...PNG.sync.read(Buffer.from(bytes)).data]).toEqual(painted);
      expect([...readPng(bytes).pixels.data]).toEqual(painted);
    }
  });

  it('writes RGB above 256 swatches, and alpha only where a pixel is transparent', () => {
    const opaque: Flats = { ...many(300), indices: raster(new Uint16Array(6).fill(299), [3, 2]) };
    expect(writeFlats(opaque).mode).toBe('rgb');
    expect(readPng(writeFlats(opaque).bytes).pixels.shape).toEqual([3, 2, 3]);
    expect(readPng(writeFlats(many(300)).bytes).pixels.shape).toEqual([40, 30, 4]);
    const ground = { ...opaque, ground: 'swatch 299' };
    const { bytes } = writeFlats(ground, { transparentGround: true });
    expect([...readPng(bytes).pixels.data.slice(0, 4)]).toEqual([1, 43, 7, 0]);
  });

  it('refuses two swatches of one color above 256, and names them', () => {
    const twice = many(257);
    const swatches = [...twice.palette];
    swatches[200] = { name: 'same', color: '#000907' };
    expect(() => writeFlats({ ...twice, palette: swatches })).toThrow(
      new RangeError(
        'flats.palette of more than 256 swatches is written by color, so no two may share one, got "swatch 9" and "same" in #000907; recolor one, or lay fewer swatches (unnamed: \'shared\')',
      ),
    );
    // `bare` is transparent: a swatch in its color is another look.
    swatches[200] = { name: 'line', color: '#000007' };
    expect(swatches[0]!.color).toBe('#000007');
    const written = writeFlats({ ...twice, palette: swatches });
    expectSame(readFlats(written.bytes).flats, { ...twice, palette: swatches });
    // Both transparent, they look the same again.
    const clear = { ...twice, palette: swatches, ground: 'line' };
    expect(() => writeFlats(clear, { transparentGround: true })).toThrow(/"bare" and "line"/);
  });

  it('refuses flats and options that are none', () => {
    const indices = raster(Uint8Array.of(1, 5), [2, 1]);
    expect(() => writeFlats({ ...flats, indices })).toThrow(
      new RangeError('flats.indices must be below the 5 swatches of the palette, got 5 at [1, 0]'),
    );
    expect(() => writeFlats({ ...flats, ground: 'papr' })).toThrow(/did you mean "paper"/);
    expect(() => writeFlats(flats, { transparentGround: 1 } as never)).toThrow(TypeError);
    expect(() => writeFlats(flats, { resolution: { x: 1, y: -1, unit: 'meter' } })).toThrow(
      RangeError,
    );
    expect(() => writeFlats(flats, { transparent: true } as never)).toThrow(
      /writeFlats has no option/,
    );
  });
});

describe('readFlats of what writeFlats wrote', () => {
  it('gives the same flats', () => {
    const name = fc.string({ unit: 'binary', minLength: 1, maxLength: 12 });
    const arbitrary = fc.record({
      names: fc.uniqueArray(
        name.filter((text) => text !== 'bare'),
        { minLength: 1, maxLength: 20 },
      ),
      color: fc.nat(0xffffff),
      width: fc.integer({ min: 1, max: 9 }),
      height: fc.integer({ min: 1, max: 9 }),
      factor: fc.nat(1000),
      ground: fc.option(fc.nat()),
      transparentGround: fc.boolean(),
      resolution: fc.option(fc.constantFrom({ x: 11811, y: 11811, unit: 'meter' } as const)),
    });
    fc.assert(
      fc.property(arbitrary, ({ names, color, width, height, factor, ground, ...options }) => {
        const swatches = ['bare', ...names].map((own, i) => ({
          name: own,
          color: formatColor((color * i) & 255, (color >> 8) & 255, color >> 16),
        }));
        const data = Uint8Array.from(
          { length: width * height },
          (_, i) => (i * factor) % swatches.length,
        );
        const own: Flats = {
          indices: raster(data, [width, height]),
          palette: swatches,
          ...(ground !== null && { ground: names[ground % names.length]! }),
        };
        const { transparentGround, resolution } = options;
        const { bytes, mode } = writeFlats(own, {
          transparentGround,
          ...(resolution && { resolution }),
        });
        expect(mode).toBe('indexed');
        const found = readFlats(bytes);
        expectSame(found.flats, own);
        expect(found.resolution).toEqual(resolution ?? undefined);
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  it('keeps names that JSON and iTXt must escape', () => {
    const names = [
      '"',
      '\\',
      '\0',
      '\n',
      '__proto__',
      'ﬁgur',
      'é',
      'e\u0301',
      '髪',
      '🧥',
      '\ud800',
      ' ',
    ];
    const swatches = ['bare', ...names].map((name) => ({ name, color: '#102030' }));
    const own = { ...flats, palette: swatches, ground: '\ud800' };
    expectSame(readFlats(writeFlats(own).bytes).flats, own);
  });

  it.each([256, 257, 300, 65_536])('holds for %s swatches', (count) => {
    const words = many(count);
    const indices = raster(
      count > 256 ? words.indices.data : Uint8Array.from(words.indices.data),
      [40, 30],
    );
    const own: Flats = { ...words, indices };
    for (const transparentGround of [false, true]) {
      const { bytes, mode } = writeFlats(own, { transparentGround });
      expect(mode).toBe(count > 256 ? 'rgb' : 'indexed');
      expectSame(readFlats(bytes).flats, own);
    }
  });

  it('takes every view of indices', () => {
    const base = ndarray(
      Uint8Array.from({ length: 20 }, (_, i) => i % 5),
      [4, 5],
    );
    for (const view of [base, base.transpose(1, 0), base.step(-1, 2), base.lo(1, 2)]) {
      const { indices } = readFlats(writeFlats({ ...flats, indices: view }).bytes).flats;
      expect(indices.shape).toEqual(view.shape);
      for (let x = 0; x < view.shape[0]!; x++) {
        for (let y = 0; y < view.shape[1]!; y++) expect(indices.get(x, y)).toBe(view.get(x, y));
      }
    }
  });

  it('gives the same bytes after recoloring and back', () => {
    const { bytes } = writeFlats(flats);
    const night = writeFlats(recolor(readFlats(bytes).flats, { scarf: '#203040' })).bytes;
    expect(Buffer.from(night).equals(Buffer.from(bytes))).toBe(false);
    const back = writeFlats(recolor(readFlats(night).flats, { scarf: '#c86400' })).bytes;
    expect(Buffer.from(back).equals(Buffer.from(bytes))).toBe(true);
    // Only colors differ: PLTE and the table; the image data is the same.
    const data = (file: Uint8Array) =>
      [...readChunks(file)].find(({ type }) => type === 'IDAT')!.data;
    expect(data(night)).toEqual(data(bytes));
  });

  it('works past 65,535 pixels a side', () => {
    const data = Uint8Array.from({ length: 70_001 }, (_, i) => i % 5);
    for (const shape of [
      [70_001, 1],
      [1, 70_001],
    ]) {
      const own = { ...flats, indices: raster(data, shape) };
      expectSame(readFlats(writeFlats(own).bytes).flats, own);
    }
  });
});

describe('readFlats of another picture', () => {
  const table = (text: string): Uint8Array =>
    makeChunk('iTXt', latin1(`underink palette\0\0\0\0\0${text}`));

  it('takes each color for a swatch, in the order of first pixels', () => {
    const rgb = raster(Uint8Array.of(9, 9, 9, 0, 0, 255, 9, 9, 9, 255, 0, 0), [2, 2, 3]);
    const { flats: found } = readFlats(writePng(rgb));
    expect([...found.indices.data]).toEqual([1, 2, 1, 3]);
    expect(found.palette.map(({ name }) => name)).toEqual([
      'bare',
      '#090909',
      '#0000ff',
      '#ff0000',
    ]);
    expect(found.ground).toBeUndefined();
    const clear = readFlats(writePng(raster(Uint8Array.of(5, 0, 5, 255), [2, 1, 2]))).flats;
    expect([...clear.indices.data]).toEqual([0, 1]);
    expect(clear.palette[1]).toEqual({ name: '#050505', color: '#050505' });
  });

  it('reads indexed color by color too: one swatch of each that a pixel has', () => {
    const chunks = [...readChunks(writeFlats(flats).bytes)].filter(({ type }) => type !== 'iTXt');
    const signature = writeFlats(flats).bytes.subarray(0, 8);
    const parts = chunks.map(({ type, data }) => makeChunk(type, data));
    const { flats: found } = readFlats(Buffer.concat([signature, ...parts]));
    // 1 1 1 / 0 2 1 / 4 3 1, where 2 and 4 have one color
    expect([...found.indices.data]).toEqual([1, 1, 1, 0, 2, 1, 2, 3, 1]);
    expect(found.palette.map(({ name }) => name)).toEqual([
      'bare',
      '#f0f0e0',
      '#c86400',
      '#000000',
    ]);
  });

  it('gives names by color where another program saved the picture anew', () => {
    const own: Flats = {
      ...flats,
      palette: palette.toSpliced(3, 1, { name: '#00ff00', color: '#123456' }),
    };
    const art = paintFlats(own).data;
    art.set([0, 255, 0, 255], 0);
    art.set([1, 2, 3, 255], 4);
    const json = JSON.stringify({ version: 1, palette: own.palette, ground: 'paper' });
    const { flats: found } = readFlats(
      insertBeforeData(writePng(raster(art, [3, 3, 4])), [table(json)]),
    );
    expect(found.palette).toEqual([
      ...own.palette,
      { name: '#00ff00 (2)', color: '#00ff00' },
      { name: '#010203', color: '#010203' },
    ]);
    expect([...found.indices.data]).toEqual([5, 6, 1, 0, 2, 1, 2, 3, 1]);
    expect(found.indices.data).toBeInstanceOf(Uint8Array);
    expect(found.ground).toBe('paper');
  });

  it('does not trust indices where PLTE and the table differ', () => {
    const shuffled = [palette[0]!, palette[2]!, palette[1]!, palette[3]!, palette[4]!];
    const { bytes } = writeFlats({ indices: flats.indices, palette: shuffled });
    const chunks = [...readChunks(bytes)].map(({ type, data }) =>
      type === 'iTXt' ? table(JSON.stringify({ version: 1, palette })) : makeChunk(type, data),
    );
    const { flats: found } = readFlats(Buffer.concat([bytes.subarray(0, 8), ...chunks]));
    expect([...found.indices.data]).toEqual([2, 2, 2, 0, 1, 2, 2, 3, 2]);
    expect(found.palette).toEqual(palette);
  });

  it('refuses what is not in solid colors', () => {
    const half = writePng(raster(Uint8Array.of(5, 255, 5, 128), [2, 1, 2]));
    expect(() => readFlats(half)).toThrow(RangeError);
    expect(() => readFlats(half)).toThrow(/got alpha 128 at \[1, 0\]/);
    const colors = new Uint8Array(65_536 * 3);
    for (let i = 0; i < 65_536; i++) colors.set([i >> 8, i & 255, 0], 3 * i);
    expect(() => readFlats(writePng(raster(colors, [256, 256, 3])))).toThrow(
      /at most 65535 colors/,
    );
    expect(() => readFlats(writePng(raster(Uint16Array.of(300), [1, 1])))).toThrow(RangeError);
    expect(() => readFlats(half, { maxPixels: 1 })).toThrow(PngError);
  });

  it.each([
    '',
    'no JSON',
    'null',
    '{"version":2,"palette":[]}',
    '{"version":1}',
    '{"version":1,"palette":[]}',
    '{"version":1,"palette":[{"name":"scarf","color":"#000000"}]}',
    '{"version":1,"palette":[{"name":"bare","color":"black"}]}',
    '{"version":1,"palette":[{"name":"bare","color":"#000000"}],"ground":"bare"}',
    '{"version":1,"palette":[{"name":"bare","color":"#000000"}],"ground":7}',
  ])('refuses the table of swatches %j', (text) => {
    const file = insertBeforeData(writePng(raster(new Uint8Array(1), [1, 1])), [table(text)]);
    expect(() => readFlats(file)).toThrow(PngError);
    expect(() => readFlats(file)).toThrow('the table of swatches in the file cannot be read');
    expect(readPng(file).text).toEqual({ 'underink palette': text });
  });
});
