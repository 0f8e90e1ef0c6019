import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseThreshold } from '../../src/ink/choose-threshold.ts';
import { histogramOf, levelOf, otsuLevel } from '../../src/ink/otsu.ts';
import { thresholdInk } from '../../src/ink/threshold.ts';
import { raster } from '../../src/raster/raster.ts';
import { mask, otherViews, symmetries } from '../support/grids.ts';
import { samplePicture } from './sample-pictures.ts';

interface Reference {
  name: string;
  values: number[];
  counts: number[];
  /** By `threshold_otsu`. */
  'scikit-image': number;
  /** By `threshold` with `THRESH_OTSU`. */
  opencv: number;
  /** All best levels by the definition, in rational arithmetic. */
  exact: number[];
}

const file = new URL('reference/otsu.json', import.meta.url);
const references: Reference[] = JSON.parse(readFileSync(file, 'utf8')).histograms;

function histogram({ values, counts }: Reference): Float64Array {
  const table = new Float64Array(256);
  values.forEach((value, i) => {
    table[value] = counts[i]!;
  });
  return table;
}

/** A raster one pixel high with the given counts per value. */
function coverageOf(counts: Record<number, number>) {
  const data = Object.entries(counts).flatMap(([value, n]) => new Array<number>(n).fill(+value));
  return raster(Uint8Array.from(data), [data.length, 1]);
}

describe('otsuLevel', () => {
  it('has reference histograms of made tones and of pictures', () => {
    expect(references.length).toBe(88);
  });

  it.each(references)('of "$name" is what scikit-image and OpenCV find', (reference) => {
    const level = levelOf(histogram(reference));
    expect(level).toBe(reference['scikit-image']);
    // The lowest of equally good levels.
    expect(level).toBe(reference.exact[0]);
    if (reference.name === 'three values, even steps') {
      // 0 to 99 and 100 to 199 part it equally well. OpenCV takes the lowest too, but its rounding
      // errors put 100 above 0.
      expect(reference.exact).toEqual(Array.from({ length: 200 }, (_, v) => v));
      expect(reference.opencv).toBe(100);
    } else {
      expect(level).toBe(reference.opencv);
    }
  });

  it('of a whole picture is what scikit-image and OpenCV find', () => {
    for (const name of ['page', 'text', 'coins'] as const) {
      const reference = references.find((other) => other.name === name)!;
      const level = otsuLevel(samplePicture(name));
      expect([level, level]).toEqual([reference['scikit-image'], reference.opencv]);
    }
  });

  it('of a raster is that of its histogram', () => {
    const small = references.filter(({ counts }) => counts.reduce((a, b) => a + b) < 200_000);
    expect(small.length).toBeGreaterThan(20);
    for (const reference of small) {
      const { values, counts } = reference;
      const data = new Uint8Array(counts.reduce((a, b) => a + b));
      let at = 0;
      values.forEach((value, i) => {
        data.fill(value, at, (at += counts[i]!));
      });
      expect(otsuLevel(raster(data, [data.length, 1]))).toBe(reference.exact[0]);
    }
  });

  it('of a raster of one value is that value', () => {
    for (let v = 0; v < 256; v++) {
      expect(otsuLevel(raster(new Uint8Array(5).fill(v), [5, 1]))).toBe(v);
    }
  });

  it('counts every value whatever the length', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1, maxLength: 70 }), (data) => {
        const plain = new Float64Array(256);
        for (const v of data) plain[v]! += 1;
        expect(histogramOf(data)).toEqual(plain);
      }),
      { seed: 3 },
    );
  });
});

describe('chooseThreshold', () => {
  const half = { method: 'fixed', level: 127, normalize: false };
  const clean = { ...half, why: 'clean drawing: cut at half coverage' };

  it('cuts a clean drawing at half coverage', () => {
    expect(chooseThreshold(coverageOf({ 0: 80, 130: 10, 255: 10 }))).toEqual(clean);
    expect(chooseThreshold(coverageOf({ 7: 50, 100: 25, 248: 25 }))).toEqual(clean);
    expect(chooseThreshold(coverageOf({ 0: 9 }))).toEqual(clean);
  });

  it('cuts halfway from paper to solid ink where tones outweigh solid ink or paper is scarce', () => {
    const why = 'soft edges on even paper: halfway from paper to solid ink';
    // The median of what is not above Otsu's level, and what a fifth of the rest exceeds.
    for (const [counts, level] of [
      [{ 0: 40, 130: 6, 255: 5 }, (0 + 255) / 2],
      [{ 7: 26, 60: 1, 100: 20, 248: 4 }, (7 + 100) / 2],
      [{ 20: 40, 60: 15, 200: 5 }, (20 + 200) / 2],
      [{ 20: 30, 30: 15, 150: 7, 190: 1, 240: 2 }, (20 + 190) / 2],
      [{ 8: 40, 100: 4, 248: 20 }, (8 + 248) / 2],
    ] as const) {
      const coverage = coverageOf(counts);
      expect(chooseThreshold(coverage)).toEqual({ ...half, level: Math.floor(level), why });
    }
  });

  it('does not take grain for ink on a page of little ink', () => {
    // Normal grain of σ 12 about paper of 30 and about 0, where it is cut off; four strokes of 200.
    const bell = [1, 3, 9, 24, 54, 106, 180, 265, 338, 376, 338, 265, 180, 106, 54, 24, 9, 3, 1];
    for (const [middle, level] of [
      [30, 115],
      [0, 100],
    ] as const) {
      const tones = bell.flatMap((n, k) =>
        new Array<number>(n).fill(Math.max(0, middle + 4 * (k - 9))),
      );
      const data = Uint8Array.from([...tones, ...new Array<number>(4).fill(200)]);
      // Scattered, so that every block has as much of each tone.
      const scattered = data.map((_, i) => data[(i * 1009) % data.length]!);
      const page = raster(scattered, [1, data.length]);
      expect(chooseThreshold(page).level).toBe(level);
      expect(otsuLevel(page)).toBeLessThan(60);
    }
  });

  it('has no level to choose where there is one tone', () => {
    const one = { ...half, why: 'one tone: no level to choose' };
    expect(chooseThreshold(coverageOf({ 255: 9 }))).toEqual(one);
    expect(chooseThreshold(coverageOf({ 60: 9 }))).toEqual(one);
  });

  it('normalizes first where the paper is uneven by a tenth', () => {
    // Light that falls off from left to right, and a line of ink every eighth row.
    const page = (fall: number) =>
      raster(
        Uint8Array.from({ length: 640 * 64 }, (_, i) => {
          const light = 1 - (fall * (i % 640)) / 639;
          return 255 - Math.round((Math.floor(i / 640) % 8 === 3 ? 90 : 250) * light);
        }),
        [640, 64],
      );
    const even = chooseThreshold(page(0.08));
    expect(even).toMatchObject({ method: 'fixed', normalize: false });
    const uneven = chooseThreshold(page(0.45));
    expect(uneven).toMatchObject({ method: 'fixed', normalize: true });
    expect(uneven.why).toMatch(/^paper uneven by \d\d %: normalized/);
    // 1 − 90 / 250 of 255 is the ink, half of it the level.
    expect(Math.abs(uneven.level! - 82)).toBeLessThanOrEqual(3);
    for (const fall of [0.08, 0.2, 0.45]) {
      const found = thresholdInk(page(fall)).data;
      expect(found.every((v, i) => v === (Math.floor(i / 640) % 8 === 3 ? 1 : 0))).toBe(true);
    }
  });
});

