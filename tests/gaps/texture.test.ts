import { describe, expect, it } from 'vitest';
import { layFlats } from '../../src/flats/index.ts';
import { studyGaps } from '../../src/gaps/index.ts';
import { type Bounds, raster } from '../../src/raster/index.ts';
import { symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';
import { type Bytes, draw, erase, page } from './strokes.ts';

/** A frame with a gap on the left, and a field of noise on the right. */
function half(): Bytes {
  const ink = draw(
    page(300, 150),
    4,
    [10, 20, 110, 20],
    [10, 120, 110, 120],
    [10, 20, 10, 120],
    [110, 20, 110, 120],
  );
  erase(ink, 6, [58, 20, 63, 20]);
  const random = seeded(5);
  for (let y = 0; y < 150; y++)
    for (let x = 170; x < 300; x++) ink.set(x, y, random() < 0.3 ? 1 : 0);
  return ink;
}

/** Hatching in a square, in strips as of a brush, and on its left a frame with a gap. */
function hatched(side: number): Bytes {
  const ink = draw(page(side + 120, side), 2, [10, 10, 90, 10], [10, 90, 90, 90], [90, 10, 90, 90]);
  draw(ink, 2, [10, 10, 10, 46], [10, 51, 10, 90]);
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      if ((x + 2 * y) % 9 < 3 && (x >> 5) % 2 === 0) ink.set(x + 120, y, 1);
    }
  }
  return ink;
}

const covers = (bounds: readonly Bounds[], x: number, y: number): boolean =>
  bounds.some(([x0, y0, x1, y1]) => x >= x0 && y >= y0 && x < x1 && y < y1);

describe('texture', () => {
  it('is where no gap is looked for; elsewhere gaps are closed', () => {
    const ink = half();
    const study = studyGaps(ink);
    expect(covers(study.texture, 235, 75)).toBe(true);
    expect(covers(study.texture, 60, 20)).toBe(false);
    const { bridges } = study.seal();
    for (const { from, to } of bridges) {
      const [x, y] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
      expect(covers(study.texture, x, y)).toBe(false);
    }
    expect(bridges.some(({ drawn, from }) => drawn && from[0] > 50 && from[0] < 70)).toBe(true);
  });

  it('lies alike in all symmetries', () => {
    const ink = half();
    const fields = studyGaps(ink).texture.map(([x0, y0, x1, y1]) => {
      const field = raster(new Uint8Array(ink.data.length), [...ink.shape]);
      for (let y = y0; y < y1; y++) for (let x = x0; x < x1; x++) field.set(x, y, 1);
      return symmetries(field);
    });
    symmetries(ink).forEach((turned, i) => {
      const { texture } = studyGaps(turned);
      expect(texture).toHaveLength(fields.length);
      for (const [x0, y0, x1, y1] of texture) {
        const hit = fields.filter((views) => views[i]!.get(x0, y0) === 1);
        expect(hit).toHaveLength(1);
        expect(hit[0]![i]!.get(x1 - 1, y1 - 1)).toBe(1);
      }
    });
  });

  it('is a field of hatching, too, whose squares are not dense alone; a patch of it is none', () => {
    const ink = hatched(400);
    const study = studyGaps(ink);
    for (const [x, y] of [
      [200, 100],
      [300, 200],
      [400, 300],
    ] as const) {
      expect(covers(study.texture, x, y)).toBe(true);
    }
    expect(covers(study.texture, 11, 48)).toBe(false);
    const { bridges } = study.seal();
    expect(bridges.some(({ drawn, from }) => drawn && from[0] < 20)).toBe(true);
    expect(studyGaps(hatched(150)).texture).toEqual([]);
  });

  it('is told in the notes of a sheet, and there is none in plain line art', () => {
    const { report } = layFlats({ ink: half() });
    expect(report.notes.map(({ why }) => why).join()).toMatch(
      /dense texture on \d+ % of the picture, first at \d+,\d+: no gaps are looked for there/,
    );
    const plain = draw(page(80, 60), 3, [10, 10, 70, 10], [10, 50, 70, 50]);
    expect(studyGaps(plain).texture).toEqual([]);
  });
});
