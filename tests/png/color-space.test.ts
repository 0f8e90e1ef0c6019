import { PNG } from 'pngjs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { makeChunk, readChunks } from '../../src/png/chunks.ts';
import { PngError } from '../../src/png/png-error.ts';
import { readPng } from '../../src/png/read-png.ts';
import { writeFlats } from '../../src/png/write-flats.ts';
import { writePng } from '../../src/png/write-png.ts';
import { raster } from '../../src/raster/raster.ts';
import { idat, iend, ihdr, latin1, png } from './build-png.ts';

const art = raster(
  Uint8Array.from({ length: 12 }, (_, i) => 20 * i),
  [2, 2, 3],
);
const types = (bytes: Uint8Array) => [...readChunks(bytes)].map(({ type }) => type);

/** A PNG in a profile other than sRGB, as libvips and lcms write it. */
const wide = async (): Promise<Uint8Array> =>
  await sharp(Buffer.from(art.data), { raw: { width: 2, height: 2, channels: 3 } })
    .withIccProfile('p3')
    .png()
    .toBuffer();

describe('the color space of a file', () => {
  it('is said to be sRGB, before PLTE', () => {
    expect(types(writePng(art))).toEqual(['IHDR', 'sRGB', 'IDAT', 'IEND']);
    // Rendering intent 1: relative colorimetric (PNG specification, 11.3.2.5).
    expect([...readChunks(writePng(art))][1]!.data).toEqual(Uint8Array.of(1));
    const palette = [
      { name: 'bare', color: '#000000' },
      { name: 'fur', color: '#8a5d42' },
    ];
    const flats = { indices: raster(new Uint8Array([0, 1]), [2, 1]), palette };
    const order = types(writeFlats(flats).bytes);
    expect(order.indexOf('sRGB')).toBeLessThan(order.indexOf('PLTE'));
    expect(readPng(writePng(art)).profile).toBeUndefined();
    expect(readPng(writePng(art)).icc).toBeUndefined();
  });

  it('is that of the scan when its profile is handed on, to the byte', async () => {
    const scan = readPng(await wide());
    expect(scan.profile).toBe(scan.icc!.name);
    const bytes = writePng(scan.pixels, { icc: scan.icc });
    expect(types(bytes)).toEqual(['IHDR', 'iCCP', 'IDAT', 'IEND']);
    const again = readPng(bytes);
    expect(again.icc).toEqual(scan.icc);
    expect(again.profile).toBe(scan.profile);
    expect(again.pixels.data).toEqual(scan.pixels.data);
    const { icc } = await sharp(bytes).metadata();
    expect(Buffer.from(icc!).equals(Buffer.from(scan.icc!.bytes))).toBe(true);
    expect(PNG.sync.read(Buffer.from(bytes)).width).toBe(2);
  });

  it('is refused where it is none', async () => {
    const { icc } = readPng(await wide());
    const write = (own: unknown) => () => writePng(art, { icc: own } as never);
    expect(write('sRGB')).toThrow('icc must be a profile { name, bytes }, got "sRGB"');
    expect(write({ name: '', bytes: icc!.bytes })).toThrow(/icc.name must be 1 to 79/);
    expect(write({ name: 'x'.repeat(80), bytes: icc!.bytes })).toThrow(RangeError);
    expect(write({ name: 'a\nb', bytes: icc!.bytes })).toThrow(RangeError);
    expect(write({ name: ' a', bytes: icc!.bytes })).toThrow(RangeError);
    expect(write({ name: '狐', bytes: icc!.bytes })).toThrow(RangeError);
    expect(write({ name: 'a', bytes: new Uint8Array(200) })).toThrow(
      'icc.bytes must be an ICC profile, got Uint8Array(200)',
    );
    expect(write({ name: 'a', bytes: [1] })).toThrow(TypeError);
  });

  it('is an error where the profile is damaged or vast', () => {
    const withProfile = (data: string): Uint8Array =>
      png(
        ihdr({ width: 1, height: 1 }),
        makeChunk('iCCP', latin1(data)),
        idat(Uint8Array.of(0, 7)),
        iend,
      );
    expect(() => readPng(withProfile('a\0\0what is this'))).toThrow(PngError);
    expect(() => readPng(withProfile('a\0\x01b'))).toThrow(/no compression method 1 \(iCCP\)/);
    expect(() => readPng(withProfile('a'))).toThrow(/zero byte/);
  });
});
