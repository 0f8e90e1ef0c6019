/**
 * Notes on input that is probably not meant, and none on drawings by many hands (openmoji, CC BY-SA
 * 4.0, from npm).
 */
import ndarray from 'ndarray';
import { describe, expect, it } from 'vitest';
import { layFlats } from '../../src/flats/lay-flats.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Pixels, PixelsLike } from '../../src/raster/types.ts';
import { seeded } from '../support/random.ts';
import { drawing, drawings } from './drawings.ts';

const SIZE = 128;
const all = drawings(100, SIZE);
const notes = (pixels: PixelsLike): string[] =>
  layFlats(pixels, { maxGap: 0 }).report.notes.map(({ why }) => why);

/** The upper part of a drawing, so that its sides differ. */
function upper(pixels: Pixels<Uint8Array>, height: number): Uint8Array {
  return Uint8Array.from({ length: SIZE * height }, (_, i) => pixels.data[4 * i]!);
}

describe('notes on input', () => {
  it('are not made on 100 drawings, whole, in part or on transparent paper', () => {
    for (const { name, pixels } of all) {
      expect(notes(pixels), name).toEqual([]);
      expect(notes(raster(upper(pixels, 80), [SIZE, 80])), name).toEqual([]);
      const line = Uint8Array.from(pixels.data, (_, k) =>
        k % 4 === 3 ? 255 - pixels.data[k - 1]! : 0,
      );
      expect(notes(raster(line, [SIZE, SIZE, 4])), name).toEqual([]);
    }
  });

  it('tell a picture without ink, and one without paper', () => {
    expect(notes(raster(new Uint8Array(63).fill(255), [9, 7]))).toEqual([
      'there is no ink: every pixel is paper',
    ]);
    expect(notes(raster(new Uint8Array(63), [9, 7]))).toEqual([
      'there is no paper: every pixel is ink',
    ]);
  });

  it('tell light ink on dark paper', () => {
    for (const { name, pixels } of all.slice(0, 20)) {
      const dark = raster(
        Uint8Array.from({ length: SIZE * SIZE }, (_, i) => 255 - 0.8 * pixels.data[4 * i]!),
        [SIZE, SIZE],
      );
      expect(notes(dark), name).toContainEqual(
        expect.stringMatching(/^\d\d\.\d % of the picture and .* dark; .* inverted$/),
      );
    }
  });

  it('tell a colored picture, but not under-drawing or tinted paper', () => {
    const { pixels } = all[3]!;
    const { flats } = layFlats(pixels, { ground: { name: 'sea', color: '#1d6f8c' } });
    expect(notes(paintFlats(flats))).toContainEqual(
      expect.stringMatching(/^\d+\.\d % of the picture is colored/),
    );
    const tint = [236, 224, 150];
    const pencil = (k: number) =>
      (Math.floor(k / 3 / SIZE) % 12 === 5 ? [164, 221, 237] : tint)[k % 3]!;
    const tinted = Uint8Array.from({ length: 3 * SIZE * SIZE }, (_, k) =>
      Math.round((pixels.data[4 * Math.floor(k / 3)]! * pencil(k)) / 255),
    );
    expect(notes(raster(tinted, [SIZE, SIZE, 3])).filter((why) => why.includes('color'))).toEqual(
      [],
    );
  });

  it('tell an alpha that is a fourth ink', () => {
    // Samples of inks, 255 none: white paper is 255 in all four, the line has all of its black.
    for (const { name, pixels } of all.slice(0, 20)) {
      const inks = Uint8Array.from(pixels.data, (_, k) =>
        k % 4 === 3 ? pixels.data[k - 1]! : 255,
      );
      expect(notes(raster(inks, [SIZE, SIZE, 4])), name).toContainEqual(
        expect.stringMatching(/% of the picture is transparent and .* fourth ink/),
      );
      // 0 none: paper is 0 in all four, a wash of cyan without black is transparent.
      const washed = Uint8Array.from(pixels.data, (_, k) => {
        const black = 255 - pixels.data[4 * Math.floor(k / 4)]!;
        return k % 4 === 3 ? black : k % 4 === 0 && k > pixels.data.length / 2 ? 200 : 0;
      });
      expect(notes(raster(washed, [SIZE, SIZE, 4])), name).toContainEqual(
        expect.stringMatching(/has colors of its own: alpha looks like a fourth ink/),
      );
    }
  });

  it('tell exchanged sides, and a column-major raster', () => {
    let told = 0;
    for (const { name, pixels } of all) {
      const data = upper(pixels, 80);
      const aboutSides = (pixels: PixelsLike): string[] =>
        notes(pixels).filter((why) => !/absorb|dense texture/.test(why));
      const exchanged = aboutSides(raster(data, [80, SIZE]));
      const columns = aboutSides(ndarray(data, [SIZE, 80]) as unknown as PixelsLike);
      for (const why of exchanged) expect(why, name).toMatch(/sides 128 × 80: they look exchanged/);
      for (const why of columns) expect(why, name).toMatch(/the raster looks column-major/);
      if (exchanged.length === 1 && columns.length === 1) told++;
    }
    expect(told).toBeGreaterThan(90);
  });

  it('say nothing of lines that run one way, or of grain', () => {
    const ruled = (across: boolean): Uint8Array =>
      Uint8Array.from({ length: SIZE * 80 }, (_, i) =>
        (across ? Math.floor(i / SIZE) : i % SIZE) % 10 === 4 ? 0 : 255,
      );
    expect(notes(raster(ruled(true), [SIZE, 80]))).toEqual([]);
    expect(notes(raster(ruled(false), [SIZE, 80]))).toEqual([]);
    const random = seeded(7);
    const grain = Uint8Array.from({ length: SIZE * 80 }, () => (random() < 0.1 ? 0 : 255));
    expect(
      notes(raster(grain, [SIZE, 80])).filter((why) => !/absorb|dense texture/.test(why)),
    ).toEqual([]);
  });

  it('tell many specks, and an absorb that helps', () => {
    const page = drawing('1F3E8', 256);
    const data = Uint8Array.from({ length: 256 * 256 }, (_, i) => page.data[4 * i]!);
    // Rings round one pixel of paper, on all paper that is wide enough.
    for (let y = 4; y < 250; y += 6) {
      for (let x = 4; x < 250; x += 6) {
        for (let v = -1; v <= 1; v++) for (let u = -1; u <= 1; u++) data[256 * (y + v) + x + u] = 0;
        data[256 * y + x] = 255;
      }
    }
    const speckled = raster(data, [256, 256]);
    const before = layFlats(speckled, { maxGap: 0 });
    // Rings as dense as these are texture to gap closing, with specks or without.
    const isTexture = (why: string): boolean => /^dense texture/.test(why);
    const of = ({ report }: typeof before) => report.notes.map(({ why }) => why);
    expect(of(before).filter(isTexture)).toHaveLength(1);
    const [note, ...others] = of(before).filter((why) => !isTexture(why));
    expect(others).toEqual([]);
    const helps = Number(/absorb: (\d+)/.exec(note!)![1]);
    expect(note).toMatch(/^\d+ of \d+ regions have at most 64 px of paper/);
    const after = layFlats(speckled, { maxGap: 0, absorb: helps });
    expect(of(after).filter((why) => !isTexture(why))).toEqual([]);
    expect(after.report.absorbed).toBeGreaterThan(0.95 * before.report.regions - 50);
  });
});
