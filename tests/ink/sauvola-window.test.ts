import { describe, expect, it } from 'vitest';
import { windowFor } from '../../src/ink/sauvola-window.ts';

/** Coverage of strokes of one width, upright or level, on a page of 300 × 260. */
function strokes(width: number, upright: boolean, dark = 255, paper = 0): Uint8Array {
  const data = new Uint8Array(300 * 260).fill(paper);
  for (let y = 0; y < 260; y++) {
    for (let x = 0; x < 300; x++) if ((upright ? x : y) % 60 < width) data[y * 300 + x] = dark;
  }
  return data;
}

describe('windowFor', () => {
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
