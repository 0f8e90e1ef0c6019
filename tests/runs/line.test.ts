import { describe, expect, it } from 'vitest';
import { linePixels } from '../../src/runs/line.ts';

describe('linePixels', () => {
  it('steps from neighbor to neighbor, never far from the ideal line', () => {
    const width = 41;
    for (let x = 0; x < 41; x += 4) {
      for (let y = 0; y < 41; y += 3) {
        const pixels = [...linePixels(20, 18, x, y, width)];
        expect(pixels).toHaveLength(Math.abs(x - 20) + Math.abs(y - 18) + 1);
        expect([pixels[0], pixels.at(-1)]).toEqual([18 * width + 20, y * width + x]);
        const length = Math.hypot(x - 20, y - 18) || 1;
        pixels.forEach((p, i) => {
          const [u, v] = [p % width, Math.floor(p / width)];
          const off = ((u - 20) * (y - 18) - (v - 18) * (x - 20)) / length;
          expect(Math.abs(off)).toBeLessThanOrEqual(Math.SQRT1_2 + 1e-9);
          if (i === 0) return;
          const before = pixels[i - 1]!;
          expect(Math.abs(u - (before % width)) + Math.abs(v - Math.floor(before / width))).toBe(1);
        });
      }
    }
  });
});
