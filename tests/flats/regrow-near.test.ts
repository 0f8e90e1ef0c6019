import fc from 'fast-check';
import { describe, it } from 'vitest';
import { expectRegrown } from './regrown.ts';

const [WIDTH, HEIGHT] = [150, 110];

const box = fc.record({
  x: fc.nat({ max: WIDTH - 1 }),
  y: fc.nat({ max: HEIGHT - 1 }),
  w: fc.integer({ min: 1, max: 60 }),
  h: fc.integer({ min: 1, max: 60 }),
  brush: fc.integer({ min: 1, max: 6 }),
});
type Box = typeof box extends fc.Arbitrary<infer T> ? T : never;

/** Sets the frame of a box, or all of it where the brush is thick. */
function frame(mask: Uint8Array, { x, y, w, h, brush }: Box, value: number): void {
  for (let v = y; v < Math.min(HEIGHT, y + h); v++) {
    for (let u = x; u < Math.min(WIDTH, x + w); u++) {
      const inner = u >= x + brush && u < x + w - brush && v >= y + brush && v < y + h - brush;
      if (!inner) mask[v * WIDTH + u] = value;
    }
  }
}

/** Frames of ink that overlap, tones with few levels, so that ties are many, and a change or some. */
const pages = fc.record({
  frames: fc.array(box, { minLength: 1, maxLength: 12 }),
  changes: fc.array(fc.tuple(box, fc.integer({ min: 1, max: 9 }), fc.nat({ max: 1 })), {
    minLength: 1,
    maxLength: 3,
  }),
  levels: fc.integer({ min: 1, max: 5 }),
  grain: fc.integer({ min: 1, max: 40 }),
  seed: fc.nat(),
});

describe('floods near what has changed', () => {
  it('win what floods of the whole picture win', () => {
    fc.assert(
      fc.property(pages, ({ frames, changes, levels, grain, seed }) => {
        const before = new Uint8Array(WIDTH * HEIGHT);
        for (const one of frames) frame(before, one, 1);
        const now = before.slice();
        for (const [one, size, value] of changes) frame(now, { ...one, w: size, h: size }, value);
        const tones = Uint8Array.from(before, (_, p) => {
          const [x, y] = [p % WIDTH, Math.floor(p / WIDTH)];
          const place = Math.floor(x / grain) * 7919 + Math.floor(y / grain) * 104_729 + seed;
          return 50 * ((Math.imul(place, 0x9e3779b1) >>> 16) % levels);
        });
        expectRegrown(before, now, [WIDTH, HEIGHT], tones);
      }),
      { numRuns: 600 },
    );
  });
});
