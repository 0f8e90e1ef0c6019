import { describe, expect, it } from 'vitest';
import { sauvolaDefaults } from '../../src/ink/sauvola-defaults.ts';
import { thresholdInk } from '../../src/ink/threshold.ts';
import { raster } from '../../src/raster/raster.ts';

const windowFor = (data: Uint8Array, width: number, height: number) =>
  sauvolaDefaults(data, width, height).window;

/** Coverage of strokes of one width, upright or level, on a page of 300 × 260. */
function strokes(width: number, upright: boolean, dark = 255, paper = 0): Uint8Array {
  const data = new Uint8Array(300 * 260).fill(paper);
  for (let y = 0; y < 260; y++) {
    for (let x = 0; x < 300; x++) if ((upright ? x : y) % 60 < width) data[y * 300 + x] = dark;
  }
  return data;
}

describe('the default window of Sauvola', () => {
  it('is about 12 stroke widths, odd', () => {
    for (const width of [3, 5, 8, 12]) {
      for (const upright of [true, false]) {
        const side = windowFor(strokes(width, upright), 300, 260);
        expect(side % 2).toBe(1);
        // Crofton's formula averages over directions; strokes of one direction are off by π/2 or less.
        expect(side / (12 * width)).toBeGreaterThan(0.6);
        expect(side / (12 * width)).toBeLessThan(1.7);
        // Gray ink on tinted paper measures alike.
        expect(windowFor(strokes(width, upright, 200, 30), 300, 260)).toBe(side);
      }
    }
  });

  it('stays within 15 and 255 pixels', () => {
    expect(windowFor(new Uint8Array(100), 10, 10)).toBe(15);
    expect(windowFor(strokes(1, true), 300, 260)).toBeGreaterThanOrEqual(15);
    expect(windowFor(strokes(40, true), 300, 260)).toBeLessThanOrEqual(255);
  });
});

describe('the default k of Sauvola', () => {
  it.each([
    ['black on white', 255, 0],
    ['gray', 200, 30],
    ['pencil', 100, 20],
    ['faint', 60, 20],
  ])('cuts %s strokes halfway to the paper', (_, dark, paper) => {
    // Strokes of 8 pixels with edges of three grays on either side.
    const steps = [0.2, 0.4, 0.7];
    const [w, h] = [320, 256];
    const data = Uint8Array.from({ length: w * h }, (_, i) => {
      const at = (i % w) % 160;
      const off = at < 80 ? 76 - at : at - 83;
      const share = off <= 0 ? 1 : off <= 3 ? steps[3 - off]! : 0;
      return Math.round(paper + share * (dark - paper));
    });
    const { k } = sauvolaDefaults(data, w, h);
    expect(k).toBeGreaterThan(0.05);
    expect(k).toBeLessThanOrEqual(1);
    const found = thresholdInk(raster(data, [w, h]), { method: 'sauvola' }).data;
    const middle = (paper + dark) / 2;
    expect([...found]).toEqual([...data].map((v) => (v > middle ? 1 : 0)));
  });

  it('is 0.05 to 1 on pages without strokes', () => {
    for (const value of [0, 1, 128, 255]) {
      const { k } = sauvolaDefaults(new Uint8Array(100).fill(value), 10, 10);
      expect(k).toBeGreaterThanOrEqual(0.05);
      expect(k).toBeLessThanOrEqual(1);
    }
  });
});
