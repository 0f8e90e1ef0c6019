import { describe, expect, it } from 'vitest';
import { inkCoverage } from '../../src/ink/coverage.ts';
import { normalizePaper } from '../../src/ink/normalize-paper.ts';
import { thresholdInk } from '../../src/ink/threshold.ts';
import { raster } from '../../src/raster/raster.ts';
import { otherViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

/** Tones of a page whose light falls off along both sides, with a line of ink every ninth column. */
function page(width: number, height: number, full: number, fall: number) {
  return Array.from({ length: width * height }, (_, i) => {
    const [x, y] = [i % width, Math.floor(i / width)];
    const light = 1 - (fall * x) / width - (0.1 * y) / height;
    return Math.round(full * light * (x % 9 === 4 ? 0.3 : 0.95));
  });
}

describe('normalizePaper', () => {
  it.each([
    ['8', Uint8Array, 255],
    ['8 clamped', Uint8ClampedArray, 255],
    ['16', Uint16Array, 65_535],
  ] as const)('makes falling light even with %s bits', (_, kind, full) => {
    const found = normalizePaper(raster(kind.from(page(500, 300, full, 0.5)), [500, 300, 1]));
    expect(found.data).toBeInstanceOf(kind);
    expect(found.shape).toEqual([500, 300, 1]);
    // Beyond the outermost middles of blocks the paper is taken as level.
    const shares = Array.from(found.data, (v) => v / full);
    const paper = shares.filter((_, i) => (i % 500) % 9 !== 4);
    const ink = shares.filter((_, i) => (i % 500) % 9 === 4);
    expect(Math.min(...paper.slice(0, 1e5))).toBeGreaterThan(0.88);
    const off = ink.map((share) => Math.abs(share - 0.3 / 0.95));
    expect(Math.max(...off)).toBeLessThan(0.05);
    expect(off.reduce((a, b) => a + b) / off.length).toBeLessThan(0.01);
  });

  it('divides each channel by its own paper and leaves alpha', () => {
    const [w, h] = [130, 70];
    const data = Uint8Array.from({ length: 4 * w * h }, (_, k) =>
      k % 4 === 3 ? 200 : [240, 220, 160][k % 4]!,
    );
    data.set([120, 110, 80, 77], 4 * (30 * w + 30));
    const found = normalizePaper(raster(data, [w, h, 4]));
    expect([...found.data.subarray(0, 4)]).toEqual([255, 255, 255, 200]);
    expect([...found.data.subarray(4 * (30 * w + 30), 4 * (30 * w + 31))]).toEqual([
      128, 128, 128, 77,
    ]);
  });

  it('does not count what is transparent', () => {
    const data = Uint8Array.from([255, 127, 100, 128, 50, 128, 100, 255]);
    expect([...normalizePaper(raster(data, [4, 1, 2])).data]).toEqual([
      255, 127, 255, 128, 128, 128, 255, 255,
    ]);
  });

  it('takes the paper of solid ink from beside it', () => {
    const [w, h] = [320, 192];
    const inside = (i: number) => i % w >= 60 && i % w < 260 && i >= 60 * w && i < 130 * w;
    const tones = Uint8Array.from({ length: w * h }, (_, i) => (inside(i) ? 20 : 200));
    const found = normalizePaper(raster(tones, [w, h])).data;
    expect(found.every((v, i) => v === (inside(i) ? Math.round((255 * 20) / 200) : 255))).toBe(
      true,
    );
  });

  it('leaves white paper and black pages as they are', () => {
    const random = seeded(5);
    const ink = Uint8Array.from({ length: 200 * 100 }, () =>
      random() < 0.1 ? 255 * random() : 255,
    );
    expect([...normalizePaper(raster(ink, [200, 100])).data]).toEqual([...ink]);
    expect([...normalizePaper(raster(new Uint8Array(100), [10, 10])).data]).toEqual(
      new Array(100).fill(0),
    );
  });

  it('is what thresholdInk measures with "normalize"', () => {
    const tones = raster(Uint8Array.from(page(300, 200, 255, 0.6)), [300, 200]);
    const after = inkCoverage(normalizePaper(tones), { paper: 'white' });
    const within = inkCoverage(tones, { paper: 'white' });
    for (const level of [40, 90, 127, 170]) {
      const direct = thresholdInk(after, { level });
      expect([...thresholdInk(within, { level, normalize: true }).data]).toEqual([...direct.data]);
    }
  });

  it('reads every view and gives the same in mirrored pictures of whole blocks', () => {
    const tones = raster(Uint8Array.from(page(128, 192, 255, 0.4)), [128, 192]);
    const plain = normalizePaper(tones);
    for (const view of otherViews(tones)) expect(normalizePaper(view).data).toEqual(plain.data);
    symmetries(tones).forEach((view, s) => {
      const [w, h] = view.shape as [number, number];
      const found = normalizePaper(view);
      const expected = raster(plain.data, [128, 192]);
      const mirrored = symmetries(expected)[s]!;
      const same = Array.from({ length: w * h }, (_, i) => mirrored.get(i % w, Math.floor(i / w)));
      expect([...found.data]).toEqual(same);
    });
  });

  it.each([
    [1, 1],
    [1, 70_001],
    [70_001, 1],
    [63, 65],
    [97, 31],
  ])('takes %i × %i', (w, h) => {
    const found = normalizePaper(raster(new Uint8Array(w * h).fill(180), [w, h]));
    expect(found.data.every((v) => v === 255)).toBe(true);
  });

  it('refuses what holds no pixels', () => {
    // @ts-expect-error a mask of floats is no picture
    expect(() => normalizePaper(raster(new Float32Array(4), [2, 2]))).toThrow(TypeError);
  });
});
