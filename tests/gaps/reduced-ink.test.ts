import { describe, expect, it } from 'vitest';
import {
  enlargePassages,
  reducedPixel,
  reduceInk,
  reductionFor,
} from '../../src/gaps/reduced-ink.ts';
import { findPassages } from '../../src/passages/tree.ts';
import { packMask } from '../../src/raster/pack.ts';
import { seeded } from '../support/random.ts';
import { draw, erase, page, ring } from './strokes.ts';

const dense = (data: Uint8Array, width: number, height: number) => ({
  data,
  width,
  height,
  channels: 1,
});

describe('reduceInk', () => {
  it('keeps about five pixels of the median stroke', () => {
    expect([0, 1, 4.9, 9.9, 10, 14, 15, 60].map(reductionFor)).toEqual([1, 1, 1, 1, 2, 2, 3, 12]);
  });

  it('is ink where fewer than `scale` of the pixels are paper, against a count', () => {
    const random = seeded(4);
    for (const [width, height, scale] of [
      [13, 7, 2],
      [12, 9, 3],
      [17, 11, 4],
      [1, 5, 2],
      [3, 2, 7],
    ] as const) {
      const data = Uint8Array.from({ length: width * height }, () => (random() < 0.8 ? 1 : 0));
      const small = reduceInk(packMask(dense(data, width, height), 'ink'), scale);
      expect([small.width, small.height]).toEqual([
        Math.ceil(width / scale),
        Math.ceil(height / scale),
      ]);
      for (let v = 0; v < small.height; v++) {
        for (let u = 0; u < small.width; u++) {
          let paper = 0;
          for (let y = v * scale; y < (v + 1) * scale; y++) {
            for (let x = u * scale; x < (u + 1) * scale; x++) {
              paper += x < width && y < height && data[y * width + x] === 1 ? 0 : 1;
            }
          }
          expect(small.data[v * small.width + u]).toBe(paper < scale ? 1 : 0);
        }
      }
    }
  });

  it('keeps an upright gap of one pixel wherever it lies', () => {
    for (const scale of [2, 3, 4]) {
      for (let at = 0; at < scale; at++) {
        const data = new Uint8Array(24 * 24).fill(1);
        for (let y = 0; y < 24; y++) data[y * 24 + 8 + at] = 0;
        const small = reduceInk(packMask(dense(data, 24, 24), 'ink'), scale);
        expect(small.data.filter((v) => v === 0)).toHaveLength(small.height);
      }
    }
  });

  it('gives the reduced pixel of ink, or one beside it', () => {
    const data = new Uint8Array(64);
    for (let y = 0; y < 8; y++) for (let x = 3; x < 8; x++) data[y * 8 + x] = 1;
    const small = reduceInk(packMask(dense(data, 8, 8), 'ink'), 2);
    expect(reducedPixel(small, 5, 4, 2)).toBe(2 * 4 + 2);
    // Column 3 shares its reduced pixel with paper.
    expect(reducedPixel(small, 3, 4, 2)).toBe(2 * 4 + 2);
  });
});

describe('enlargePassages', () => {
  it('puts the contacts of a passage on ink at both sides of the gap', () => {
    const ink = ring(page(200, 200), 100, 100, 80, 12);
    draw(ink, 12, [20, 100, 180, 100]);
    erase(ink, 20, [90, 100, 104, 100]);
    const full = dense(ink.data, 200, 200);
    const scale = reductionFor(12);
    const small = reduceInk(packMask(full, 'ink'), scale);
    const found = findPassages(small, packMask(small, 'ink')).found;
    const passages = enlargePassages(found, full, small, scale);
    const all = Array.from({ length: passages.length }, (_, i) => passages.get(i));
    const gaps = all.filter(({ width }) => width < 30);
    expect(gaps).toHaveLength(1);
    const [{ from, to, width }] = gaps as [(typeof gaps)[0]];
    expect([full.data[from], full.data[to]]).toEqual([1, 1]);
    const ends = [from % 200, to % 200].sort((a, b) => a - b);
    expect(Math.abs(ends[0]! - 89)).toBeLessThanOrEqual(2);
    expect(Math.abs(ends[1]! - 104)).toBeLessThanOrEqual(2);
    expect(Math.abs(width - 14)).toBeLessThanOrEqual(3);
  });
});
