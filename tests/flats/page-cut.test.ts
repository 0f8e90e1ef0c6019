import { describe, expect, it } from 'vitest';
import { divideRuns } from '../../src/flats/page/divide-runs.ts';
import { packMask } from '../../src/raster/pack.ts';
import { divideRegion } from '../../src/regions/divide.ts';
import { findRuns, type Runs } from '../../src/runs/runs.ts';
import { seeded } from '../support/random.ts';

const [WIDTH, HEIGHT] = [170, 130];

function runsOf(data: Uint8Array): Runs {
  return findRuns(packMask({ data, width: WIDTH, height: HEIGHT, channels: 1 }, 'data'), 1);
}

// Checked against the same over pixels, which asks for the nearest piece in the whole picture.
describe('divideRuns', () => {
  it('gives pixels in no piece to the nearest, however far a window round the pieces reaches', () => {
    const random = seeded(11);
    let divided = 0;
    for (let n = 0; n < 120; n++) {
      const own = new Uint8Array(WIDTH * HEIGHT).fill(1);
      const after = own.slice();
      const clear = (data: Uint8Array, most: number): void => {
        const [w, h] = [1 + Math.floor(most * random()), 1 + Math.floor(most * random())];
        const [x0, y0] = [Math.floor(random() * WIDTH), Math.floor(random() * HEIGHT)];
        for (let y = y0; y < Math.min(HEIGHT, y0 + h); y++) {
          data.fill(0, y * WIDTH + x0, y * WIDTH + Math.min(WIDTH, x0 + w));
        }
      };
      // Holes of the region, ink in it, and a frame of ink that cuts a piece off.
      for (let k = 0; k < 4; k++) clear(own, 50);
      for (let k = 0; k < 6; k++) clear(after, 40);
      const [x0, y0] = [Math.floor(random() * 120), Math.floor(random() * 90)];
      const [w, h, brush] = [8 + 40 * random(), 8 + 30 * random(), 1 + 8 * random()];
      for (let y = y0; y < Math.min(HEIGHT, y0 + h + brush); y++) {
        for (let x = x0; x < Math.min(WIDTH, x0 + w + brush); x++) {
          const isInside = x >= x0 + brush && y >= y0 + brush && x < x0 + w && y < y0 + h;
          if (!isInside) after[y * WIDTH + x] = 0;
        }
      }
      after.forEach((is, p) => {
        if (is === 1) after[p] = own[p]!;
      });
      const line = Int32Array.from(own.keys()).filter((p) => own[p] === 1 && after[p] === 0);
      const labels = Int32Array.from(own);
      const bounds = [0, 0, WIDTH, HEIGHT] as const;
      const whole = divideRegion({ labels, width: WIDTH, bounds, id: 1, line, nextId: 2 });
      const found = Int32Array.from(own);
      const region = { bounds, own: runsOf(own), after: runsOf(after), id: 1, nextId: 2 };
      const runs = divideRuns({ ...region, pulse: () => {} });
      runs.each((y, start, end, id) => found.fill(id, y * WIDTH + start, y * WIDTH + end));
      expect(runs.nextId).toBe(whole.nextId);
      expect(found.findIndex((id, p) => id !== labels[p])).toBe(-1);
      if (whole.nextId > 2) divided++;
    }
    expect(divided).toBeGreaterThan(60);
  });
});