describe('thresholdInk', () => {
  const coverage = mask(`
      0   1 126 127
    128 129 254 255
  `);
  const above = (level: number) => [...coverage.data].map((v) => (v > level ? 1 : 0));

  it('is 1 where coverage is above the level, at every level', () => {
    for (let level = 0; level < 255; level++) {
      expect([...thresholdInk(coverage, { level }).data]).toEqual(above(level));
      expect([...thresholdInk(coverage, { method: 'fixed', level }).data]).toEqual(above(level));
    }
  });

  it('cuts at half coverage with "fixed", at the level of the histogram with "otsu"', () => {
    expect([...thresholdInk(coverage, { method: 'fixed' }).data]).toEqual(above(127));
    expect([...thresholdInk(coverage, { method: 'otsu' }).data]).toEqual(
      above(otsuLevel(coverage)),
    );
  });

  it('takes what chooseThreshold says when nothing is asked for', () => {
    for (const counts of [
      { 0: 80, 60: 3, 255: 10 },
      { 20: 80, 60: 30, 200: 10 },
      { 20: 60, 30: 30, 150: 7, 240: 3 },
    ]) {
      const gray = coverageOf(counts);
      const level = chooseThreshold(gray).level!;
      const expected = [...gray.data].map((v) => (v > level ? 1 : 0));
      expect([...thresholdInk(gray).data]).toEqual(expected);
      expect([...thresholdInk(gray, { method: 'auto' }).data]).toEqual(expected);
    }
  });

  it('works on every view and returns a row-major mask', () => {
    for (const view of [...symmetries(coverage), ...otherViews(coverage)]) {
      const found = thresholdInk(view, { level: 127 });
      const [w, h] = view.shape as [number, number];
      expect(found.shape).toEqual([w, h]);
      expect(found.stride).toEqual([1, w]);
      for (let y = 0; y < h; y++) {
        for (let x = 0; x < w; x++) expect(found.get(x, y)).toBe(view.get(x, y)! > 127 ? 1 : 0);
      }
    }
  });

  it('writes into `out` and returns it', () => {
    const out = raster(new Uint8Array(8).fill(9), [4, 2]);
    expect(thresholdInk(coverage, { level: 127, out })).toBe(out);
    expect([...out.data]).toEqual(above(127));
  });

  it('refuses what it cannot take, word for word', () => {
    const call = (options: object) => () => thresholdInk(coverage, options);
    expect(call({ level: 255 })).toThrow(
      new RangeError('level must be a finite number of coverage from 0 to 254, got 255'),
    );
    expect(call({ level: -1 })).toThrow(
      new RangeError('level must be a finite number of coverage from 0 to 254, got -1'),
    );
    expect(call({ level: '127' })).toThrow(
      new TypeError('level must be a finite number of coverage from 0 to 254, got "127"'),
    );
    expect(call({ method: 'otsuu' })).toThrow(
      new RangeError(
        'method must be one of "auto", "fixed", "hysteresis", "otsu", "sauvola", got "otsuu"; did you mean "otsu"?',
      ),
    );
    expect(call({ method: 'otsu', level: 3 })).toThrow(
      new RangeError('level must be left out with method "otsu", got 3'),
    );
    expect(call({ method: 'auto', level: 3 })).toThrow(
      new RangeError('level must be left out with method "auto", got 3'),
    );
    expect(call({ levle: 3 })).toThrow(
      /^thresholdInk has no option "levle"; did you mean "level"\?/,
    );
    expect(() => thresholdInk(raster(new Float32Array(4), [2, 2]) as never)).toThrow(
      new TypeError(
        'coverage must be a Uint8 coverage of shape [width, height], got Float32Array(4)',
      ),
    );
  });
});
