import { expect, it } from 'vitest';
import { rasterizePolygon } from '../../src/polygon/rasterize.ts';

/** A ring that crosses itself; no edge of it passes the center of a pixel. */
const RING = [
  [101.3, 10.2],
  [4900.7, 151.1],
  [203.9, 290.3],
  [2500.1, -20.7],
  [2600.6, 310.9],
  [4999.2, 40.4],
] as const;

// Rows are marked in bands of as many as the caches hold: here about fifty, and thirteen.
it.each(['evenodd', 'nonzero'] as const)(
  'a polygon over many bands of rows is filled by its crossings, %s',
  (rule) => {
    const [width, height] = [5000, 300];
    const { data } = rasterizePolygon([RING], [width, height], { rule });
    const expected = new Uint8Array(width * height);
    for (let y = 0; y < height; y++) {
      const crossings = RING.flatMap(([x1, y1], i) => {
        const [x0, y0] = RING.at(i - 1)!;
        if (y0 < y + 0.5 === y1 < y + 0.5) return [];
        return [{ x: x0 + ((y + 0.5 - y0) * (x1 - x0)) / (y1 - y0), turn: y0 < y1 ? 1 : -1 }];
      }).sort((a, b) => a.x - b.x);
      let winding = 0;
      crossings.forEach(({ x, turn }, k) => {
        winding += rule === 'evenodd' ? 1 - 2 * winding : turn;
        const next = crossings[k + 1];
        if (winding === 0 || next === undefined) return;
        const [from, to] = [x, next.x].map((at) =>
          Math.min(width, Math.max(0, Math.ceil(at - 0.5))),
        );
        expected.fill(1, y * width + from!, y * width + to!);
      });
    }
    const wrong = data.findIndex((is, p) => is !== expected[p]);
    expect([wrong % width, Math.floor(wrong / width)]).toEqual([-1, -1]);
    expect(data.reduce((sum, is) => sum + is, 0)).toBeGreaterThan(100_000);
  },
);
